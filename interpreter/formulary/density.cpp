// The density of a mix: masses over densities, volumes adding up. An estimate, since real liquids
// and powders don't quite add up. Reckoned as millilitres a gram, which is the sum that is linear.

#include <optional>
#include <unordered_map>
#include <unordered_set>

#include "interpreter/formulary/density_memo.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"

namespace levigate {
namespace {

struct Reckoning {
    struct Frame {
        const Formula* formula;
        MixId mix;
        std::size_t next = 0;
        VolumePerMass sum = {};
    };
    const Formulary& formulary;
    bool spooned = false;
    DensityMemo& memo;
    bool broken = false;
    std::unordered_map<MixId, std::optional<VolumePerMass>> met = {};  // nothing: still open
    std::vector<Frame> open = {};
    std::vector<IngredientId> lacking = {};
    std::unordered_set<IngredientId> lacking_seen = {};

    void lacks(IngredientId what) {
        if (lacking_seen.insert(what).second) lacking.push_back(what);
    }
    /// Of a mix; null where it wasn't reached.
    const std::optional<VolumePerMass>* find(MixId mix) {
        const auto found = met.find(mix);
        if (found != met.end()) return &found->second;
        const auto known = memo.known[spooned ? 1 : 0].find(mix);
        if (known == memo.known[spooned ? 1 : 0].end()) return nullptr;
        return &(met[mix] = known->second);
    }
};

const std::optional<Density>& stated(const Ingredient& entry, bool spooned) {
    return spooned && entry.bulk ? entry.bulk : entry.density;
}

/// Adds one line's volume to the frame on top, or opens its mix first and returns false.
bool count_line(Reckoning& work, IngredientId what, const Share& size) {
    const Ingredient& entry = work.formulary.ingredients[what];
    if (const std::optional<Density>& density = stated(entry, work.spooned)) {
        const Exact& value = in_grams_per_millilitre(*density);
        if (value.sign() <= 0)
            work.broken = true;
        else
            work.open.back().sum += millilitres_per_gram(as_fraction(size) / value);
        return true;
    }
    if (entry.kind == Ingredient::Kind::material) {
        // A damaged material may have lost just that line: nothing more is said about it.
        if (entry.damaged)
            work.broken = true;
        else
            work.lacks(what);
        return true;
    }
    const Mix* mix = mix_of(work.formulary, what);
    const std::optional<VolumePerMass>* known = work.find(entry.index);
    if (!mix || !mix->formula.solved() || (known && !*known)) {
        work.broken = true;
        return true;
    }
    if (!known) {
        work.met[entry.index] = std::nullopt;
        work.open.push_back({&mix->formula, entry.index});
        return false;
    }
    const Exact& inside = in_millilitres_per_gram(**known);
    work.open.back().sum += millilitres_per_gram(as_fraction(size) * inside);
    return true;
}

DensityAnswer reckon(const Formulary& formulary, const Formula& formula, MixId mix, bool spooned,
                     DensityMemo& memo) {
    if (!formula.solved()) return {};
    Reckoning work{formulary, spooned, memo};
    if (const auto* known = work.find(mix); known && *known) {
        const Exact& volume = in_millilitres_per_gram(**known);
        if (volume.sign() > 0) return {grams_per_millilitre(1 / volume), {}};
    }
    work.met[mix] = std::nullopt;
    work.open.push_back({&formula, mix});
    VolumePerMass total;
    while (!work.open.empty()) {
        Reckoning::Frame& top = work.open.back();
        if (top.next < top.formula->parts.size()) {
            const Share& size = top.formula->shares[top.next];
            if (size == Share() || count_line(work, top.formula->parts[top.next].what, size))
                ++work.open.back().next;
            continue;
        }
        total = top.sum;
        work.met[top.mix] = top.sum;
        work.open.pop_back();
    }
    if (!work.broken && work.lacking.empty())
        for (const auto& [one, sum] : work.met) memo.known[spooned ? 1 : 0].emplace(one, *sum);
    DensityAnswer answer{{}, std::move(work.lacking)};
    const Exact& volume = in_millilitres_per_gram(total);
    if (answer.lacking.empty() && !work.broken && volume.sign() > 0)
        answer.density = grams_per_millilitre(1 / volume);
    return answer;
}

}  // namespace

DensityAnswer density_of(const Formulary& formulary, IngredientId ingredient, bool spooned) {
    DensityMemo none;
    return density_of(formulary, ingredient, spooned, none);
}

DensityAnswer density_of(const Formulary& formulary, IngredientId ingredient, bool spooned,
                         DensityMemo& memo) {
    const Ingredient& entry = formulary.ingredients[ingredient];
    if (const std::optional<Density>& density = stated(entry, spooned)) return {density, {}};
    if (entry.kind == Ingredient::Kind::material)
        return entry.damaged ? DensityAnswer{} : DensityAnswer{{}, {ingredient}};
    const Mix* mix = mix_of(formulary, ingredient);
    return mix ? reckon(formulary, mix->formula, entry.index, spooned, memo) : DensityAnswer{};
}

}  // namespace levigate
