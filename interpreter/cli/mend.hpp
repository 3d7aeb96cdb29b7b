#pragma once
// `check --mend`: a mended file written back, and told.

#include <string>

#include "interpreter/query/mended.hpp"
#include "interpreter/render/check_report.hpp"

namespace levigate::cli {

/// Writes the mended text over the file, whole or not at all, if fixes were made. Empty if all went
/// well, else the reason; nothing was changed then.
std::string write_mended(const MendedFile& file);

/// What was done, for the report.
void add_mending(const MendedFile& file, CheckReport& report);

}  // namespace levigate::cli
