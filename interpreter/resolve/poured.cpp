// What a volume weighs: by the bulk of a powder, else by density; reckoned last, so that a swap
// keeps the amount as it was written.

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

/// A powder measured by volume without a bulk counts as if it were solid: several times too much.
void advise_bulk(Context& context, const WorkPart& line) {
    const Ingredient& what = context.out.ingredients[line.part.what];
    if (what.kind != Ingredient::Kind::material || what.bulk) return;
    if (!context.out.materials[what.index].powder) return;
    report(context,
           {.code = Code::bulk_missing,
            .message = fmt::format("{} is a powder measured by volume, and only the density of its "
                                   "grains is known: a spoon of it holds much less.",
                                   what.name),
            .span = line.part.span,
            .advice = "Weigh a level spoon of it and add a line `bulk … g/mL` to its block."});
}

}  // namespace

bool weigh_poured(Context& context, WorkPart& line) {
    if (!line.poured) return true;
    const IngredientId what = line.part.what;
    if (!usable(context.out, what) || ambiguous(context.out, line.part)) return false;
    const auto answer = density_of(context.out, what, true, context.densities);
    if (!answer.density) {
        std::vector<std::string> lacking;
        bool lost = answer.lacking.empty();  // a line was lost that may have said it
        for (const IngredientId one : answer.lacking) {
            lacking.push_back(context.out.name(one));
            lost = lost || context.out.ingredients[one].damaged;
        }
        if (!lost)
            report(context,
                   {.code = Code::density_missing,
                    .message = fmt::format("A volume of {} can't be weighed: {} has no density.",
                                           context.out.name(what), list_words(lacking)),
                    .span = line.part.span,
                    .advice = "Add a line `density … g/mL` to its block (or `bulk … g/mL`, for a "
                              "powder by the spoon), or write a weight here."});
        return false;
    }
    advise_bulk(context, line);
    const Exact each = in_grams_per_millilitre(*answer.density);
    line.part.estimated = true;
    if (line.poured->kind == Kind::volume)
        line.part.amount = Weight{grams(line.poured->value * each), false};
    else
        line.part.amount = share(line.poured->value * each);
    return true;
}

}  // namespace levigate::resolving
