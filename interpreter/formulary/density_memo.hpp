#pragma once
// Densities of mixes that were worked out, so that each is worked out once, however many mixes and
// lines ask for it.

#include <unordered_map>

#include "interpreter/formulary/solve.hpp"

namespace levigate {

struct DensityMemo {
    std::unordered_map<MixId, VolumePerMass> known[2];  ///< [1] spooned; those that can be told
};

/// As without `memo`, which is of this formulary alone; mixes in it don't change any more.
DensityAnswer density_of(const Formulary& formulary, IngredientId ingredient, bool spooned,
                         DensityMemo& memo);

}  // namespace levigate
