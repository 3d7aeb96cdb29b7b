#pragma once
// `dilute` lines while a formula is edited, and once it is solved. Part of context.hpp: nobody
// outside the room includes this.

#include <string>
#include <vector>

#include "grammar/span.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate::resolving {

struct Context;
struct Recipe;

/// A `dilute` line, before the formula is there that it is to be a part of.
struct WorkDilution {
    IngredientId what = no_ingredient, base = no_ingredient;
    Share strength;
    Span span, what_span, strength_span, base_span;
    Span words;  ///< the line without `private`
};

/// The line goes, and with it how it was to be weighed.
void forget_dilution(Recipe& recipe, IngredientId gone);
void swap_dilutions(Recipe& recipe, IngredientId from, IngredientId to);
/// Of another recipe, as far as the lines are there.
void inherit_dilutions(const Recipe& from, Recipe& recipe);

/// Looks the recipe's dilutions up in its solved formula. False where one can't be made; said,
/// unless `quiet`.
bool settle_dilutions(Context& context, const Recipe& recipe, const Formula& formula,
                      const std::string& whose, bool quiet, std::vector<Diluted>& out);
/// The same for a mix whose formula is there: fills by what its bowl is weighed.
void dilute_mix(Context& context, const Recipe& recipe, bool quiet, IngredientId id);

}  // namespace levigate::resolving
