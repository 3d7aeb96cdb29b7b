#pragma once
// The help texts, from the table of verbs.

#include <string>

#include "interpreter/cli/verb.hpp"

namespace levigate::cli {

std::string general_help();
std::string help_of(const Verb& verb);

}  // namespace levigate::cli
