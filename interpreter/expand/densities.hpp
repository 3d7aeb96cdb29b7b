#pragma once
// The density of a finished mix, with each ingredient's own reckoned once.

#include <optional>
#include <vector>

#include "interpreter/expand/finished.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/formulary/density_memo.hpp"
#include "interpreter/formulary/solve.hpp"

namespace levigate {

class Densities {
public:
    explicit Densities(const Formulary& formulary) : formulary_(formulary) {}

    /// Neither a density nor anything lacking: a broken ingredient, said before.
    DensityAnswer of(const std::vector<FinishedLine>& lines);

private:
    const DensityAnswer& of(IngredientId ingredient);

    const Formulary& formulary_;
    DensityMemo memo_;
    std::vector<std::optional<DensityAnswer>> known_;
};

}  // namespace levigate
