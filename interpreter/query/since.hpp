#pragma once
// What a released version took in another way: for those who have files from then.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/compile.hpp"

namespace levigate {

/// The versions whose files can be asked about, oldest first.
std::vector<std::string_view> versions_before();

/// What means something else now than in `version`, or is refused now and wasn't, with what to
/// write. `said` is what `check` finds; a version that is not known has no changes.
Findings changes_since(std::string_view version, const Compiled& compiled, const Findings& said);

}  // namespace levigate
