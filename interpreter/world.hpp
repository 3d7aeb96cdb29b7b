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

World disk_world();
/// A world of which this alone is known: what stands behind a path with `/` between its parts.
/// Where `use` leads is told by the words of the paths.
World world_of(std::function<FileText(const std::string& path)> open);
/// For tests and pages: paths to texts.
World memory_world(std::map<std::string, std::string> files);

}  // namespace levigate
