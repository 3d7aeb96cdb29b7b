#include "interpreter/expand/expectations.hpp"

#include <algorithm>

#include "interpreter/expand/judge_cost.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

using Measure = Expectation::Measure;
using Compare = Expectation::Compare;

bool holds(const Expectation& expect, const Exact& value) {
    const Exact& low = expect.low.value;
    switch (expect.compare) {
        case Compare::at_most: return value <= low;
        case Compare::at_least: return value >= low;
        case Compare::under: return value < low;
        case Compare::over: return value > low;
        case Compare::is: return value == low;
        case Compare::between: return value >= low && value <= expect.high.value;
    }
    return true;
}

/// A value in the unit that its measure is written in. `beside`: the limit that it missed; without
/// it, the limit itself, as exact as it was written.
std::string unit_words(Measure measure, const Exact& value, const Exact* beside) {
    const bool is_share = measure == Measure::ingredient || measure == Measure::role;
    const Exact number = is_share ? value * 100 : value;
    std::string text = beside ? number_words(number) : exact_words(number);
    if (beside && !text.empty() && text[0] == 'a') {  // rounded: tell it from the limit
        const Exact limit = is_share ? *beside * 100 : *beside;
        for (int places : {4, 8, 12, 20}) {
            text = "about " + number.decimal(places);
            if (number.decimal(places) != limit.decimal(places)) break;
        }
    }
    if (is_share) return text + " %";
    return text + (measure == Measure::density ? " g/mL" : " g");
}

std::string bound_words(const Expectation& expect) {
    std::string low = unit_words(expect.measure, expect.low.value, nullptr);
    switch (expect.compare) {
        case Compare::at_most: return "at most " + low;
        case Compare::at_least: return "at least " + low;
        case Compare::under: return "less than " + low;
        case Compare::over: return "more than " + low;
        case Compare::is: return "exactly " + low;
        case Compare::between: break;
    }
    return "between " + low + " and " + unit_words(expect.measure, expect.high.value, nullptr);
}

/// Resolving has looked at the kinds; where it couldn't, that was said.
bool has_kind(const Expectation& expect, Kind kind) {
    return expect.low.kind == kind && expect.low.value.known() &&
           (expect.compare != Compare::between ||
            (expect.high.kind == kind && expect.high.value.known()));
}

void judge(const Expectation& expect, Kind kind, const Exact& value, const std::string& what,
           const std::string& title, Tally& tally, Findings& findings) {
    if (!has_kind(expect, kind) || !value.known()) return;
    if (holds(expect, value)) {
        ++tally.held;
        return;
    }
    tally.failed = true;
    findings.push_back({Code::expect_failed, missed_words(expect, kind, value, what, title),
                        expect.span, "Change the formula, or what is expected of it."});
}

Share role_share(const Judged& judged, Sym role) {
    Share sum;
    for (const FinishedLine& line : judged.lines) {
        Share inside = role_in(judged.formulary, line.what, role);
        if (inside != Share()) sum += line.share * inside;
    }
    return sum;
}

void judge_density(const Judged& judged, const Expectation& expect, const std::string& title,
                   Tally& tally, Findings& findings) {
    DensityAnswer answer = judged.densities.of(judged.lines);
    if (answer.density)
        judge(expect, Kind::density, in_grams_per_millilitre(*answer.density), "The density", title,
              tally, findings);
    else if (!answer.lacking.empty())
        findings.push_back({Code::expect_unknown,
                            "The density of " + title + " can't be told: " +
                                lacking_words(judged.formulary, answer.lacking) + ".",
                            expect.measure_span, density_advice(judged.formulary, answer.lacking)});
}

}  // namespace

std::string missed_words(const Expectation& expect, Kind kind, const Exact& value,
                         const std::string& what, const std::string& title) {
    if (!has_kind(expect, kind) || !value.known() || holds(expect, value)) return {};
    return what + " comes to " + unit_words(expect.measure, value, &expect.low.value) + " in " +
           title + ", and " + bound_words(expect) + " is expected.";
}

