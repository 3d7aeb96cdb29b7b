// Lines that stay at home though they aren't private.

#include <algorithm>
#include <map>

#include "interpreter/formulary/say.hpp"
#include "interpreter/share/prove.hpp"

namespace levigate::sharing {

namespace {

using At = std::pair<SourceId, std::uint32_t>;
At at(Span span) { return {span.source, span.begin}; }

/// What has a price in the source, and none in the public part.
class Prices {
public:
    Prices(const Compiled& source, const Open& open) : open_(open.compiled.formulary) {
        for (const Ingredient& one : source.formulary.ingredients)
            if (one.kind == Ingredient::Kind::material &&
                source.formulary.materials[one.index].price)
                priced_[at(one.span)] = true;
        for (const Container& one : source.formulary.containers)
            if (one.price) priced_[at(one.span)] = true;
        for (IngredientId id = 0; id < open_.ingredients.size(); ++id)
            if (open_.ingredients[id].span.source == open.sealed_page) sealed_.push_back(id);
    }

    bool lost(const Shade& shade) const {
        std::vector<IngredientId> due;
        for (const Version& version : shade.versions)
            for (const Part& part : version.formula.parts) due.push_back(part.what);
        for (const ShadeFinish& finish : shade.finishes) {
            if (finish.finishing == nothing) continue;
            for (const Addition& one : open_.finishings[finish.finishing].additions)
                due.push_back(one.what);
        }
        for (const Batch& batch : shade.batches)
            if (const auto* count = std::get_if<ContainerCount>(&batch.size.amount))
                if (lost(open_.containers[count->container])) return true;
        for (const Expectation& expect : shade.expects)
            if (expect.container != nothing && lost(open_.containers[expect.container]))
                return true;
        return any_lost(std::move(due));
    }

private:
    bool lost(const Container& one) const { return !one.price && priced_.contains(at(one.span)); }
    bool lost(IngredientId id) const {
        const Ingredient& one = open_.ingredients[id];
        if (std::binary_search(sealed_.begin(), sealed_.end(), id)) return true;
        return one.kind == Ingredient::Kind::material && !open_.materials[one.index].price &&
               priced_.contains(at(one.span));
    }
    bool any_lost(std::vector<IngredientId> due) const {
        std::vector<bool> seen(open_.ingredients.size());
        while (!due.empty()) {
            const IngredientId id = due.back();
            due.pop_back();
            if (id == no_ingredient || seen[id]) continue;
            seen[id] = true;
            if (lost(id)) return true;
            if (const Mix* mix = mix_of(open_, id))
                for (const Part& part : mix->formula.parts) due.push_back(part.what);
        }
        return false;
    }

    const Formulary& open_;
    std::map<At, bool> priced_;
    std::vector<IngredientId> sealed_;
};

}  // namespace

std::vector<Span> lines_that_stay(const Compiled& source, const Open& open, const Picked& picked) {
    std::vector<Span> out;
    const Prices prices(source, open);
    for (ShadeId id = 0; id < picked.chosen.size(); ++id) {
        if (!picked.chosen[id]) continue;
        const Shade& shade = open.compiled.formulary.shades[id];
        std::vector<Span> cost;
        for (const Expectation& expect : shade.expects)
            if (expect.measure == Expectation::Measure::cost ||
                expect.measure == Expectation::Measure::cost_per)
                cost.push_back(expect.span);
        if (cost.empty() || !prices.lost(shade)) continue;
        for (const Span span : cost)
            if (std::find(out.begin(), out.end(), span) == out.end()) out.push_back(span);
    }
    return out;
}

}  // namespace levigate::sharing
