#pragma once
// Why a shade comes out otherwise: the nearest things it goes by that were edited.

#include <vector>

#include "interpreter/changes/edits.hpp"
#include "interpreter/changes/effects.hpp"

namespace levigate::changing {

/// Fills the causes of each effect: every edit that a shade could change by.
void find_causes(const Edits& edits, std::vector<Effect>& effects);

/// Leaves those without which the shade would come out otherwise than it does now: each edit is
/// taken back by itself, and the file read again. Beyond a budget, and where that can't be read,
/// they all stay.
void try_causes(const State& now, const Comparing& how, const Edits& edits,
                std::vector<Effect>& effects);

}  // namespace levigate::changing
