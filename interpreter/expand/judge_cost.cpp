#include "interpreter/expand/judge_cost.hpp"

#include <algorithm>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

using Measure = Expectation::Measure;
using Compare = Expectation::Compare;

bool of_cost(const Expectation& expect) {
    return expect.measure == Measure::cost || expect.measure == Measure::cost_per;
}

bool counted_in(const BatchSize& size, ContainerId container) {
    const auto* count = std::get_if<ContainerCount>(&size.amount);
    return count && !size.broken && count->container == container;
}

bool any_counted_in(const Shade& shade, ContainerId container) {
    return std::any_of(shade.batches.begin(), shade.batches.end(),
                       [&](const Batch& batch) { return counted_in(batch.size, container); });
}

enum class Told : std::uint8_t { holds, fails, open };

/// Where a part of the cost lacks, what is known is the least that it can be: prices are never less
/// than nothing.
Told tell(const Expectation& expect, const Exact& known, bool complete) {
    const Exact& low = expect.low.value;
    const auto above = [&](const Exact& limit, bool at) {
        return known > limit || (at && known == limit);
    };
    const auto told = [](bool fine) { return fine ? Told::holds : Told::fails; };
    switch (expect.compare) {
        case Compare::at_most:
            return above(low, false) ? Told::fails : complete ? Told::holds : Told::open;
        case Compare::under:
            return above(low, true) ? Told::fails : complete ? Told::holds : Told::open;
        case Compare::at_least:
            return above(low, true) ? Told::holds : complete ? Told::fails : Told::open;
        case Compare::over:
            return above(low, false) ? Told::holds : complete ? Told::fails : Told::open;
        case Compare::is:
            if (complete) return told(known == low);
            return above(low, false) ? Told::fails : Told::open;
        case Compare::between:
            if (above(expect.high.value, false)) return Told::fails;
            return complete ? told(known >= low) : Told::open;
    }
    return Told::open;
}

/// In so many places that it differs from the limit that it missed.
std::string cost_words(const Coin& cost, const Exact& limit) {
    for (int more : {0, 2, 6, 10}) {
        const int places = currency_places(cost.currency) + more;
        if (cost.amount.fixed(places) != limit.fixed(places)) return fine_money_words(cost, more);
    }
    return exact_words(cost.amount) + " " + std::string(currency_code(cost.currency));
}

std::string limit_words(const Quantity& limit) {
    return exact_words(limit.value) + " " + std::string(currency_code(limit.tag));
}

std::string cost_bound_words(const Expectation& expect) {
    const std::string low = limit_words(expect.low);
    switch (expect.compare) {
        case Compare::at_most: return "at most " + low;
        case Compare::at_least: return "at least " + low;
        case Compare::under: return "less than " + low;
        case Compare::over: return "more than " + low;
        case Compare::is: return "exactly " + low;
        case Compare::between: break;
    }
    return "between " + low + " and " + limit_words(expect.high);
}

std::string rates_words(const Costing& costing) {
    std::vector<std::string> rates;
    for (const CostLine& line : costing.lines) {
        if (!line.rate) continue;
        std::string words = rate_words(*line.rate->rate);
        if (std::find(rates.begin(), rates.end(), words) == rates.end())
            rates.push_back(std::move(words));
    }
    return rates.empty() ? std::string() : " (" + list_words(rates) + ")";
}

/// A container counts as `one`, in the middle of a sentence; at its start as `One`.
std::string sentence(std::string what) {
    if (what.starts_with("one ")) what[0] = 'O';
    return what;
}

/// `what`: "Quince, full", "one slim tube of Quince, full".
void judge(const MixCost& mix, const Expectation& expect, std::span<const Needed> needed,
           const std::string& what, Tally& tally, Findings& findings) {
    if (!expect.low.value.known() || expect.low.kind != Kind::money) return;
    const std::uint32_t currency = expect.low.tag;
    const Costing costs = costing(mix.formulary, needed, currency);
    const Exact known = costs.sum.of(currency);
    if (!known.known()) return;
    const Told told = tell(expect, known, costs.complete());
    if (told == Told::holds) ++tally.held;
    if (told == Told::fails) {
        tally.failed = true;
        std::string advice = "Change the formula, or what is expected of it.";
        if (!costs.lines.empty() && costs.lines.front().cost.amount.sign() > 0)
            advice = "Most of it is " + name_of(mix.formulary, costs.lines.front().of) + ", " +
                     (costs.lines.front().part * 100).decimal(1) + " %. " + advice;
        findings.push_back({Code::expect_failed,
                            sentence(what) + " costs " + (costs.complete() ? "" : "at least ") +
                                cost_words({currency, known}, expect.low.value) +
                                rates_words(costs) + ", and " + cost_bound_words(expect) +
                                " is expected.",
                            expect.span, std::move(advice)});
    }
    if (told == Told::open)
        findings.push_back({.code = Code::expect_unknown,
                            .message = "What " + what + " costs can't be told: " +
                                       lacking_words(mix.formulary, costs.lacking) + ".",
                            .span = expect.measure_span,
                            .advice = lacking_advice(mix.formulary, costs.lacking, currency),
                            .notes = lacking_notes(mix.formulary, costs.lacking)});
}

