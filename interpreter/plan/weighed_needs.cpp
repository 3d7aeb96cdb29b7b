#include "interpreter/plan/weighed_needs.hpp"

#include <algorithm>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/formulary/dilute.hpp"

namespace levigate {
namespace {

/// The smallest bowl of a dilution of which each line can be weighed, in steps.
Exact least_bowl(const Bowl& bowl, const Exact& whole, const Reading& reading) {
    const Exact least = scale_of(reading).least_steps();
    Exact out;
    for (const SheetLine& line : bowl.lines)
        if (in_grams(line.exact).sign() > 0)
            out = std::max(out, (least * whole / in_grams(line.exact)).ceil());
    return out;
}

}  // namespace

WeighedNeeds::WeighedNeeds(const Formulary& formulary, const std::vector<Bowl>& bowls,
                           const Reading& reading) {
    const Exact& step = in_grams(reading.step);
    std::unordered_map<IngredientId, std::size_t> made_in;
    for (const Bowl& bowl : bowls) {
        Asked& out = bowls_.emplace_back();
        for (const SheetLine& line : bowl.lines) out.exact += in_grams(line.exact);
        const bool dilution = dilution_of(formulary, bowl.mix) && out.exact.sign() > 0;
        const Exact least = dilution ? least_bowl(bowl, out.exact, reading) : Exact();
        for (const SheetLine& line : bowl.lines) {
            const auto from = made_in.find(line.what);
            Line& one = out.lines.emplace_back();
            one = {line.what, from == made_in.end() ? nothing : from->second, in_grams(line.exact),
                   Exact()};
            if (dilution)
                one.least =
                    bowl.asked < least ? line.steps * step : least * step * one.exact / out.exact;
        }
        if (bowl.mix != no_ingredient) made_in[bowl.mix] = bowls_.size() - 1;
    }
}

std::vector<std::vector<Growing>> WeighedNeeds::at(const Exact& times) const {
    std::vector<std::vector<Growing>> out(bowls_.size());
    std::vector<Growing> over(bowls_.size());  // asked of a bowl beyond its exact share
    for (std::size_t k = bowls_.size(); k-- > 0;) {
        const Asked& bowl = bowls_[k];
        for (const Line& line : bowl.lines) {
            Growing due{line.exact * times, line.exact};
            if (over[k].grams.sign() > 0) {
                const Exact part = line.exact / bowl.exact;
                due = {due.grams + part * over[k].grams, due.slope + part * over[k].slope};
            }
            if (line.least.sign() > 0 && due.grams <= line.least) due = {line.least, Exact()};
            if (line.bowl != nothing) {
                over[line.bowl].grams += due.grams - line.exact * times;
                over[line.bowl].slope += due.slope - line.exact;
            }
            out[k].push_back(std::move(due));
        }
    }
    return out;
}

std::unordered_map<IngredientId, Growing> WeighedNeeds::sums_at(const Exact& times) const {
    std::unordered_map<IngredientId, Growing> out;
    const auto grown = at(times);
    for (std::size_t k = 0; k < bowls_.size(); ++k)
        for (std::size_t n = 0; n < bowls_[k].lines.size(); ++n) {
            Growing& sum = out[bowls_[k].lines[n].what];
            sum.grams += grown[k][n].grams;
            sum.slope += grown[k][n].slope;
        }
    return out;
}

}  // namespace levigate
