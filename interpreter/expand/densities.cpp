#include "interpreter/expand/densities.hpp"

#include <unordered_set>

namespace levigate {

const DensityAnswer& Densities::of(IngredientId ingredient) {
    if (known_.empty()) known_.resize(formulary_.ingredients.size());
    std::optional<DensityAnswer>& known = known_[ingredient];
    if (!known) known = density_of(formulary_, ingredient, false, memo_);
    return *known;
}

DensityAnswer Densities::of(const std::vector<FinishedLine>& lines) {
    DensityAnswer out;
    VolumePerMass sum;
    bool broken = false;
    std::unordered_set<IngredientId> lacking;
    for (const FinishedLine& line : lines) {
        if (as_fraction(line.share).is_zero()) continue;
        const DensityAnswer& answer = of(line.what);
        if (answer.density) {
            const Exact& density = in_grams_per_millilitre(*answer.density);
            sum += millilitres_per_gram(as_fraction(line.share) / density);
            continue;
        }
        broken = broken || answer.lacking.empty();
        for (IngredientId what : answer.lacking)
            if (lacking.insert(what).second) out.lacking.push_back(what);
    }
    const Exact& volume = in_millilitres_per_gram(sum);
    if (!broken && out.lacking.empty() && volume.sign() > 0)
        out.density = grams_per_millilitre(1 / volume);
    return out;
}

}  // namespace levigate
