#pragma once
// A blueprint made in one size: exact grams, and what the balance reads.

#include <string>
#include <vector>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/sheet.hpp"

namespace levigate {

/// Fills the sheet's bowls, foot and (where the blueprint lists them) materials for so much of the
/// finished whole. `asked` is scratch space.
///
/// The shade's own bowl: each line is its exact grams rounded half up to the balance's step, the
/// foot is the sum of what was rounded. A blend's bowl is asked for what the bowls that use it
/// weigh of it; its lines are their shares of the least target, from there upward in steps, at
/// which they add up to no less than was asked. A dilution's is made larger, until each of its
/// lines can be weighed (scale_of in remedies.hpp): what is over is kept.
void make_bowls(const Blueprint& blueprint, const Mass& whole, Sheet& sheet,
                std::vector<Exact>& asked);

/// Lines that read nothing, lie under the balance's least weight, or bowls over its capacity.
/// `title` names the sheet: "Quince / matte, trial"; `size` is where the batch is written.
void judge_weighing(const Formulary& formulary, const Blueprint& blueprint,
                    const std::string& title, Span size, Sheet& sheet);

/// True where judge_weighing would find something: cheap, for sheet after sheet.
bool weighs_well(const Sheet& sheet);

}  // namespace levigate
