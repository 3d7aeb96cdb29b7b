#include "interpreter/formulary/ends.hpp"

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/walk.hpp"

namespace levigate {
namespace {

/// The most that Σ share × millilitres a gram can come to, the shares being 1 together: what takes
/// most room gets as much as it may. `sign` -1: the least.
Exact volume_of(std::vector<std::pair<Ends, Exact>> lines, int sign) {
    Exact left = 1, sum;
    for (const auto& [share, volume] : lines) {
        left -= share.least;
        sum += share.least * volume;
    }
    std::stable_sort(lines.begin(), lines.end(), [sign](const auto& a, const auto& b) {
        return sign > 0 ? b.second < a.second : a.second < b.second;
    });
    for (const auto& [share, volume] : lines) {
        if (left.sign() <= 0) break;
        const Exact room = share.most - share.least, more = room < left ? room : left;
        sum += more * volume;
        left -= more;
    }
    return sum;
}

/// True where other ends would be another formula.
bool goes_by_others(const Formulary& formulary, const Formula& formula) {
    if (formula.solving.by == Solving::By::shares) return true;
    for (const Part& part : formula.parts) {
        if (std::holds_alternative<AsMuch>(part.amount) ||
            std::holds_alternative<Enough>(part.amount))
            return true;
        for (OriginId id = part.origin; id != no_origin; id = formulary.origins[id].before)
            if (formulary.origins[id].kind == OriginKind::rebalanced ||
                formulary.origins[id].kind == OriginKind::interpolated)
                return true;
    }
    return false;
}

/// Each line by how much it may be multiplied, solved again at the ends that are worst for it.
ShareEnds solve_at_ends(const Formula& formula, const std::vector<Ends>& times) {
    std::vector<Ends> out(times.size());
    Ends fixed = Ends::at(0), weights = Ends::at(0);
    for (std::size_t i = 0; i < times.size(); ++i) {
        const PartAmount& amount = formula.parts[i].amount;
        if (const auto* size = std::get_if<Share>(&amount))
            fixed = fixed + (out[i] = Ends::at(as_fraction(*size)) * times[i]);
        else if (const auto* weight = std::get_if<Weight>(&amount))
            weights = weights + (out[i] = Ends::at(in_grams(weight->mass)) * times[i]);
    }
    const Ends left{1 - fixed.most, 1 - fixed.least};
    if (left.least.sign() <= 0) return std::nullopt;
    for (std::size_t i = 0; i < times.size(); ++i) {
        const PartAmount& amount = formula.parts[i].amount;
        if (std::holds_alternative<Rest>(amount)) out[i] = left;
        if (!std::holds_alternative<Weight>(amount) || out[i].most.is_zero()) continue;
        const Ends others{weights.least - out[i].least, weights.most - out[i].most};
        out[i] = {left.least * out[i].least / (out[i].least + others.most),
                  left.most * out[i].most / (out[i].most + others.least)};
    }
    return out;
}

}  // namespace

std::optional<Ends> FigureEnds::poured(IngredientId what) {
    const DensityAnswer stated = density_of(formulary_, what, true);
    const std::optional<Ends>& ends = density(what, true);
    if (!ends || !stated.density) return std::nullopt;
    return *ends / Ends::at(in_grams_per_millilitre(*stated.density));
}

ShareEnds FigureEnds::shares(const Formula& formula) {
    if (!formula.solved()) return std::nullopt;
    std::vector<Ends> times(formula.parts.size(), Ends::at(1));
    bool open = false;
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (!formula.parts[i].estimated) continue;
        const std::optional<Ends> own = poured(formula.parts[i].what);
        if (!own) return std::nullopt;
        times[i] = *own;
        open = open || own->open();
    }
    if (open)
        return goes_by_others(formulary_, formula) ? std::nullopt : solve_at_ends(formula, times);
    std::vector<Ends> out;
    for (const Share& one : formula.shares) out.push_back(Ends::at(as_fraction(one)));
    return out;
}

const ShareEnds& FigureEnds::shares(MixId mix) {
    mixes_.resize(formulary_.mixes.size());
    if (!mixes_[mix]) {
        ShareEnds own = shares(formulary_.mixes[mix].formula);
        mixes_[mix] = std::move(own);
    }
    return *mixes_[mix];
}

/// Both densities of all mixes inside, the innermost first, so that no walk goes deep.
void FigureEnds::know_inside(IngredientId what) {
    walking_ = true;
    const auto known = [&](IngredientId one) {
        const bool both = known_[0][one].ends && known_[1][one].ends;
        return both || formulary_.ingredients[one].density;
    };
    each_inner_first(formulary_, what, known, [&](IngredientId one) {
        if (one != what) density(one, false), density(one, true);
    });
    walking_ = false;
}

const std::optional<Ends>& FigureEnds::density(IngredientId what, bool spooned) {
    std::vector<Known>& all = known_[spooned ? 1 : 0];
    for (std::vector<Known>& either : known_) either.resize(formulary_.ingredients.size());
    if (!walking_ && !all[what].ends) know_inside(what);
    if (!all[what].ends) {
        std::optional<Ends> own;
        if (!all[what].open) {
            all[what].open = true;
            own = reckon(what, spooned);
        }
        all[what].ends = own;
    }
    return *all[what].ends;
}

std::optional<Ends> FigureEnds::reckon(IngredientId what, bool spooned) {
    const Ingredient& entry = formulary_.ingredients[what];
    const bool loose = spooned && entry.bulk;
    if (const std::optional<Density>& stated = loose ? entry.bulk : entry.density)
        return Ends::around(in_grams_per_millilitre(*stated),
                            loose ? formulary_.tolerance(what).bulk
                                  : formulary_.tolerance(what).density);
    const Mix* mix = mix_of(formulary_, what);
    if (!mix || !mix->formula.solved()) return std::nullopt;
    const ShareEnds own = shares(entry.index);
    if (!own) return std::nullopt;
    std::vector<std::pair<IngredientId, Ends>> lines;
    for (std::size_t i = 0; i < own->size(); ++i)
        lines.emplace_back(mix->formula.parts[i].what, (*own)[i]);
    return of_mix(lines, spooned);
}

std::optional<Ends> FigureEnds::of_mix(const std::vector<std::pair<IngredientId, Ends>>& lines,
                                       bool spooned) {
    std::vector<std::pair<Ends, Exact>> light, heavy;
    for (const auto& [what, share] : lines) {
        if (share.most.is_zero()) continue;
        const std::optional<Ends> own = density(what, spooned);
        if (!own || own->least.sign() <= 0) return std::nullopt;
        light.emplace_back(share, 1 / own->least);
        heavy.emplace_back(share, 1 / own->most);
    }
    const Exact most = volume_of(std::move(light), 1), least = volume_of(std::move(heavy), -1);
    if (least.sign() <= 0 || !most.known()) return std::nullopt;
    return Ends{1 / most, 1 / least};
}

}  // namespace levigate
