#pragma once
// The shade files of a folder, for the verbs that take one.

#include <string>
#include <vector>

#include "interpreter/compile.hpp"

namespace levigate::cli {

/// The most shade files that are taken from one folder.
inline constexpr std::size_t most_in_folder = 10'000;

/// All `*.shade` files in the folder and below it, in the order of their paths' bytes. Only plain
/// files: nothing hidden, and no link, neither to a folder, which could lead in a ring, nor to a
/// file, which could lie anywhere. The paths begin with `folder` as it was given, save for ".".
/// Findings, all errors, say what could not be looked through (`file-unreadable`; the rest is
/// given), or that there is more than is taken (`too-many-files`; nothing is given).
std::vector<std::string> shade_files(const std::string& folder, Findings& findings);

/// Advice (`file-names-alike`) about paths that differ only in capitals, blanks or the way an
/// accent is encoded. Some disks take them for one.
Findings same_names(const std::vector<std::string>& paths);

}  // namespace levigate::cli
