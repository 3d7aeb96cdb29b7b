#pragma once
// Records that a file had once, as git keeps it, and has no more.

#include <string>
#include <string_view>

#include "interpreter/compile.hpp"

namespace levigate::cli {

/// Says which records with a stamp were in the file at `path` in some commit that led to what is
/// there now, and are not in `text`. A finding that is there already is told where to find them.
void find_lost_records(const std::string& path, std::string_view text, SourceId source,
                       Findings& findings);

/// What tells this place from others that add to a copy of the same file: the branch.
std::string place_words(const std::string& path);

}  // namespace levigate::cli
