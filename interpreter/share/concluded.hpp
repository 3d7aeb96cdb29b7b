#pragma once
// What members can conclude of a sealed blend from all that is told of it, in this edition and in
// earlier ones: an interval for each of its materials, exact.

#include <string>
#include <vector>

#include "grammar/names.hpp"
#include "interpreter/share/columns.hpp"
#include "interpreter/share/seal.hpp"

namespace levigate::sharing {

/// Of the blend. Whoever knows which materials and blends are in it, what these are labelled with,
/// and how `share` works, can tell no more: each amount within the interval, but perhaps its ends,
/// belongs to a formula of which the same would be told.
struct Concluded {
    IngredientId material = no_ingredient;
    Extent range;
};

/// What an earlier edition tells of a blend of the same name. Names are folded.
struct ToldBefore {
    struct Part {
        std::string name;
        Extent range;
        bool operator==(const Part&) const = default;
    };
    std::vector<Part> label, contains;  ///< where it was sealed
    std::vector<Part> open;             ///< its formula, where it wasn't
};

/// None where the blend isn't told of.
std::optional<ToldBefore> told_before(const Formulary& earlier, const Names& names,
                                      std::string_view folded);

/// More than this in a sealed blend is not looked into: its materials, times the names that are
/// told of it.
inline constexpr std::size_t most_sealed = 800;

/// One for each material, in their order; empty where it can't be worked out: there are too many,
/// or numbers become too long. What an earlier edition tells of another formula doesn't count.
std::vector<Concluded> concluded(const Formulary& formulary, const Names& names, const Seal& seal,
                                 const std::vector<ToldBefore>& before, const GoesOut& out = {});

/// The narrowest of them; 1 where there is none.
Share narrowest(const std::vector<Concluded>& all);

/// "castor oil, 20 to 45 %; wax, 10 to 30 %": outward to 0.1 %.
std::string concluded_words(const Formulary& formulary, const std::vector<Concluded>& all);

}  // namespace levigate::sharing
