#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

// The bytes of a file as they are; nothing if it can't be read.
std::optional<std::string> read_file(const std::filesystem::path& path);
// Writes the bytes, and makes the folders on the way. False if that fails.
bool write_file(const std::filesystem::path& path, std::string_view text);

// Lines without their LF; a last line without LF counts, an empty rest doesn't.
std::vector<std::string> split_lines(std::string_view text);
std::size_t code_points(std::string_view text);

// For a person's eye: control bytes other than LF as \xHH.
std::string visible(std::string_view text);

// "  same", "- expected", "+ came" lines, with three same lines around each change. Empty for
// equal texts; a difference in the last LF alone is said in words.
std::string difference(std::string_view expected, std::string_view came);

// A folder of one's own, gone at the end of the scope.
class ScratchFolder {
public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

}  // namespace levigate::testing
