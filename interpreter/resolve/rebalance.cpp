// `rebalance`, and the step from a recipe to a solved formula.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

/// Weighs all that was poured. False where a density lacks.
bool weigh_all(Context& context, Recipe& recipe) {
    bool all = true;
    for (WorkPart& part : recipe.parts) all = weigh_poured(context, part) && all;
    return all;
}

Formula plain_formula(const Recipe& recipe) {
    Formula formula;
    formula.parts.reserve(recipe.parts.size());
    for (const WorkPart& part : recipe.parts) formula.parts.push_back(part.part);
    return formula;
}

}  // namespace

bool any_ambiguous(const Context& context, const Recipe& recipe) {
    const auto unclear = [&](const WorkPart& part) { return ambiguous(context.out, part.part); };
    return std::any_of(recipe.parts.begin(), recipe.parts.end(), unclear);
}

void rebalance(Context& context, Span line, const std::vector<IngredientId>& touched,
               Recipe& recipe, const std::string& whose, std::uint64_t which) {
    if (!weigh_all(context, recipe)) {
        recipe.broken = true;
        return;
    }
    for (const WorkPart& part : recipe.parts) {
        const bool rest = std::holds_alternative<Rest>(part.part.amount);
        const bool weight = std::holds_alternative<Weight>(part.part.amount) ||
                            std::holds_alternative<Enough>(part.part.amount);
        if (!rest && !weight) continue;
        report_of(context,
                  {.code = Code::rebalance_misplaced,
                   .message = fmt::format("{} has {} up every change by themselves.", whose,
                                          rest ? "a `rest`: its lines take" : "weights: they take"),
                   .span = line,
                   .advice = "Leave `rebalance` out.",
                   .fixes = {possible_fix(line, "")},
                   .notes = {{part.part.span, rest ? "the rest" : "a weight"}}},
                  whose, which);
        recipe.broken = true;
        return;
    }
    // Untouched shares count as weights of their size; solving gives the shares that they come to.
    Formula formula = plain_formula(recipe);
    std::vector<bool> moved(formula.parts.size());
    for (std::size_t i = 0; i < formula.parts.size(); ++i) {
        Part& part = formula.parts[i];
        const auto* size = std::get_if<Share>(&part.amount);
        if (!size || std::find(touched.begin(), touched.end(), part.what) != touched.end())
            continue;
        moved[i] = true;
        part.amount = Weight{grams(as_fraction(*size)), true};
    }
    // What it warns of is still so in the end, and said then.
    for (Finding& finding : solve(context.out, context.names, formula, whose, line))
        if (finding.severity == Severity::error)
            report_of(context, std::move(finding), whose, which);
    if (!formula.solved()) {
        recipe.broken = true;
        return;
    }
    const auto how = static_cast<std::uint32_t>(context.out.rebalancings.size());
    context.out.rebalancings.push_back(
        {as_fraction(formula.solving.left), in_grams(formula.solving.all_weights)});
    for (std::size_t i = 0; i < formula.parts.size(); ++i) {
        if (!moved[i]) continue;
        Part& part = recipe.parts[i].part;
        const Exact before = as_fraction(std::get<Share>(part.amount));
        const Exact after = as_fraction(formula.shares[i]);
        part.amount = formula.shares[i];
        recipe.parts[i].poured.reset();
        const Exact factor = before.is_zero() ? Exact(1) : after / before;
        part.origin = add_origin(context, {.kind = OriginKind::rebalanced,
                                           .span = line,
                                           .before = part.origin,
                                           .was = how,
                                           .value = factor});
    }
}

bool finish_formula(Context& context, Recipe& recipe, Formula& formula, const std::string& whose,
                    Span where, bool quiet) {
    if (recipe.broken || !weigh_all(context, recipe)) return false;
    formula = plain_formula(recipe);
    formula.ambiguous = recipe.ambiguous || any_ambiguous(context, recipe);
    auto findings = solve(context.out, context.names, formula, whose, where);
    const bool solved = formula.solved();
    if (!quiet || solved)
        for (Finding& finding : findings) {
            name_cure(context, recipe, finding);
            // Two shades can go wrong at one line: each loses its sheets, so each is named. What
            // is too much is each member's own matter, the rest their family's.
            const bool own = finding.code == Code::total_over || finding.code == Code::total_off;
            const std::uint64_t which =
                own && context.apart ? std::hash<std::string>{}(whose) : context.taker;
            report_of(context, std::move(finding), whose, which);
        }
    return solved;
}

}  // namespace levigate::resolving
