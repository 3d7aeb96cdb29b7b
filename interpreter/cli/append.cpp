#include "interpreter/cli/append.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "interpreter/cli/output.hpp"
#include "interpreter/world.hpp"

namespace levigate::cli {
namespace {

/// What must be before the block, so that it begins a line of its own behind an empty one: the last
/// line may have been cut off in the middle.
std::string_view before(std::string_view text) {
    if (text.empty()) return {};
    if (!text.ends_with('\n')) return "\n\n";
    return text.ends_with("\n\n") ? "" : "\n";
}

/// The folder's entry, of a file that is new, reaches the disk by itself.
void settle_folder(const std::string& path) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    const int opened =
        ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened < 0) return;
    (void)::fsync(opened);
    (void)::close(opened);
}

/// True where `file` is still what is at that path: an empty one may have been taken away.
bool is_at(int file, const std::string& path) {
    struct stat opened = {}, there = {};
    return ::fstat(file, &opened) == 0 && ::stat(path.c_str(), &there) == 0 &&
           opened.st_dev == there.st_dev && opened.st_ino == there.st_ino;
}

}  // namespace

Appending::Appending(std::string path) : path_(std::move(path)) {
    open();
    if (problem_.empty()) read();
}

Appending::~Appending() {
    if (created_) ::unlink(path_.c_str());
    if (file_ >= 0) ::close(file_);
}

void Appending::fail(std::string_view what) {
    if (problem_.empty()) problem_ = fmt::format("\"{}\" can't be added to: {}.", path_, what);
}

void Appending::open() {
    constexpr int flags = O_RDWR | O_APPEND | O_CLOEXEC | O_NOCTTY | O_NONBLOCK;
    while (problem_.empty()) {
        created_ = true;
        file_ = ::open(path_.c_str(), flags | O_CREAT | O_EXCL, 0666);
        if (file_ < 0 && errno == EEXIST) {
            created_ = false;
            file_ = ::open(path_.c_str(), flags | O_CREAT, 0666);  // through a link as well
        }
        if (file_ < 0) {
            created_ = false;
            return fail(reason(errno));
        }
        while (::flock(file_, LOCK_EX) != 0)
            if (errno != EINTR) return fail(reason(errno));
        if (is_at(file_, path_)) return;
        ::close(file_);
    }
}

void Appending::read() {
    struct stat there = {};
    if (::fstat(file_, &there) != 0) return fail(reason(errno));
    if (!S_ISREG(there.st_mode)) return fail("it is no plain file");
    if (there.st_size > static_cast<off_t>(largest_file))
        return fail(fmt::format("it holds more than {} MB, the most that is read. Begin a new file "
                                "of records",
                                largest_file >> 20));
    text_.resize(static_cast<std::size_t>(there.st_size));
    for (std::size_t at = 0; at < text_.size();) {
        const ssize_t took =
            ::pread(file_, text_.data() + at, text_.size() - at, static_cast<off_t>(at));
        if (took < 0 && errno == EINTR) continue;
        if (took < 0) return fail(reason(errno));
        if (took == 0) return fail("it became shorter meanwhile");
        at += static_cast<std::size_t>(took);
    }
    // Another run made it and has not written yet, or it was left empty: it is not ours.
    created_ = created_ && text_.empty();
}

bool Appending::write(std::string_view text) {
    while (!text.empty()) {
        const ssize_t took = ::write(file_, text.data(), text.size());
        if (took < 0 && errno == EINTR) continue;
        if (took < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(took));
    }
    return ::fsync(file_) == 0 || errno == EINVAL;
}

bool Appending::add(std::string_view block) {
    if (!problem_.empty()) return false;
    std::string text(before(text_));
    text += block;
    if (text_.size() + text.size() > largest_file) {
        fail(fmt::format("with this record it would hold more than {} MB, the most that is read. "
                         "Begin a new file of records",
                         largest_file >> 20));
        return false;
    }
    if (!write(text)) {
        fail(reason(errno));
        if (::ftruncate(file_, static_cast<off_t>(text_.size())) != 0)
            problem_ += " A piece of the record may be there, unfinished.";
        return false;
    }
    if (text_.empty()) settle_folder(path_);
    created_ = false;
    return true;
}

}  // namespace levigate::cli
