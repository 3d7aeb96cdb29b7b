#pragma once
// The outside world, as far as the interpreter knows it: texts behind paths. The command reads
// disk, an editor its open buffers, a test a table in memory.

#include <functional>
#include <map>
#include <string>
#include <variant>

namespace levigate {

enum class Unreadable : std::uint8_t {
    missing,
    directory,
    denied,
    outside,
    too_big,
    changing,
    failed
};

/// A text, or why there is none.
struct FileText {
    std::variant<std::string, Unreadable> text;
    std::string identity;  ///< the same for two paths to one file
};

/// The most that one file may hold, in bytes.
inline constexpr std::size_t largest_file = 16u << 20;

struct World {
    /// Reads the file named on the command line.
    std::function<FileText(const std::string& path)> open;
    /// Reads `relative`, written in the file `from`; never from outside the folder of `root`.
    std::function<FileText(const std::string& root, const std::string& from,
                           const std::string& relative, std::string& shown_path)>
        open_beside;
};

/// What a test does to files between the steps of reading one.
struct Meanwhile {
    std::function<void()> before{};  ///< its size is known, and nothing of it was read
    std::function<void()> after{};   ///< all of it was read
};

/// A file that changes while it is read is read again, three times in all; then it is `changing`.
World disk_world(const Meanwhile& meanwhile = {});
/// A world of which this alone is known: what stands behind a path with `/` between its parts.
/// Where `use` leads is told by the words of the paths.
World world_of(std::function<FileText(const std::string& path)> open);
/// For tests and pages: paths to texts.
World memory_world(std::map<std::string, std::string> files);

}  // namespace levigate
