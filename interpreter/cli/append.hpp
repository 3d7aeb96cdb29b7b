#pragma once
// Adding to a file that is never rewritten.

#include <string>
#include <string_view>

namespace levigate::cli {

/// A file that is to be added to. From its opening to its end no other run of this program adds to
/// it, so what is added may follow from what is there. A file that is new and to which nothing came
/// is taken away again.
class Appending {
public:
    explicit Appending(std::string path);
    Appending(const Appending&) = delete;
    Appending& operator=(const Appending&) = delete;
    ~Appending();

    /// In a person's words; empty where all went well.
    const std::string& problem() const { return problem_; }
    const std::string& text() const { return text_; }

    /// Adds a block behind all that is there, with an empty line between, in one piece: all of it,
    /// or where that fails nothing. If the machine stops meanwhile, a piece of it may be there.
    bool add(std::string_view block);

private:
    void open();
    void read();
    void fail(std::string_view what);
    bool write(std::string_view text);

    std::string path_, text_, problem_;
    int file_ = -1;
    bool created_ = false;  ///< by this, and still empty
};

}  // namespace levigate::cli