/// The materials in so many grams of the mix, and room for containers.
std::vector<Needed> materials_in(const MixCost& mix, const Exact& mass) {
    std::vector<Needed> out = mix.of_gram;
    for (Needed& one : out) one.amount *= mass;
    return out;
}

std::string one_of(const Formulary& formulary, ContainerId container, const std::string& title) {
    return "one " + formulary.containers[container].name + " of " + title;
}

}  // namespace

bool expects_of_cost(const Shade& shade) {
    return std::any_of(shade.expects.begin(), shade.expects.end(), of_cost);
}

std::size_t cost_sheets(const Shade& shade, const Expectation& expect, std::size_t mixes) {
    if (expect.measure == Measure::cost) return mixes * shade.batches.size();
    std::size_t counted = 0;
    for (const Batch& batch : shade.batches)
        counted += counted_in(batch.size, expect.container) ? 1 : 0;
    return counted == 0 ? mixes : mixes * counted;
}

Findings judge_mix_cost(const MixCost& mix, const std::function<std::optional<Density>()>& density,
                        const std::string& title, Tallies& tallies) {
    Findings findings;
    for (std::size_t i = 0; i < mix.shade.expects.size(); ++i) {
        const Expectation& expect = mix.shade.expects[i];
        if (expect.measure != Measure::cost_per || any_counted_in(mix.shade, expect.container))
            continue;
        const auto& holds = mix.formulary.containers[expect.container].holds;
        Exact fill;
        if (const Mass* mass = std::get_if<Mass>(&holds)) fill = in_grams(*mass);
        if (const Volume* volume = std::get_if<Volume>(&holds)) {
            const auto dense = density();
            if (!dense) {
                findings.push_back({Code::expect_unknown,
                                    "What " + one_of(mix.formulary, expect.container, title) +
                                        " costs can't be told: nothing tells the density of the "
                                        "mix, and so how many grams go into it.",
                                    expect.measure_span,
                                    "Fill one " + mix.formulary.containers[expect.container].name +
                                        " and weigh what it holds, and write that into its block, "
                                        "as in `holds 3.9 g`. Or add a line `density … g/mL` to "
                                        "each material that has none."});
                continue;
            }
            fill = in_millilitres(*volume) * in_grams_per_millilitre(*dense);
        }
        if (fill.sign() <= 0) continue;  // it holds nothing known: said where it stands
        std::vector<Needed> needed = materials_in(mix, fill);
        needed.push_back({no_ingredient, expect.container, 1});
        judge(mix, expect, needed, one_of(mix.formulary, expect.container, title), tallies[i],
              findings);
    }
    return findings;
}

Findings judge_batch_cost(const MixCost& mix, const BatchSize& size, const Mass& whole,
                          const std::string& title, Tallies& tallies) {
    Findings findings;
    const auto* count = std::get_if<ContainerCount>(&size.amount);
    for (std::size_t i = 0; i < mix.shade.expects.size(); ++i) {
        const Expectation& expect = mix.shade.expects[i];
        if (!of_cost(expect)) continue;
        const bool each = expect.measure == Measure::cost_per;
        if (each && !counted_in(size, expect.container)) continue;
        const Exact parts = each ? count->count : Exact(1);
        std::vector<Needed> needed = materials_in(mix, in_grams(whole) / parts);
        if (count) needed.push_back({no_ingredient, count->container, count->count / parts});
        judge(mix, expect, needed, each ? one_of(mix.formulary, expect.container, title) : title,
              tallies[i], findings);
    }
    return findings;
}

}  // namespace levigate
