#include "interpreter/world.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace levigate {
namespace {

namespace fs = std::filesystem;

Unreadable why(int error) {
    switch (error) {
        case ENOENT:
        case ENOTDIR: return Unreadable::missing;
        case EACCES:
        case EPERM: return Unreadable::denied;
        case EISDIR: return Unreadable::directory;
        default: return Unreadable::failed;
    }
}

// Reads to the end, one byte past the largest file at most, so that a file that grows meanwhile
// is caught too.
std::variant<std::string, Unreadable> read_all(int file, std::size_t expected) {
    std::string text(expected + 1, '\0');
    std::size_t size = 0;
    for (;;) {
        if (size > largest_file) return Unreadable::too_big;
        if (size == text.size()) text.resize(std::min(2 * size, largest_file + 1));
        ssize_t got = ::read(file, text.data() + size, text.size() - size);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return why(errno);
        if (got == 0) break;
        size += static_cast<std::size_t>(got);
    }
    text.resize(size);
    return text;
}

// Regular files only: a pipe could wait for ever, a device never end. Opening does not wait.
std::variant<std::string, Unreadable> read_path(const std::string& path) {
    int file = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
    if (file < 0) return why(errno);
    std::variant<std::string, Unreadable> text = Unreadable::failed;
    struct stat about = {};
    if (::fstat(file, &about) != 0)
        text = why(errno);
    else if (S_ISDIR(about.st_mode))
        text = Unreadable::directory;
    else if (S_ISREG(about.st_mode) && about.st_size > static_cast<off_t>(largest_file))
        text = Unreadable::too_big;
    else if (S_ISREG(about.st_mode))
        text = read_all(file, static_cast<std::size_t>(about.st_size));
    ::close(file);
    return text;
}

FileText open_on_disk(const std::string& path) {
    std::error_code error;
    fs::path identity = fs::canonical(path, error);
    return {read_path(path), error ? path : identity.string()};
}

fs::path folder_of(const fs::path& file) {
    fs::path folder = file.parent_path();
    return folder.empty() ? fs::path(".") : folder;
}

/// Both without `..` where they can do without: is `path` in `folder`, or deeper?
bool is_inside(const fs::path& path, const fs::path& folder) {
    fs::path relative = path.lexically_relative(folder);
    return !relative.empty() && *relative.begin() != "..";
}

/// What `use "relative"` in the file `from` means as written. False where the words alone lead out
/// of root's folder, if only for a step: a way out and in again would hang on the folder's name.
bool beside(const std::string& root, const std::string& from, const std::string& relative,
            fs::path& path) {
    if (relative.find('\\') != std::string::npos || fs::path(relative).is_absolute()) return false;
    fs::path here = folder_of(from).lexically_normal();
    fs::path way = here.lexically_relative(folder_of(root).lexically_normal());
    int depth = 0;
    for (const fs::path& step : way / relative) {
        if (step == "..")
            --depth;
        else if (step != "." && !step.empty())
            ++depth;
        if (depth < 0) return false;
    }
    path = (here / relative).lexically_normal();
    return !way.empty();
}

FileText open_beside_on_disk(const std::string& root, const std::string& from,
                             const std::string& relative, std::string& shown_path) {
    shown_path = relative;
    fs::path path;
    if (relative.empty() || relative.find('\0') != std::string::npos)
        return {Unreadable::missing, relative};
    if (!beside(root, from, relative, path)) return {Unreadable::outside, relative};
    shown_path = path.string();
    std::error_code error;
    fs::path folder = fs::canonical(folder_of(root), error);
    if (error) return {why(error.value()), shown_path};
    // Follows symbolic links. Of a path that isn't there it keeps the rest as it is written, so
    // the rest must begin somewhere.
    fs::path real = fs::weakly_canonical(fs::absolute(path), error);
    if (error) return {why(error.value()), shown_path};
    if (!is_inside(real, folder)) return {Unreadable::outside, shown_path};
    return {read_path(real.string()), real.string()};
}

}  // namespace

World disk_world() { return {open_on_disk, open_beside_on_disk}; }

World world_of(std::function<FileText(const std::string& path)> open) {
    auto open_beside = [open](const std::string& root, const std::string& from,
                              const std::string& relative, std::string& shown_path) -> FileText {
        fs::path path;
        shown_path = relative;
        if (relative.empty()) return {Unreadable::missing, relative};
        if (!beside(root, from, relative, path)) return {Unreadable::outside, relative};
        shown_path = path.string();
        return open(shown_path);
    };
    return {std::move(open), open_beside};
}

World memory_world(std::map<std::string, std::string> files) {
    return world_of([files = std::move(files)](const std::string& path) -> FileText {
        std::string identity = fs::path(path).lexically_normal().string();
        auto found = files.find(path);
        if (found == files.end()) found = files.find(identity);
        if (found == files.end()) return {Unreadable::missing, identity};
        if (found->second.size() > largest_file) return {Unreadable::too_big, identity};
        return {found->second, identity};
    });
}

}  // namespace levigate
