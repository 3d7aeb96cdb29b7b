#pragma once
// What comes out of two states, laid side by side.

#include <vector>

#include "interpreter/changes/changes.hpp"
#include "interpreter/changes/edits.hpp"
#include "interpreter/changes/facts.hpp"

namespace levigate::changing {

/// A shade's effect, with the keys by which its causes are sought.
struct Effect {
    ShadeEffect told;
    std::string key, key_before;  ///< of its block, or of its family's
    bool weighed = false;         ///< what is weighed changes, not only what is said of it
    bool on_box = false;          ///< labels or verdicts change
    bool money = false;           ///< costs change, or verdicts, which may hang on prices
    const ShadeFact* now = nullptr;
    std::vector<std::size_t> edits;  ///< of each cause: which edit; `nowhere` for an order
};

/// True where a shade comes out otherwise in two of its states.
bool differs(const ShadeFact& before, const ShadeFact& now);

/// Shades of which something comes out otherwise; without causes yet.
std::vector<Effect> find_effects(const Facts& before, const Facts& now, const Renames& renames,
                                 const Comparing& how);
std::vector<LipEffect> find_lip_effects(const Facts& before, const Facts& now);

}  // namespace levigate::changing
