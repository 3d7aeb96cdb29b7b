#pragma once
// How each shade is written in an edition: line by line, or reckoned out. Told along what it is
// like, each shade once.

#include <map>
#include <vector>

#include "interpreter/share/pick.hpp"

namespace levigate::sharing {

class ShadeWays {
public:
    /// `ids`: the shades by their places; `chosen`: those that go out. Both are looked at later.
    ShadeWays(const Formulary& formulary, const Index& index, const std::map<Place, ShadeId>& ids,
              const std::vector<bool>& chosen)
        : formulary_(formulary), index_(index), ids_(ids), chosen_(chosen) {}

    Way of(ShadeId id) { return settle(id).way; }
    /// It, or something that it is like, is reckoned out: a `let` finds no holes there.
    bool stands_on_flat(ShadeId id) { return settle(id).on_flat; }

private:
    struct Known {
        bool seen = false, on_flat = false;
        Way way = Way::written;
    };
    ShadeId parent_of(ShadeId id) const;
    const Known& settle(ShadeId id);
    Way find(ShadeId id, ShadeId parent, bool parent_on_flat) const;

    const Formulary& formulary_;
    const Index& index_;
    const std::map<Place, ShadeId>& ids_;
    const std::vector<bool>& chosen_;
    std::vector<Known> known_;  ///< by ShadeId
};

}  // namespace levigate::sharing
