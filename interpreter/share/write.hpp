#pragma once
// An edition as text: what was picked, in reading order. Spelt as it comes; the canonical form and
// the digest follow.

#include <string>
#include <vector>

#include "grammar/tidy.hpp"
#include "interpreter/share/pick.hpp"
#include "interpreter/share/seal.hpp"

namespace levigate::sharing {

struct Title {
    std::string title, number, date;  ///< the last two empty where none is stated
};

/// `seals`: of the blends that are sealed. `split` tells measure and name apart in the files.
std::string write_edition(const Compiled& compiled, const Index& index, const Picked& picked,
                          const std::vector<Seal>& seals, const Title& title,
                          const MeasureSplit& split);

}  // namespace levigate::sharing
