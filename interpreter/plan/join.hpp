#pragma once
// Several batches as one: their blueprints joined, so that a blend that several of them hold has
// one bowl, and each batch its own.

#include <vector>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/sheet.hpp"

namespace levigate {

/// One batch: what is drawn of it, and how much of the finished product is made.
struct Drawn {
    Blueprint blueprint;
    Mass whole;
};

/// Shares are of all batches together. Blends stand first, the deepest before the others, then the
/// batches' own bowls in their order; `materials` lists what all of them need.
Blueprint join(const Formulary& formulary, const std::vector<Drawn>& batches, const Mass& all);

}  // namespace levigate
