#pragma once
// The one way to look through mixes within mixes: from the innermost on, with a stack of its own.
// Nothing calls itself however deep a file goes.

#include <unordered_set>
#include <vector>

#include "interpreter/formulary/say.hpp"

namespace levigate {

/// Visits the mixes that `what` is made of, those within others first, and `what` itself last.
/// `known(id)` tells that one needs no visit, and so nothing that is in it; it must be true of each
/// that was visited.
template <typename Known, typename Visit>
void each_inner_first(const Formulary& formulary, IngredientId what, Known known, Visit visit) {
    struct Frame {
        IngredientId what;
        std::size_t next = 0;
    };
    std::vector<Frame> open{{what}};
    std::unordered_set<IngredientId> entered;  // ends a ring, which resolving has reported
    while (!open.empty()) {
        Frame& top = open.back();
        const Mix* mix = known(top.what) ? nullptr : mix_of(formulary, top.what);
        if (mix && top.next < mix->formula.parts.size()) {
            const IngredientId part = mix->formula.parts[top.next++].what;
            if (mix_of(formulary, part) && !known(part) && entered.insert(part).second)
                open.push_back({part});
            continue;
        }
        const IngredientId done = top.what;
        open.pop_back();
        if (mix && !known(done)) visit(done);
    }
}

}  // namespace levigate
