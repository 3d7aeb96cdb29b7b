#pragma once
// levigate weigh --with: the sheets in spoons and drops.

#include <string>

#include "interpreter/cli/output.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"

namespace levigate::cli {

/// Measures the sheets of the choice and writes each as it comes; what is found joins `findings`.
bool write_measured(const Compiled& compiled, const Choice& choice, const Spoons& spoons,
                    const Arguments& arguments, Output& output, std::string& out,
                    Findings& findings);

}  // namespace levigate::cli
