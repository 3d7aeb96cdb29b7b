#pragma once
// What batches cost in a state, and whether two states differ in it.

#include <optional>

#include "interpreter/changes/changes.hpp"

namespace levigate::changing {

/// True where any material or container has a price: else there is nothing to reckon.
bool any_price(const Formulary& formulary);

/// Of a sheet with its materials, made as a batch of its shade.
CostSeen cost_seen(const Formulary& formulary, const Sheet& sheet);

/// True where both read alike, to the currency's minor unit.
bool cost_alike(const std::optional<CostSeen>& a, const std::optional<CostSeen>& b);

}  // namespace levigate::changing
