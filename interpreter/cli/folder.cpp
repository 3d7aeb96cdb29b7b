#include "interpreter/cli/folder.hpp"

#include <algorithm>
#include <filesystem>
#include <unordered_map>

#include <fmt/format.h>

namespace levigate::cli {
namespace {

namespace fs = std::filesystem;

/// Of any kind and in all folders together: a folder of a million pictures is no folder of shades.
constexpr std::size_t most_entries = 200'000;

struct Walk {
    std::vector<std::string> files;
    std::vector<fs::path> folders;  ///< still to be looked through
    std::size_t entries = 0;

    bool full() const { return files.size() > most_in_folder || entries > most_entries; }
};

void look_at(Walk& walk, const fs::path& shown, const fs::directory_entry& entry) {
    ++walk.entries;
    const std::string name = entry.path().filename().string();
    if (name.starts_with('.')) return;
    std::error_code error;
    const fs::file_status itself = entry.symlink_status(error);
    if (fs::is_directory(itself)) walk.folders.push_back(shown / name);
    if (fs::is_regular_file(itself) && name.ends_with(".shade"))
        walk.files.push_back((shown / name).string());
}

void look_through(Walk& walk, const fs::path& shown, Findings& findings) {
    std::error_code error;
    fs::directory_iterator entry(shown.empty() ? fs::path(".") : shown, error);
    for (; !error && entry != fs::directory_iterator() && !walk.full(); entry.increment(error))
        look_at(walk, shown, *entry);
    if (error)
        findings.push_back({Code::file_unreadable,
                            fmt::format("The folder \"{}\" can't be looked through: {}.",
                                        shown.string(), error.message()),
                            Span{}});
}

}  // namespace

std::vector<std::string> shade_files(const std::string& folder, Findings& findings) {
    Walk walk;
    walk.folders.push_back(folder == "." ? fs::path() : fs::path(folder));
    while (!walk.folders.empty() && !walk.full()) {
        const fs::path next = std::move(walk.folders.back());
        walk.folders.pop_back();
        look_through(walk, next, findings);
    }
    if (walk.full()) {
        findings.push_back({Code::too_many_files,
                            fmt::format("\"{}\" holds more files than are taken at once, so none "
                                        "of them is read.",
                                        folder),
                            Span{}, "Name a folder further down, or single files."});
        return {};
    }
    std::sort(walk.files.begin(), walk.files.end());
    return std::move(walk.files);
}

Findings same_names(const std::vector<std::string>& paths) {
    Findings findings;
    std::unordered_map<std::string, const std::string*> seen;
    std::string folded;
    for (const std::string& path : paths) {
        fold_name(path, folded);
        const auto [first, is_new] = seen.emplace(folded, &path);
        if (is_new || *first->second == path) continue;
        findings.push_back({Code::file_names_alike,
                            fmt::format("\"{}\" and \"{}\" are one name to some disks, and there "
                                        "one file would take the place of the other.",
                                        *first->second, path),
                            Span{}, "Give one of them another name."});
    }
    return findings;
}

}  // namespace levigate::cli
