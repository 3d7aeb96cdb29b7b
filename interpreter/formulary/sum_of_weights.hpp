#pragma once
// What a formula of weights comes to if each line is weighed as it is written.

#include <optional>

#include "interpreter/formulary/formula.hpp"

namespace levigate {

/// Grams of the whole. Nothing where the formula is not solved, has no weights or counts in parts.
std::optional<Mass> sum_of_weights(const Formula& formula);

}  // namespace levigate
