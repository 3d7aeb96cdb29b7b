#pragma once
#include "tests/architecture/scan.hpp"

namespace levigate::testing {

// Includes of a room that its row in the table doesn't allow.
Offences wrong_directions(const std::vector<SourceFile>& files);
// Rows of that table for rooms that don't exist, and names in a row that mean no file.
Offences empty_rows(const std::vector<SourceFile>& files);
// Includes in quotes that name no file from the root.
Offences unknown_includes(const std::vector<SourceFile>& files);
// Loops of files that include each other: each is given once, as the way round.
Offences include_loops(const std::vector<SourceFile>& files);

// Includes that begin with `prefix` (as written behind #include: "<tao/pegtl") outside `folder`.
Offences library_outside(const std::vector<SourceFile>& files, std::string_view prefix,
                         std::string_view folder);

}  // namespace levigate::testing
