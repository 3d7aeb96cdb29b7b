#pragma once
// Solving a formula: from amounts as written to the share of the whole of each line, exactly.
// Stands in this room because resolving needs it too: `rebalance` and `between` work on shares,
// and a blend must be solved before a formula that uses it.

#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// Fills `formula.shares` and `formula.solving`. Every blend in it is solved already, or damaged:
/// then the formula stays unsolved in silence. `whose` names it for messages ("Quince"), `where`
/// is the heading's name. A sum of 1 with no unknown is required where there is no rest or weight.
Findings solve(const Formulary& formulary, const Names& names, Formula& formula,
               const std::string& whose, Span where);

/// Everything by role in a solved formula, by the rule of `as much`: an ingredient whose own role
/// it is counts whole, any other by what is inside it.
std::vector<RoleShare> roles_of(const Formulary& formulary, const Formula& formula);

/// How much of `role` the ingredient itself is: 1 by its own role, else by what is inside it.
Share role_in(const Formulary& formulary, IngredientId ingredient, Sym role);

/// How much of `wanted` a solved formula holds, wherever it occurs, at any depth.
Share content_of(const Formulary& formulary, const Formula& formula, IngredientId wanted);

/// The density of an ingredient (stated, else of the mix of its parts: masses over densities,
/// volumes adding up), or the first ingredients that lack one. `spooned` prefers `bulk`.
struct DensityAnswer {
    std::optional<Density> density;
    std::vector<IngredientId> lacking;
};
DensityAnswer density_of(const Formulary& formulary, IngredientId ingredient, bool spooned);

}  // namespace levigate
