#pragma once
// Measures that are at hand where there is no balance: spoons, and drops.

#include <string>
#include <vector>

#include "interpreter/measure/quantities.hpp"

namespace levigate {

struct Spoon {
    Volume volume;          ///< above 0
    Exact number = 1;       ///< of `measure`
    std::string written;    ///< the number in its one spelling, "1/4"; empty: the measure alone
    std::string measure;    ///< "tsp", as its own block writes it
    bool in_drops = false;  ///< `drop`, or a measure that is written in drops: for what pours
};
using Spoons = std::vector<Spoon>;  ///< largest first, no two of one size

}  // namespace levigate
