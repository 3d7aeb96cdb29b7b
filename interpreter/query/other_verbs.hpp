#pragma once
// What the other verbs would say of a file: so that one that `check` passes gives no error later.

#include <string>
#include <vector>

#include "interpreter/compile.hpp"
#include "interpreter/rules/label.hpp"

namespace levigate {

/// Shades whose every finish adds something: their bulk as made is a product of its own, which
/// `weigh`, `card` and `label` make where no finish is asked for. Errors alone, and without those
/// that are in `said` at the same place.
Findings bulk_errors(const Compiled& compiled, const std::vector<Called>& markets,
                     Labeller& labeller, const Findings& said);

/// Why a list of ingredients can't be made; of each place once. Where the files name no market and
/// no material of a person's own has a label, nobody works on the box yet: it is advice if a market
/// was `asked` for, and nothing if not.
Findings label_findings(const Compiled& compiled, Labeller& labeller, bool asked);

/// Of the plans in FILE. How they are weighed is said of the batches.
Findings plan_findings(const Compiled& compiled, const Findings& said);

/// Why an edition can't be made, and what is to be looked at in it.
Findings share_findings(Compiled& compiled, const std::string& path);

/// Adds to `to` what it doesn't hold of the same kind at the same place.
void join(Findings& to, Findings more);

}  // namespace levigate
