#pragma once
// Where results go: standard output, or a file that is there whole or not at all.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/cli/verb.hpp"

namespace levigate::cli {

/// Bytes at which a buffer is written out, so that a catalogue never stands in memory as text.
inline constexpr std::size_t drain_at = 1u << 18;

class Output {
public:
    /// `-o` and `--replace` as they were given; without `-o`, or behind it
    /// `-`, standard output. The operands
    /// and `sources` are files that must not be written over. When something is in the way,
    /// problem() says so.
    static Output open(const Arguments& arguments, const std::vector<std::string>& sources);
    /// In the place of a file that is there, or of the one that it is a link to, for as long as it
    /// holds `before`, which must outlive this: what somebody else writes meanwhile is not lost.
    static Output over(const std::string& path, std::string_view before);
    Output(Output&& from) noexcept;
    Output& operator=(Output&&) = delete;
    ~Output();

    /// Writes the buffer and empties it. After a failure it only empties.
    void drain(std::string& buffer);
    /// Writes what is left, and puts the file in its place. False where anything failed.
    bool finish(std::string& buffer);
    /// In a person's words; empty where all went well.
    const std::string& problem() const { return problem_; }

private:
    Output() = default;
    void begin(const std::string& path, bool replace);
    void fail(std::string_view what, int error);
    void put_in_place();

    int file_ = 1;
    std::string path_, part_;  // empty: standard output
    bool replace_ = false;
    std::optional<std::string_view> before_;
    std::string problem_;
};

/// What the system says of a failure, in a person's words.
std::string reason(int error);
/// For people. Never fails: there is nowhere left to complain to.
void say(std::string_view text);
/// Why the results could not be written, in the form of a finding.
void say_problem(const Output& output);

}  // namespace levigate::cli
