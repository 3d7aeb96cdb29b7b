#pragma once
// From the size of a batch as written to the grams of the finished product.

#include <optional>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// True where a volume is in it, so that only the mix's density tells its grams.
bool needs_density(const Formulary& formulary, const BatchSize& size);

/// (amount × (1 + overage)) + holdback. Nothing where a density is needed and not given, or where
/// the size is broken or its container holds nothing known: both were said before.
std::optional<Mass> batch_mass(const Formulary& formulary, const BatchSize& size,
                               const std::optional<Density>& density);

}  // namespace levigate
