#pragma once
// A sealed blend as a material: what a label and the rules must know of it, in ranges that don't
// give its amounts away.

#include <map>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate::sharing {

/// A share of a sealed blend that hangs on its formula: a factor for each of Seal::materials.
using Linear = std::vector<Exact>;

/// Something that a sealed blend holds, and the range that is told of it.
struct Told {
    Called name;
    /// How much it is at least: the least of these. Several where rules count it differently.
    std::vector<Linear> least;
    std::vector<Linear> most;  ///< … and at most: the most of these
    Extent truth;              ///< what these come to with the blend's own formula
    Extent range;              ///< what is told; holds the truth
    std::vector<Called> indices;
    /// Of a content: nothing is known of it, and rules ask the blend itself for it by its role, as
    /// they ask what is in it. A range would say more than anybody knows.
    bool asked_anew = false;
};

struct Seal {
    IngredientId id = no_ingredient;
    Share within;                         ///< the narrowest interval that may be told
    std::vector<IngredientId> materials;  ///< raw, and none twice
    std::vector<Share> amounts;           ///< of the blend, one a material: the secret
    std::vector<Told> label;              ///< by name
    std::vector<Told> contains;           ///< what rules count
    std::vector<Called> indices;
    std::optional<Share> strength;  ///< where all that colours has the same
    bool powder = false, flammable = false;
    bool tells_density = false;  ///< its own density, or bulk, goes out
};

/// Raw materials and what of the blend each is.
std::map<IngredientId, Share> materials_of(const Formulary& formulary, IngredientId blend);

/// Findings: what in it has neither a label nor a number (`share-label`).
/// What is told depends on which materials are in it, and of their amounts on nothing but the band
/// in which each told share lies.
/// `within`: in place of what the blend states.
Outcome<Seal> seal(const Formulary& formulary, const Names& names, IngredientId blend,
                   std::optional<Share> within = std::nullopt);

/// What its own block says openly, inherited lines among it.
struct Openly {
    bool role = true, density = true, bulk = true;
};

/// Its block as lines of a `material`, in two parts: what it is, and what is told of the inside.
std::string sealed_head(const Formulary& formulary, IngredientId blend, const Openly& openly);
std::string sealed_block(const Formulary& formulary, const Seal& seal, const Openly& openly);

}  // namespace levigate::sharing
