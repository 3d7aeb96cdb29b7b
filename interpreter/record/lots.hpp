#pragma once
// Lots that were weighed from, against what the shelf says there is of them.

#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/formulary/records.hpp"

namespace levigate {

/// A warning for each lot on a shelf of which these pours together take more than it holds. Lots
/// that no shelf names are not judged: she may keep no shelf, or have put the new one there later.
Findings lots_over(const Formulary& formulary, const Names& names,
                   const std::vector<Pour>& weighed);

/// A warning for each lot on a shelf that was past its date on `day` and was weighed from.
Findings lots_past(const Formulary& formulary, const Names& names, const std::vector<Pour>& weighed,
                   const std::string& day);

}  // namespace levigate
