#include "interpreter/share/ways.hpp"

#include <algorithm>

namespace levigate::sharing {

ShadeId ShadeWays::parent_of(ShadeId id) const {
    if (formulary_.shades[id].member) return nothing;
    const Name like = index_.block(index_.at(formulary_.shades[id].span)).like;
    if (!like) return nothing;
    const auto found = ids_.find(index_.find(Heading::shade, like.sym));
    return found == ids_.end() ? nothing : found->second;
}

/// What it is like comes before it: a loop, however long the chain.
const ShadeWays::Known& ShadeWays::settle(ShadeId id) {
    known_.resize(formulary_.shades.size());
    std::vector<ShadeId> chain;
    for (ShadeId at = id; at != nothing && !known_[at].seen; at = parent_of(at)) {
        known_[at].seen = true;
        chain.push_back(at);
    }
    for (; !chain.empty(); chain.pop_back()) {
        Known& one = known_[chain.back()];
        const ShadeId parent = parent_of(chain.back());
        const bool parent_on_flat = parent != nothing && known_[parent].on_flat;
        one.way = find(chain.back(), parent, parent_on_flat);
        one.on_flat = one.way == Way::flat || parent_on_flat;
    }
    return known_[id];
}

Way ShadeWays::find(ShadeId id, ShadeId parent, bool parent_on_flat) const {
    if (formulary_.shades[id].member) return Way::flat;
    const Place place = index_.at(formulary_.shades[id].span);
    if (!index_.block(place).like) return Way::written;
    if (parent == nothing || !chosen_[parent]) return Way::flat;
    const std::vector<const tree::Line*> lines = index_.lines(place);
    const bool lets = std::any_of(lines.begin(), lines.end(),
                                  [](const tree::Line* line) { return line->form == Form::let; });
    return lets && parent_on_flat ? Way::flat : Way::written;
}

}  // namespace levigate::sharing
