#pragma once
// The lines of one block in two states.

#include <vector>

#include "interpreter/changes/edits.hpp"

namespace levigate::changing {

struct LinesCompared {
    std::vector<LineChange> lines;
    bool any = false;
    bool to_sheets = false, to_box = false, to_cost = false;
};

LinesCompared compare_lines(const BlockView& before, const BlockView& now, const Renames& renames);

}  // namespace levigate::changing
