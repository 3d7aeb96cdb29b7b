#include "interpreter/cli/append.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "interpreter/world.hpp"

namespace levigate::cli {
namespace {

/// A file that is closed at the end of the scope.
class Opened {
public:
    Opened(const std::string& path, int flags) : number_(::open(path.c_str(), flags, 0666)) {}
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    ~Opened() {
        if (number_ >= 0) ::close(number_);
    }
    int number() const { return number_; }

private:
    int number_;
};

/// What must stand before the block, so that it begins a line of its own behind an empty one: what
/// is there may have been cut off in the middle of a line.
std::string before(int file, off_t size) {
    if (size == 0) return {};
    char last[2] = {'\n', '\n'};
    const off_t from = size < 2 ? 0 : size - 2;
    if (::pread(file, last + (size < 2), static_cast<std::size_t>(size - from), from) < 0)
        return "\n\n";
    if (last[1] != '\n') return "\n\n";
    return last[0] == '\n' && size > 1 ? "" : "\n";
}

/// The folder's entry, of a file that is new, reaches the disk by itself.
void settle_folder(const std::string& path) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    const Opened opened(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened.number() >= 0) (void)::fsync(opened.number());
}

std::string trouble(const std::string& path, std::string_view what) {
    return fmt::format("\"{}\" can't be added to: {}.", path, what);
}

}  // namespace

std::string append_block(const std::string& path, const std::string& block) {
    const Opened file(path, O_RDWR | O_APPEND | O_CREAT | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (file.number() < 0) return trouble(path, std::strerror(errno));
    struct stat there = {};
    while (::flock(file.number(), LOCK_EX) != 0)
        if (errno != EINTR) return trouble(path, std::strerror(errno));
    if (::fstat(file.number(), &there) != 0) return trouble(path, std::strerror(errno));
    if (!S_ISREG(there.st_mode)) return trouble(path, "it is no plain file");
    const std::string text = before(file.number(), there.st_size) + block;
    if (static_cast<std::size_t>(there.st_size) + text.size() > largest_file)
        return trouble(path, fmt::format("with this record it would hold more than {} MB, the most "
                                         "that is read. Begin a new file of records",
                                         largest_file >> 20));
    std::size_t written = 0;
    while (written < text.size()) {
        const ssize_t took = ::write(file.number(), text.data() + written, text.size() - written);
        if (took < 0 && errno == EINTR) continue;
        if (took < 0 && written == 0) return trouble(path, std::strerror(errno));
        if (took < 0)
            return trouble(path, fmt::format("{}. A piece of the record stands there, unfinished",
                                             std::strerror(errno)));
        written += static_cast<std::size_t>(took);
    }
    if (::fsync(file.number()) != 0 && errno != EINVAL) return trouble(path, std::strerror(errno));
    if (there.st_size == 0) settle_folder(path);
    return {};
}

}  // namespace levigate::cli
