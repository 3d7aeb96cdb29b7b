#include "interpreter/plan/supply.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

std::string amount_words(const Formulary& formulary, const Stock& stock) {
    if (stock.material != no_ingredient)
        return gram_words(grams(stock.amount)) + " of " + formulary.name(stock.material);
    return number_words(stock.amount) + " " +
           counted(formulary.containers[stock.container].name, stock.amount);
}

void report_past(const Formulary& formulary, const Stock& stock, const Date& on,
                 Findings& findings) {
    const std::string lot = stock.lot.name.empty() ? "" : ", lot " + stock.lot.name;
    findings.push_back({Code::lot_past,
                        amount_words(formulary, stock) + lot + ", best before " +
                            date_words(*stock.best_before) + ", can't be used on " +
                            date_words(on) + ".",
                        stock.span, "Take the line out, or plan for an earlier day."});
}

/// Those that can be used, in the order of their use.
Lots usable(const Formulary& formulary, const Lots& all, const std::optional<Date>& on,
            Findings& findings) {
    Lots out;
    for (const Stock* stock : all) {
        if (on && stock->best_before && last_day(*stock->best_before) < *on)
            report_past(formulary, *stock, *on, findings);
        else
            out.push_back(stock);
    }
    const auto last = [](const Stock* stock) {
        return stock->best_before ? last_day(*stock->best_before) : Date{1 << 20, 1, 1};
    };
    std::stable_sort(out.begin(), out.end(),
                     [&](const Stock* a, const Stock* b) { return last(a) < last(b); });
    return out;
}

/// Gives from one lot after the other, and says to whom.
class Giver {
public:
    explicit Giver(std::vector<Exact> left) : left_(std::move(left)) {}

    template <typename Took>
    void give(Exact& due, const Took& took) {
        while (due.sign() > 0 && lot_ < left_.size()) {
            Exact& left = left_[lot_];
            const Exact amount = left < due ? left : due;
            if (amount.sign() > 0) took(lot_, amount);
            due -= amount;
            left -= amount;
            if (left.sign() <= 0) ++lot_;
        }
    }

private:
    std::vector<Exact> left_;
    std::size_t lot_ = 0;
};

/// In whole steps, as they are weighed. Only where all is there, and these don't cover it, is the
/// rest taken from what is then left in the lots, less than a step in each: what has to be bought
/// anyway is weighed in whole steps with it.
void take(const Lots& lots, const std::vector<Use>& uses, const std::optional<Mass>& step,
          Supply& out) {
    const bool enough = out.need.amount <= out.have;
    std::vector<Exact> whole, crumbs;
    for (const Stock* stock : lots) {
        const Exact steps = step ? (stock->amount / in_grams(*step)).floor() : Exact();
        whole.push_back(step ? steps * in_grams(*step) : stock->amount);
        crumbs.push_back(enough ? stock->amount - whole.back() : Exact());
    }
    std::map<std::pair<std::size_t, std::size_t>, Exact> taken;  // by use and lot
    std::vector<Exact> due;
    for (const Use& use : uses) due.push_back(use.amount);
    for (Giver giver : {Giver(std::move(whole)), Giver(std::move(crumbs))})
        for (std::size_t i = 0; i < uses.size(); ++i)
            giver.give(due[i], [&](std::size_t lot, const Exact& amount) {
                taken[{i, lot}] += amount;
            });
    out.lacking = out.need.amount;
    for (const auto& [place, amount] : taken) {
        out.taken.push_back({lots[place.second], uses[place.first].bowl, amount});
        out.lacking -= amount;
    }
}

const std::optional<Price>& price_of(const Formulary& formulary, const Needed& need) {
    static const std::optional<Price> none;
    if (need.container != nothing) return formulary.containers[need.container].price;
    const Ingredient& entry = formulary.ingredients[need.material];
    return entry.kind == Ingredient::Kind::material ? formulary.materials[entry.index].price : none;
}

/// What is bought at once, in grams or pieces.
std::optional<Exact> pack_of(const Formulary& formulary, const Needed& need) {
    const std::optional<Price>& price = price_of(formulary, need);
    if (!price || !price->pack || price->pack->value.sign() <= 0) return std::nullopt;
    if (price->pack->kind != Kind::volume) return price->pack->value;
    const auto& density = formulary.ingredients[need.material].density;
    if (!density) return std::nullopt;
    return price->pack->value * in_grams_per_millilitre(*density);
}

}  // namespace

Supply supply(const Formulary& formulary, const Needed& need, const Lots& all,
              const std::vector<Use>& uses, const std::optional<Mass>& step,
              const std::optional<Date>& on, Findings& findings) {
    Supply out;
    out.need = need;
    const Lots lots = usable(formulary, all, on, findings);
    for (const Stock* stock : lots) out.have += stock->amount;
    take(lots, uses, step, out);
    out.pack = pack_of(formulary, need);
    if (out.pack) out.packs = (out.lacking / *out.pack).ceil();
    out.bought = out.pack ? *out.packs * *out.pack : out.lacking;
    if (out.lacking.sign() > 0)
        out.cost = cost_of(formulary, {need.material, need.container, out.bought});
    return out;
}

Largest largest(const std::vector<Needed>& needs, const std::vector<Exact>& have) {
    Largest out;
    for (std::size_t i = 0; i < needs.size(); ++i) {
        if (needs[i].amount.sign() <= 0) continue;
        const Exact times = have[i] / needs[i].amount;
        if (out.times && !(times < *out.times)) continue;
        out.times = times;
        out.by = needs[i];
    }
    return out;
}

void settle_by_steps(const std::vector<Needed>& weighed, const std::vector<Exact>& have,
                     Largest& largest) {
    if (!largest.times) return;
    Largest most = levigate::largest(weighed, have);
    if (most.times && *most.times < Exact(1)) {
        if (!(*largest.times < Exact(1))) largest = std::move(most);
    } else if (*largest.times < Exact(1)) {
        largest.times = Exact(1);
    }
}

}  // namespace levigate
