#include "interpreter/history/repository.hpp"

#include <algorithm>
#include <memory>

#include <fmt/format.h>
#include <git2.h>

#include "interpreter/history/held.hpp"

namespace levigate::history {
namespace {

Held<git_tree> tree_of(git_repository* repository, const std::string& number) {
    git_oid id;
    git_tree* got = nullptr;
    if (!repository || git_oid_fromstr(&id, number.c_str()) != 0 ||
        git_tree_lookup(&got, repository, &id) != 0)
        got = nullptr;
    return held(got, git_tree_free);
}

Held<git_tree_entry> entry_of(git_tree* tree, const std::string& path) {
    git_tree_entry* got = nullptr;
    if (!tree || git_tree_entry_bypath(&got, tree, path.c_str()) != 0) got = nullptr;
    return held(got, git_tree_entry_free);
}

bool is_file(const git_tree_entry* entry) {
    return git_tree_entry_type(entry) == GIT_OBJECT_BLOB &&
           git_tree_entry_filemode(entry) != GIT_FILEMODE_LINK;
}

FileText read(const Revision& revision, const std::string& path) {
    if (!path.starts_with(revision.prefix)) return {Unreadable::missing, path};
    const auto repository = open(revision.repository);
    const auto tree = tree_of(repository.get(), revision.tree);
    if (!tree) return {Unreadable::failed, path};
    const auto entry = entry_of(tree.get(), path.substr(revision.prefix.size()));
    if (!entry) return {Unreadable::missing, path};
    if (git_tree_entry_type(entry.get()) == GIT_OBJECT_TREE) return {Unreadable::directory, path};
    if (!is_file(entry.get())) return {Unreadable::failed, path};
    git_blob* got = nullptr;
    // Its size first: a large one is not to be taken into memory.
    git_odb* store = nullptr;
    std::size_t size = 0;
    git_object_t type = GIT_OBJECT_ANY;
    if (git_repository_odb(&store, repository.get()) != 0) return {Unreadable::failed, path};
    const auto kept = held(store, git_odb_free);
    if (git_odb_read_header(&size, &type, store, git_tree_entry_id(entry.get())) != 0)
        return {Unreadable::failed, path};
    if (size > largest_file) return {Unreadable::too_big, path};
    if (git_blob_lookup(&got, repository.get(), git_tree_entry_id(entry.get())) != 0)
        return {Unreadable::failed, path};
    const auto blob = held(got, git_blob_free);
    const auto* bytes = static_cast<const char*>(git_blob_rawcontent(got));
    return {std::string(bytes, static_cast<std::size_t>(git_blob_rawsize(got))), path};
}

/// Folders that are still to be looked through; a loop, and no depth of its own.
std::string list(git_repository* repository, std::vector<std::pair<std::string, git_oid>> open,
                 std::size_t most, std::vector<std::string>& out) {
    while (!open.empty()) {
        const auto [folder, id] = open.back();
        open.pop_back();
        git_tree* got = nullptr;
        if (git_tree_lookup(&got, repository, &id) != 0)
            return fmt::format("The folder \"{}\" can't be read there: {}.", folder, said());
        const auto tree = held(got, git_tree_free);
        for (std::size_t i = 0; i < git_tree_entrycount(got); ++i) {
            const git_tree_entry* entry = git_tree_entry_byindex(got, i);
            const std::string name = git_tree_entry_name(entry);
            if (name.starts_with('.')) continue;
            const std::string path = folder.empty() ? name : folder + '/' + name;
            if (git_tree_entry_type(entry) == GIT_OBJECT_TREE)
                open.emplace_back(path, *git_tree_entry_id(entry));
            else if (is_file(entry) && name.ends_with(".shade"))
                out.push_back(path);
            if (out.size() > most || open.size() > 10 * most)
                return fmt::format("There are more than {} shade files.", most);
        }
    }
    std::sort(out.begin(), out.end());
    return {};
}

}  // namespace

std::variant<std::monostate, Repository, std::string> find_repository(const std::string& around) {
    start();
    git_repository* got = nullptr;
    const int error = git_repository_open_ext(&got, around.c_str(), 0, nullptr);
    if (error == GIT_ENOTFOUND) return std::monostate{};
    if (error != 0) return said();
    const auto repository = held(got, git_repository_free);
    const char* workdir = git_repository_workdir(got);
    return Repository{git_repository_path(got), workdir ? workdir : ""};
}

std::variant<Revision, std::string> find_revision(const Repository& repository,
                                                  const std::string& written) {
    const auto opened = open(repository.folder);
    if (!opened) return "The repository can't be opened: " + said() + ".";
    git_object *got = nullptr, *peeled = nullptr;
    const int error = git_revparse_single(&got, opened.get(), written.c_str());
    const auto object = held(got, git_object_free);
    if (error != 0) {
        std::string why = fmt::format("The repository has no revision `{}`.", written);
        if (git_repository_head_unborn(opened.get()) == 1) why += " Nothing is committed yet.";
        if (git_repository_is_shallow(opened.get()) == 1)
            why += " It holds its latest commits only (a shallow clone); `git fetch --unshallow` "
                   "brings the others.";
        if (error != GIT_ENOTFOUND && error != GIT_EINVALIDSPEC && error != GIT_EAMBIGUOUS)
            why += fmt::format(" What git finds: {}.", said());
        return why;
    }
    if (git_object_peel(&peeled, got, GIT_OBJECT_TREE) != 0)
        return fmt::format("The files of `{}` can't be read: {}.", written, said());
    const auto tree = held(peeled, git_object_free);
    char number[GIT_OID_HEXSZ + 1] = {};
    git_oid_tostr(number, sizeof number, git_object_id(peeled));
    // In front of paths stands what was written, where a path can hold that.
    const bool plain = written.find("..") == std::string::npos &&
                       written.find("//") == std::string::npos &&
                       written.find("./") == std::string::npos && written.front() != '/';
    return Revision{repository.folder, number, (plain ? written : std::string(number, 10)) + ":/"};
}

Entry entry_at(const Revision& revision, const std::string& path) {
    if (path.empty()) return Entry::folder;
    const auto repository = open(revision.repository);
    const auto tree = tree_of(repository.get(), revision.tree);
    const auto entry = entry_of(tree.get(), path);
    if (!entry) return Entry::missing;
    return git_tree_entry_type(entry.get()) == GIT_OBJECT_TREE ? Entry::folder : Entry::file;
}

std::variant<std::vector<std::string>, std::string>
shade_files_at(const Revision& revision, const std::string& folder, std::size_t most) {
    const auto repository = open(revision.repository);
    const auto top = tree_of(repository.get(), revision.tree);
    if (!top) return "The files of that revision can't be read: " + said() + ".";
    git_oid id = *git_tree_id(top.get());
    if (!folder.empty()) {
        const auto entry = entry_of(top.get(), folder);
        if (!entry) return std::vector<std::string>{};
        id = *git_tree_entry_id(entry.get());
    }
    std::vector<std::string> out;
    std::string problem = list(repository.get(), {{folder, id}}, most, out);
    if (!problem.empty()) return problem;
    return out;
}

World world_at(const Revision& revision) {
    return world_of([revision](const std::string& path) { return read(revision, path); });
}

namespace {

Held<git_config> local_settings(git_repository* repository) {
    git_config *all = nullptr, *local = nullptr;
    if (!repository || git_repository_config(&all, repository) != 0)
        return held<git_config>(nullptr, git_config_free);
    const auto kept = held(all, git_config_free);
    if (git_config_open_level(&local, all, GIT_CONFIG_LEVEL_LOCAL) != 0) local = nullptr;
    return held(local, git_config_free);
}

}  // namespace

std::variant<std::vector<Setting>, std::string> settings_due(const Repository& repository,
                                                             const std::vector<Setting>& wanted) {
    const auto opened = open(repository.folder);
    const auto settings = local_settings(opened.get());
    if (!settings) return "The settings of the repository can't be read: " + said() + ".";
    std::vector<Setting> due;
    for (const Setting& one : wanted) {
        git_buf value = GIT_BUF_INIT;
        const bool there = git_config_get_string_buf(&value, settings.get(), one.name.c_str()) == 0;
        if (!there || one.value != value.ptr) due.push_back(one);
        git_buf_dispose(&value);
    }
    return due;
}

std::string write_settings(const Repository& repository, const std::vector<Setting>& due) {
    const auto opened = open(repository.folder);
    const auto settings = local_settings(opened.get());
    if (!settings) return "The settings of the repository can't be read: " + said() + ".";
    for (const Setting& one : due)
        if (git_config_set_string(settings.get(), one.name.c_str(), one.value.c_str()) != 0)
            return fmt::format("The setting {} can't be written: {}.", one.name, said());
    return {};
}

}  // namespace levigate::history
