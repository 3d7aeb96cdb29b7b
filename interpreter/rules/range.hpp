#pragma once
// One ingredient list for several shades: they may differ in their colourants only. What all of
// them hold stands in the list, what only some hold behind the region's words for a range.

#include <string>
#include <vector>

#include "interpreter/rules/declaration.hpp"

namespace levigate {

struct RangeMember {
    std::string title;  ///< "Quince / matte"
    Declaration declaration;
};

struct RangeList {
    Declaration declaration;
    std::string apart;  ///< why there can't be one list; empty: there is
};

/// Every member has a list. Their other ingredients must be the same, and some order must be right
/// for all of them; within the minor group any order is.
RangeList list_of_range(const Region& region, const Names& names,
                        const std::vector<RangeMember>& members);

/// Which members hold the same but for colourants, by their place in `members`; in its order.
std::vector<std::vector<std::size_t>> alike_but_for_colour(const std::vector<RangeMember>& members);

}  // namespace levigate
