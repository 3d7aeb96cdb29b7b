// The density of a mix: masses over densities, volumes adding up. An estimate, since real liquids
// and powders don't quite add up. Reckoned as millilitres a gram, which is the sum that is linear.

#include <algorithm>

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
    bool broken = false;
    std::vector<std::uint8_t> state = {};  // by MixId: 0 unseen, 1 open, 2 done
    std::vector<VolumePerMass> known = {};
    std::vector<Frame> open = {};
    std::vector<IngredientId> lacking = {};

    void lacks(IngredientId what) {
        if (std::find(lacking.begin(), lacking.end(), what) == lacking.end())
            lacking.push_back(what);
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
    if (!mix || !mix->formula.solved() || work.state[entry.index] == 1) {
        work.broken = true;
        return true;
    }
    if (work.state[entry.index] == 0) {
        work.state[entry.index] = 1;
        work.open.push_back({&mix->formula, entry.index});
        return false;
    }
    const Exact& inside = in_millilitres_per_gram(work.known[entry.index]);
    work.open.back().sum += millilitres_per_gram(as_fraction(size) * inside);
    return true;
}

DensityAnswer reckon(const Formulary& formulary, const Formula& formula, bool spooned) {
    if (!formula.solved()) return {};
    Reckoning work{formulary, spooned};
    work.state.assign(formulary.mixes.size(), 0);
    work.known.resize(formulary.mixes.size());
    work.open.push_back({&formula, nothing});
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
        if (top.mix != nothing) {
            work.known[top.mix] = top.sum;
            work.state[top.mix] = 2;
        }
        work.open.pop_back();
    }
    DensityAnswer answer{{}, std::move(work.lacking)};
    const Exact& volume = in_millilitres_per_gram(total);
    if (answer.lacking.empty() && !work.broken && volume.sign() > 0)
        answer.density = grams_per_millilitre(1 / volume);
    return answer;
}

}  // namespace

DensityAnswer density_of(const Formulary& formulary, IngredientId ingredient, bool spooned) {
    const Ingredient& entry = formulary.ingredients[ingredient];
    if (const std::optional<Density>& density = stated(entry, spooned)) return {density, {}};
    if (entry.kind == Ingredient::Kind::material)
        return entry.damaged ? DensityAnswer{} : DensityAnswer{{}, {ingredient}};
    const Mix* mix = mix_of(formulary, ingredient);
    return mix ? reckon(formulary, mix->formula, spooned) : DensityAnswer{};
}

}  // namespace levigate
