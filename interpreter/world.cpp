#include "interpreter/world.hpp"

#include <algorithm>
#include <cerrno>
#include <ctime>
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

bool same_state(const struct stat& a, const struct stat& b) {
    const auto same = [](const timespec& x, const timespec& y) {
        return x.tv_sec == y.tv_sec && x.tv_nsec == y.tv_nsec;
    };
    // A file that another was put in the place of has no name any more, and is whole.
    return a.st_size == b.st_size && same(a.st_mtim, b.st_mtim) &&
           (same(a.st_ctim, b.st_ctim) || b.st_nlink == 0);
}

// Whether the file still holds the text. Its times alone don't tell: they move by milliseconds, and
// what is written over in place may keep the size.
bool holds(int file, const std::string& text) {
    std::string again(std::min<std::size_t>(text.size() + 1, 1u << 16), '\0');
    for (std::size_t at = 0;;) {
        const ssize_t got = ::pread(file, again.data(), again.size(), static_cast<off_t>(at));
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return false;
        if (got == 0) return at == text.size();
        const auto size = static_cast<std::size_t>(got);
        if (text.compare(at, size, again.data(), size) != 0) return false;
        at += size;
    }
}

// Regular files only: a pipe could wait for ever, a device never end. A text that was written to
// while it was read is none: half of it may be old.
std::variant<std::string, Unreadable> read_open(int file, const Meanwhile& meanwhile) {
    struct stat before = {}, after = {};
    if (::fstat(file, &before) != 0) return why(errno);
    if (S_ISDIR(before.st_mode)) return Unreadable::directory;
    if (!S_ISREG(before.st_mode)) return Unreadable::failed;
    if (before.st_size > static_cast<off_t>(largest_file)) return Unreadable::too_big;
    if (meanwhile.before) meanwhile.before();
    auto text = read_all(file, static_cast<std::size_t>(before.st_size));
    if (meanwhile.after) meanwhile.after();
    if (::fstat(file, &after) != 0) return why(errno);
    const auto* whole = std::get_if<std::string>(&text);
    const bool size_is_right = !whole || whole->size() == static_cast<std::size_t>(after.st_size);
    if (!same_state(before, after) || !size_is_right) return Unreadable::changing;
    if (whole && !holds(file, *whole)) return Unreadable::changing;
    return text;
}

std::variant<std::string, Unreadable> read_once(const std::string& path,
                                                const Meanwhile& meanwhile) {
    // Opening does not wait.
    const int file = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
    if (file < 0) return why(errno);
    auto text = read_open(file, meanwhile);
    ::close(file);
    return text;
}

// An empty file is looked at again too: many programs empty a file first, and then write it.
std::variant<std::string, Unreadable> read_path(const std::string& path,
                                                const Meanwhile& meanwhile) {
    using Text = std::variant<std::string, Unreadable>;
    constexpr int tries = 3;
    constexpr timespec pause = {0, 20'000'000};  // what an editor takes to write a file
    Text text = read_once(path, meanwhile);
    for (int i = 1; i < tries; ++i) {
        if (text != Text(Unreadable::changing) && text != Text(std::string())) break;
        ::nanosleep(&pause, nullptr);
        text = read_once(path, meanwhile);
    }
    return text;
}

FileText open_on_disk(const std::string& path, const Meanwhile& meanwhile) {
    std::error_code error;
    fs::path identity = fs::canonical(path, error);
    return {read_path(path, meanwhile), error ? path : identity.string()};
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
                             const std::string& relative, std::string& shown_path,
                             const Meanwhile& meanwhile) {
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
    return {read_path(real.string(), meanwhile), real.string()};
}

}  // namespace

World disk_world(const Meanwhile& meanwhile) {
    return {[meanwhile](const std::string& path) { return open_on_disk(path, meanwhile); },
            [meanwhile](const std::string& root, const std::string& from,
                        const std::string& relative, std::string& shown_path) {
                return open_beside_on_disk(root, from, relative, shown_path, meanwhile);
            }};
}

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