std::string lacking_words(const Formulary& formulary, const std::vector<IngredientId>& lacking) {
    std::vector<std::string> names;
    for (IngredientId what : lacking) names.push_back(formulary.name(what));
    return list_words(names) + (names.size() == 1 ? " has no density" : " have no density");
}

std::string density_advice(const Formulary& formulary, const std::vector<IngredientId>& lacking) {
    std::vector<std::string> names;
    for (IngredientId what : lacking) {
        names.push_back(formulary.name(what));
        const Ingredient& entry = formulary.ingredients[what];
        // A page of the library can't be written to: a block of one's own takes its place.
        if (entry.kind == Ingredient::Kind::material && formulary.materials[entry.index].library)
            return "Write a block of your own, `material " + names.back() +
                   "`, with all that you need and a line `density … g/mL`: it takes the place of "
                   "the library's.";
    }
    return std::string("Add a line `density … g/mL` to the ") +
           (names.size() == 1 ? "material " : "materials ") + list_words(names) + ".";
}

bool is_judged(const Shade& shade, FinishingId finishing) {
    return finishing != nothing || shade.finishes.empty();
}

Findings judge_mix(const Judged& judged, const std::string& title, Tallies& tallies) {
    Findings findings;
    for (std::size_t i = 0; i < judged.shade.expects.size(); ++i) {
        const Expectation& expect = judged.shade.expects[i];
        if (expect.measure == Measure::ingredient && expect.ingredient != no_ingredient) {
            judge(expect, Kind::share, as_fraction(judged.drawn.content(expect.ingredient)),
                  judged.formulary.name(expect.ingredient), title, tallies[i], findings);
        } else if (expect.measure == Measure::role) {
            judge(expect, Kind::share, as_fraction(role_share(judged, expect.role)),
                  "The " + role_words(judged.formulary, judged.names, expect.role), title,
                  tallies[i], findings);
        } else if (expect.measure == Measure::density) {
            judge_density(judged, expect, title, tallies[i], findings);
        }
    }
    return findings;
}

void judge_batch(const Shade& shade, const Mass& whole, const std::string& title, Tallies& tallies,
                 Findings& findings) {
    for (std::size_t i = 0; i < shade.expects.size(); ++i)
        if (shade.expects[i].measure == Measure::whole)
            judge(shade.expects[i], Kind::mass, in_grams(whole), "The whole", title, tallies[i],
                  findings);
}

namespace {

/// In how many sheets an expectation is judged.
std::size_t sheets_due(const Shade& shade, const Expectation& expect, std::size_t mixes) {
    switch (expect.measure) {
        case Measure::whole: return mixes * shade.batches.size();
        case Measure::cost:
        case Measure::cost_per: return cost_sheets(shade, expect, mixes);
        default: return mixes;
    }
}

}  // namespace

std::vector<Verdict> verdicts(const Shade& shade, const Tallies& tallies) {
    const std::size_t mixes =
        shade.versions.size() * std::max<std::size_t>(1, shade.finishes.size());
    std::vector<Verdict> out;
    for (std::size_t i = 0; i < shade.expects.size(); ++i) {
        const std::size_t due = sheets_due(shade, shade.expects[i], mixes);
        if (tallies[i].failed)
            out.push_back(Verdict::fails);
        else
            out.push_back(due > 0 && tallies[i].held == due ? Verdict::holds : Verdict::unknown);
    }
    return out;
}

bool expects_of_batch(const Shade& shade) {
    for (const Expectation& expect : shade.expects)
        if (expect.measure == Measure::whole) return true;
    return false;
}

bool expects_of_mix(const Shade& shade) {
    for (const Expectation& expect : shade.expects)
        if (expect.measure == Measure::ingredient || expect.measure == Measure::role ||
            expect.measure == Measure::density)
            return true;
    return false;
}

}  // namespace levigate
