#pragma once
// `--reads`: the step of a balance, in place of those that files name.

#include <optional>

#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"

namespace levigate::cli {

/// Nothing where it was not given, or where it is no step of a balance: then a finding says so.
Outcome<std::optional<Reading>> read_reading(Compiled& compiled, const Arguments& arguments);

}  // namespace levigate::cli
