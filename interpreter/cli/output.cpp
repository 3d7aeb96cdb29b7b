#include "interpreter/cli/output.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include "interpreter/render/findings.hpp"
#include "interpreter/world.hpp"

namespace levigate::cli {
namespace {

namespace fs = std::filesystem;

/// 0, or the error number.
int write_all(int file, std::string_view text) {
    while (!text.empty()) {
        ssize_t took = ::write(file, text.data(), text.size());
        if (took < 0 && errno == EINTR) continue;
        if (took < 0) return errno;
        text.remove_prefix(static_cast<std::size_t>(took));
    }
    return 0;
}

/// Line by line as a person may see it.
std::string for_terminal(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        out += shown(text.substr(0, end));
        if (end < text.size()) out += '\n';
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

std::string in_the_way(const std::string& path, bool replace,
                       const std::vector<std::string>& sources) {
    std::error_code error;
    fs::file_status there = fs::status(path, error);
    if (!fs::exists(there) && fs::is_symlink(fs::symlink_status(path, error)))
        return fmt::format("\"{}\" is a link to a file that isn't there, so nothing is written.",
                           path);
    if (!fs::exists(there)) return {};
    if (!fs::is_regular_file(there))
        return fmt::format("\"{}\" is there and is no plain file, so nothing is written to it.",
                           path);
    for (const std::string& source : sources)
        if (fs::equivalent(path, source, error) && !error)
            return fmt::format("\"{}\" is one of the files that are read here, so it is not "
                               "written over.",
                               path);
    if (replace) return {};
    return fmt::format("\"{}\" is there already. With --replace it is written over.", path);
}

}  // namespace

std::string reason(int error) {
    switch (error) {
        case ENOENT: return "its folder isn't there";
        case ENOTDIR: return "what should be its folder is a file";
        case EACCES:
        case EPERM: return "you don't have permission to write there";
        case EROFS: return "nothing can be written there";
        case ENOSPC:
        case EDQUOT: return "there is no room left";
        case EFBIG: return "it would be larger than files may be";
        case EEXIST: return "it is there already";
        case EPIPE: return "nobody reads it any more";
        case EBADF: return "it is closed";
        default: return std::strerror(error);
    }
}

Output Output::open(const Arguments& arguments, const std::vector<std::string>& sources) {
    Output out;
    if (!arguments.has("-o")) return out;
    std::string path = arguments.get_or("-o", "");
    if (path == "-") return out;
    const bool replace = arguments.has("--replace");
    std::vector<std::string> read = arguments.operands;
    read.insert(read.end(), sources.begin(), sources.end());
    out.problem_ = path.empty() ? "A path is needed behind -o." : in_the_way(path, replace, read);
    if (out.problem_.empty()) out.begin(path, replace);
    return out;
}

Output Output::over(const std::string& path, std::string_view before) {
    Output out;
    out.before_ = before;
    // Putting another in its place needs leave for the folder alone; the file's own counts too.
    if (::access(path.c_str(), W_OK) != 0) out.fail(path, errno);
    if (out.problem_.empty()) out.begin(path, true);
    return out;
}

void Output::begin(const std::string& path, bool replace) {
    replace_ = replace;
    std::error_code error;
    fs::path real = fs::canonical(path, error);  // through a link to the file that it means
    path_ = error ? path : real.string();
    part_ = fmt::format("{}.part-{}", path_, ::getpid());
    file_ = ::open(part_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file_ >= 0) return;
    part_.clear();
    fail(path_, errno);
}

Output::Output(Output&& from) noexcept
    : file_(from.file_), path_(std::move(from.path_)), part_(std::move(from.part_)),
      replace_(from.replace_), before_(from.before_), problem_(std::move(from.problem_)) {
    from.file_ = -1;
    from.part_.clear();
}

Output::~Output() {
    if (file_ > 2) ::close(file_);
    if (!part_.empty()) ::unlink(part_.c_str());
}

void Output::fail(std::string_view what, int error) {
    if (!problem_.empty()) return;
    std::string where = what.empty() ? "Standard output" : fmt::format("\"{}\"", what);
    problem_ = fmt::format("{} can't be written: {}.", where, reason(error));
}

// What goes on to a file or a program goes as it is. A terminal would obey it, so nothing reaches
// one that isn't shown; most of it was already.
void Output::drain(std::string& buffer) {
    if (file_ == 1 && ::isatty(1) == 1) buffer = for_terminal(buffer);
    if (problem_.empty())
        if (int error = write_all(file_, buffer)) fail(path_, error);
    // The disk begins while the next piece is made, so that finish() has less to wait for.
    if (!part_.empty()) (void)::sync_file_range(file_, 0, 0, SYNC_FILE_RANGE_WRITE);
    buffer.clear();
}

// A link appears only where nothing is, so without --replace not even a file that came meanwhile
// is lost. File systems without links fall back to a last look.
void Output::put_in_place() {
    if (before_) {
        const FileText now = disk_world().open(path_);
        const auto* text = std::get_if<std::string>(&now.text);
        if (!text || *text != *before_) {
            problem_ =
                fmt::format("\"{}\" was changed by somebody else meanwhile, so it was left as "
                            "it is. Give the command again.",
                            path_);
            return;
        }
    }
    struct stat old = {};
    if (replace_ && ::stat(path_.c_str(), &old) == 0)
        (void)::chmod(part_.c_str(), old.st_mode & 07777);
    if (!replace_ && ::link(part_.c_str(), path_.c_str()) == 0) return;
    if (!replace_ && (errno == EEXIST || ::access(path_.c_str(), F_OK) == 0))
        return fail(path_, EEXIST);
    if (::rename(part_.c_str(), path_.c_str()) != 0) return fail(path_, errno);
    part_.clear();
}

bool Output::finish(std::string& buffer) {
    drain(buffer);
    if (part_.empty() || !problem_.empty()) return problem_.empty();
    int error = ::fsync(file_) != 0 && errno != EINVAL ? errno : 0;
    if (::close(file_) != 0 && error == 0) error = errno;
    file_ = -1;
    if (error)
        fail(path_, error);
    else
        put_in_place();
    return problem_.empty();
}

void say(std::string_view text) { (void)write_all(2, text); }

void say_problem(const Output& output) {
    say(fmt::format("levigate: error: {} (file-unwritable)\n", shown(output.problem())));
}

}  // namespace levigate::cli
