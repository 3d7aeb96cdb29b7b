#include "interpreter/cli/place.hpp"

#include <filesystem>
#include <optional>

#include <fmt/format.h>

#include "interpreter/cli/folder.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/history/repository.hpp"

namespace levigate::cli {
namespace {

namespace fs = std::filesystem;
using history::Entry;
using history::Repository;
using history::Revision;

struct Place {
    std::string written;
    std::optional<Revision> revision;  ///< none: on disk
    std::optional<std::string> path;   ///< on disk, or from the top of the repository
    bool folder = false;
};

Trouble wrong(std::string message) {
    return {command_wrong, Code::command_line, std::move(message)};
}
Trouble no_file(std::string message) {
    return {file_trouble, Code::file_unreadable, std::move(message)};
}

bool on_disk(const std::string& path) {
    std::error_code error;
    return fs::exists(fs::symlink_status(path, error));
}

bool is_folder(const std::string& path) {
    std::error_code error;
    return fs::is_directory(path, error);
}

std::variant<Repository, Trouble> repository_around(const std::string& folder) {
    auto found = history::find_repository(folder.empty() ? "." : folder);
    if (auto* repository = std::get_if<Repository>(&found)) return *repository;
    if (const auto* why = std::get_if<std::string>(&found))
        return no_file(fmt::format("The git repository here can't be read: {}.", *why));
    return no_file("There is no git repository here, so only files and folders can be compared.");
}

/// A path on disk, from the top of the repository; nothing where it lies outside.
std::optional<std::string> from_top(const Repository& repository, const std::string& path) {
    std::error_code error;
    const fs::path top = fs::weakly_canonical(repository.workdir, error);
    const fs::path real = fs::weakly_canonical(fs::absolute(path), error);
    if (repository.workdir.empty()) return "";  // a bare one: all of it
    const std::string way = real.lexically_relative(top).generic_string();
    if (way.empty() || way == ".." || way.starts_with("../")) return std::nullopt;
    return way == "." ? "" : way;
}

std::variant<Place, Trouble> read_place(const std::string& operand) {
    Place out{operand, std::nullopt, std::nullopt, false};
    auto around = history::find_repository(".");
    const auto* repository = std::get_if<Repository>(&around);
    // In a bare repository there are git's own files, one of them called HEAD.
    const bool bare = repository && repository->workdir.empty() && !is_folder(operand);
    if (on_disk(operand) && !bare) {
        out.path = operand;
        out.folder = is_folder(operand);
        return out;
    }
    const std::size_t colon = operand.find(':');
    const std::string name = operand.substr(0, colon);
    std::string why;
    if (repository && !name.empty()) {
        auto found = history::find_revision(*repository, name);
        if (auto* revision = std::get_if<Revision>(&found))
            out.revision = *revision;
        else
            why = " " + std::get<std::string>(found);
    }
    if (!out.revision)
        return no_file(fmt::format("\"{}\" is no file or folder here, no REVISION:PATH, and no "
                                   "revision.{}",
                                   operand,
                                   repository ? why : " There is no git repository here."));
    if (colon == std::string::npos) return out;
    std::string path = operand.substr(colon + 1);
    if (path.starts_with("./")) {
        const auto here = from_top(*repository, ".");
        path = (fs::path(here.value_or("")) / path).lexically_normal().generic_string();
    }
    while (path.ends_with('/')) path.pop_back();
    while (path.starts_with('/')) path.erase(0, 1);
    const Entry entry = history::entry_at(*out.revision, path);
    if (entry == Entry::missing)
        return no_file(fmt::format("In {} there is no \"{}\".", name, path));
    out.path = path;
    out.folder = entry == Entry::folder;
    return out;
}

/// A revision alone: the same path as the other's, at that time.
std::optional<Trouble> follow(Place& place, const Place& other) {
    if (!place.revision || place.path) return std::nullopt;
    place.folder = true;
    if (other.path && other.revision) {
        place.path = *other.path;
    } else {
        const std::string path = other.path.value_or(".");
        auto around =
            repository_around(is_folder(path) ? path : fs::path(path).parent_path().string());
        if (auto* trouble = std::get_if<Trouble>(&around)) return *trouble;
        place.path = from_top(std::get<Repository>(around), path);
        if (!place.path)
            return no_file(fmt::format("\"{}\" lies outside the git repository.", path));
    }
    if (other.path) place.folder = other.folder;
    return std::nullopt;
}

/// Puts the files of a place into its state. `name`: what a single file is known as in both.
std::optional<Trouble> fill(const Place& place, const std::string& name, State& state,
                            Findings& findings) {
    const World world = place.revision ? history::world_at(*place.revision) : disk_world();
    const std::string before = place.revision ? place.revision->prefix : "";
    state.shown = place.written;
    if (!place.folder) {
        // What was not there yet held nothing.
        if (place.revision && history::entry_at(*place.revision, *place.path) == Entry::missing)
            return std::nullopt;
        levigate::add_file(state, world, before + *place.path, name);
        return std::nullopt;
    }
    std::vector<std::string> paths;
    if (place.revision) {
        auto found = history::shade_files_at(*place.revision, *place.path, most_in_folder);
        if (auto* why = std::get_if<std::string>(&found)) return no_file(*why);
        paths = std::get<std::vector<std::string>>(std::move(found));
    } else {
        paths = shade_files(*place.path, findings);
        const Findings alike = same_names(paths);
        findings.insert(findings.end(), alike.begin(), alike.end());
    }
    const fs::path top = place.path->empty() ? "." : *place.path;
    for (const std::string& path : paths)
        levigate::add_file(
            state, world, before + path,
            fs::path(path).lexically_normal().lexically_relative(top.lexically_normal()).string());
    return std::nullopt;
}

}  // namespace

std::variant<Pair, Trouble> read_states(const std::vector<std::string>& operands) {
    std::vector<Place> places;
    for (const std::string& operand : operands) {
        auto place = read_place(operand);
        if (auto* trouble = std::get_if<Trouble>(&place)) return *trouble;
        places.push_back(std::get<Place>(std::move(place)));
    }
    if (places.size() == 1 && places[0].revision) {  // … and how it is here now
        if (places[0].path)
            return wrong(
                "With what is it to be compared? Write a second file, folder or revision.");
        places.push_back({".", std::nullopt, ".", true});
    }
    if (places.size() == 1) {
        const std::string path = *places[0].path;
        auto around =
            repository_around(places[0].folder ? path : fs::path(path).parent_path().string());
        if (auto* trouble = std::get_if<Trouble>(&around)) return *trouble;
        auto head = history::find_revision(std::get<Repository>(around), "HEAD");
        if (auto* why = std::get_if<std::string>(&head)) return no_file(*why);
        places.insert(places.begin(),
                      {"HEAD", std::get<Revision>(std::move(head)), std::nullopt, false});
    }
    const Place old_place = places[0];
    if (auto trouble = follow(places[0], places[1])) return *trouble;
    if (auto trouble = follow(places[1], old_place)) return *trouble;
    if (places[0].folder != places[1].folder)
        return wrong("A file and a folder can't be compared: write two files, or two folders.");
    Pair out;
    const std::string name = fs::path(*places[1].path).filename().string();
    if (auto trouble = fill(places[0], name, out.before, out.findings)) return *trouble;
    if (auto trouble = fill(places[1], name, out.now, out.findings)) return *trouble;
    return out;
}

}  // namespace levigate::cli
