#pragma once
// `check --mend`: a mended file written back, and told.

#include <string>

#include "interpreter/query/mended.hpp"
#include "interpreter/render/check_report.hpp"

namespace levigate::cli {

/// Writes the mended text over the file, whole or not at all, if fixes were made. False, with the
/// reason on standard error, where it can't be written; nothing was changed then.
bool write_mended(const std::string& path, const Mended& mended);

/// What was done, for the report.
void add_mending(const Mended& mended, CheckReport& report);

}  // namespace levigate::cli
