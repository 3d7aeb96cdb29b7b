#pragma once
// A sealed blend as a material: what a label and the rules must know of it, in ranges that don't
// give its amounts away.

#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate::sharing {

/// Something that a sealed blend holds, and the range that is told of it.
struct Told {
    Called name;
    Extent truth;  ///< of the blend, as far as its materials tell
    Extent range;  ///< holds the truth
    std::vector<Called> indices;
    /// Of a content: nothing is known of it, and rules ask the blend itself for it by its role, as
    /// they ask what is in it. A range would say more than anybody knows.
    bool asked_anew = false;
};

struct Seal {
    IngredientId id = no_ingredient;
    std::vector<Told> label;     ///< largest first
    std::vector<Told> contains;  ///< what rules count
    std::vector<Called> indices;
    std::optional<Share> strength;  ///< where all that colours has the same
    bool certified = false;         ///< all that colours is
    bool powder = false, flammable = false;
    bool keeps_role = false, keeps_density = false, keeps_bulk = false;  ///< private
};

/// The smallest of the ranges that hold it: those by which 29 CFR 1910.1200(i)(1)(iv), as amended
/// in 2024, lets a secret concentration be told (from memory, not compared with the text), and 0 to
/// 0.1 % below them. No advice on whether that section applies here.
Extent told_range(const Extent& truth);
/// The half of the range that holds the truth; all of it where neither does. Its ends depend on the
/// range alone, so that no more is told by them than that the truth lies between.
Extent narrowed(const Told& told);

/// Findings: what in it has neither a label nor a number (`share-label`).
Outcome<Seal> seal(const Formulary& formulary, const Names& names, IngredientId blend);

/// Its block, as lines of a `material`.
std::string sealed_block(const Formulary& formulary, const Seal& seal);

}  // namespace levigate::sharing
