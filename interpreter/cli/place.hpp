#pragma once
// What stands behind OLD and NEW: a file or a folder on disk, or one in a revision.

#include <string>
#include <variant>
#include <vector>

#include "interpreter/changes/changes.hpp"

namespace levigate::cli {

struct Trouble {
    int status;
    Code code;
    std::string message;
};

struct Pair {
    State before, now;
    Findings findings;  ///< about folders
};

/// Reads both states. One operand alone is compared with the last commit; a revision alone, with
/// the files here. A revision without a path means what the other operand means, at that time.
std::variant<Pair, Trouble> read_states(const std::vector<std::string>& operands);

}  // namespace levigate::cli
