#pragma once
// Pages with `dilute` lines, and the same pages without them.

#include <map>
#include <string>
#include <vector>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"

namespace levigate::testing {

/// A page by chance, from a seed: shades, a blend, variants, finishes, balances, and `dilute` lines
/// for which there is base enough in the formulas as they are written.
std::string random_page(std::uint64_t seed);
/// The same without its lines about dilutions.
std::string without_dilutions(const std::string& page);

Compiled compiled(const std::string& page);
/// Every sheet of every variant, finish and batch.
Sheets all_sheets(const Compiled& compiled);

/// Grams of each raw material, added up over the bowls from what they hold exactly. Independent of
/// the sheet's own list.
std::map<std::string, Exact> flattened(const Compiled& compiled, const Sheet& sheet);

}  // namespace levigate::testing
