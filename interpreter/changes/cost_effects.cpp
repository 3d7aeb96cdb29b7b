#include "interpreter/changes/cost_effects.hpp"

#include <algorithm>

#include "interpreter/render/cost_sheet.hpp"

namespace levigate::changing {

bool any_price(const Formulary& formulary) {
    const auto priced = [](const auto& one) { return one.price.has_value(); };
    return std::any_of(formulary.materials.begin(), formulary.materials.end(), priced) ||
           std::any_of(formulary.containers.begin(), formulary.containers.end(), priced);
}

CostSeen cost_seen(const Formulary& formulary, const Sheet& sheet) {
    const BatchSize& size = formulary.shades[sheet.shade].batches[sheet.batch].size;
    const SheetCost cost = sheet_cost(formulary, sheet, size, {});
    CostSeen out{cost.all.sum, {}, {}, {}};
    for (const Lack& lack : cost.all.lacking) out.lacking.push_back(name_of(formulary, lack.of));
    if (!cost.filled) return out;
    out.container = formulary.containers[cost.filled->container].name;
    out.each = cost.all.sum.times(1 / cost.filled->count);
    return out;
}

bool cost_alike(const std::optional<CostSeen>& a, const std::optional<CostSeen>& b) {
    const auto words = [](const std::optional<CostSeen>& cost) {
        if (!cost || (cost->sum.empty() && !cost->complete())) return std::string("not known");
        std::string out = sum_words(cost->sum, cost->complete());
        if (!cost->container.empty()) out += ", " + sum_words(cost->each, cost->complete());
        return out;
    };
    return words(a) == words(b);
}

}  // namespace levigate::changing
