#pragma once
// A git repository, read only and by library: no other program is started, no hook and no filter
// runs, and no setting of a stranger's repository does anything.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "interpreter/world.hpp"

namespace levigate::history {

/// A repository that was found on disk.
struct Repository {
    std::string folder;   ///< where git keeps it
    std::string workdir;  ///< the folder with the files, ending in /; empty where it has none
};

/// The repository around a folder; none where it stands in none, or why it can't be opened.
std::variant<std::monostate, Repository, std::string> find_repository(const std::string& around);

/// The files as they were in one commit.
struct Revision {
    std::string repository;  ///< its folder
    std::string tree;        ///< which one, by its number
    std::string prefix;      ///< in front of a path, so that it is seen whence it comes: "HEAD~2:/"
};

/// What `HEAD~2`, `v1` or a commit's number stands for; or why it stands for nothing.
std::variant<Revision, std::string> find_revision(const Repository& repository,
                                                  const std::string& written);

enum class Entry : std::uint8_t { missing, file, folder };
/// What was at that path, which is written from the top of the repository. An empty one is the top.
Entry entry_at(const Revision& revision, const std::string& path);

/// All `*.shade` files in the folder and below, hidden ones and links aside, in the order of their
/// bytes, written from the top; or why they can't be told.
std::variant<std::vector<std::string>, std::string>
shade_files_at(const Revision& revision, const std::string& folder, std::size_t most);

/// Paths of this world begin with the revision's prefix.
World world_at(const Revision& revision);

/// Sets local settings of the repository, those that are not so already; returns why it failed.
struct Setting {
    std::string name, value;
};
std::variant<std::vector<Setting>, std::string> settings_due(const Repository& repository,
                                                             const std::vector<Setting>& wanted);
std::string write_settings(const Repository& repository, const std::vector<Setting>& due);

}  // namespace levigate::history
