#include "interpreter/expand/size.hpp"

#include <algorithm>
#include <string>

#include "interpreter/formulary/walk.hpp"

namespace levigate {
namespace {

const Formula& weighed(const Mix& mix) { return mix.weighed.solved() ? mix.weighed : mix.formula; }

/// About so many digits a product grows by: numerator and denominator have them together.
std::uint32_t digits(const Share& share) {
    return static_cast<std::uint32_t>(as_fraction(share).exactly().size() / 2);
}

}  // namespace

std::uint32_t WorkCounter::digits_of(IngredientId what) {
    if (!mix_of(formulary_, what)) return 0;
    const auto index = [&](IngredientId one) { return formulary_.ingredients[one].index; };
    digits_.resize(formulary_.mixes.size());
    each_inner_first(
        formulary_, what, [&](IngredientId one) { return digits_[index(one)] != 0; },
        [&](IngredientId one) {
            const Formula& formula = formulary_.mixes[index(one)].formula;
            std::uint32_t most = 0;
            for (std::size_t i = 0; i < formula.shares.size(); ++i) {
                const IngredientId part = formula.parts[i].what;
                const bool mix = mix_of(formulary_, part) != nullptr;
                most = std::max(most, digits(formula.shares[i]) +
                                          (mix ? digits_[index(part)] - 1 : 0));
            }
            digits_[index(one)] = 1 + std::min<std::uint32_t>(most, digit_cap);
        });
    return digits_[index(what)];
}

void WorkCounter::meet(IngredientId what) {
    const Ingredient& one = formulary_.ingredients[what];
    if (one.kind == Ingredient::Kind::material || met_[one.index] == product_) return;
    met_[one.index] = product_;
    todo_.push_back(one.index);
}

std::size_t WorkCounter::lines_of(const Formula& bulk, const std::vector<Addition>& additions) {
    met_.resize(formulary_.mixes.size());
    ++product_;
    std::uint32_t longest = 0;
    for (const Part& part : bulk.parts)
        meet(part.what), longest = std::max(longest, digits_of(part.what));
    for (const Addition& one : additions)
        meet(one.what), longest = std::max(longest, digits_of(one.what));
    std::size_t count = bulk.parts.size() + additions.size();
    while (!todo_.empty() && count <= most_work) {
        const Mix& mix = formulary_.mixes[todo_.back()];
        todo_.pop_back();
        const Formula& formula = weighed(mix);
        const std::size_t above = longest - std::min(longest, digits_of(mix.self));
        count += formula.parts.size() * (1 + above * above / 128);
        for (const Part& part : formula.parts) meet(part.what);
    }
    todo_.clear();
    return count;
}

void WorkCounter::add(const Version& version, FinishingId finishing, std::size_t times) {
    static const std::vector<Addition> none;
    if (too_much()) return;
    work_ += times * lines_of(version.formula, finishing == nothing
                                                   ? none
                                                   : formulary_.finishings[finishing].additions);
}

void WorkCounter::add(const Selection& selection) {
    for (const Selected& selected : selection.shades) {
        const std::size_t times = std::max<std::size_t>(1, selected.batches.size());
        const std::vector<Version>& versions = formulary_.shades[selected.shade].versions;
        for (const std::uint32_t version : selected.versions)
            for (const FinishingId finishing : selected.finishings)
                add(versions[version], finishing, times);
    }
}

Finding say_too_much(Span where) {
    return {Code::too_many_sheets,
            "All sheets of this together have too many lines: more than " +
                std::to_string(most_work) +
                ", where a line with long numbers counts several times.",
            where,
            "Ask for fewer variants, finishes or batches, or for one shade at a time with "
            "--shade; or put fewer blends within blends."};
}

std::optional<Finding> too_much_work(const Formulary& formulary, const Selection& selection) {
    WorkCounter counter(formulary);
    counter.add(selection);
    if (!counter.too_much()) return std::nullopt;
    return say_too_much();
}

std::optional<Finding> too_much_work(const Formulary& formulary, const Names& names) {
    Choice all;
    all.all = true;
    return too_much_work(formulary, select(formulary, names, all));
}

}  // namespace levigate
