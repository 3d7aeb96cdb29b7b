#pragma once
// Which plans are meant.

#include <string>
#include <vector>

#include "interpreter/compile.hpp"

namespace levigate::cli {

/// By name from all files; where it is empty those of FILE itself. None is a finding.
std::vector<const Plan*> choose_plans(const Compiled& compiled, const std::string& name,
                                      Findings& findings);

}  // namespace levigate::cli
