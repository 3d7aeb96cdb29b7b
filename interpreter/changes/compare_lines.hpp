#pragma once
// The lines of one block in two states.

#include <vector>

#include "interpreter/changes/edits.hpp"

namespace levigate::changing {

struct LinesCompared {
    std::vector<LineChange> lines;
    bool any = false;  ///< told or not
    bool to_sheets = false, to_box = false, to_cost = false;
};

/// `public_only`: private lines count, but aren't told.
LinesCompared compare_lines(const BlockView& before, const BlockView& now, const Renames& renames,
                            bool public_only);

}  // namespace levigate::changing
