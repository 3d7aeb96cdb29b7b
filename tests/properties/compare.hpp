#pragma once
// Complaints: an empty text is praise. Each begins with a word or two and a colon, by which the
// shrinker tells one mistake from another.

#include <string>
#include <vector>

#include "tests/properties/sheets.hpp"

namespace levigate::testing {

/// All sheets, in order: each amount, each reading, each material.
std::string differs(std::vector<SheetSeen> expected, std::vector<SheetSeen> seen);
/// The same without regard to the order of sheets, lines and materials.
std::string differs_as_sets(std::vector<SheetSeen> expected, std::vector<SheetSeen> seen);
/// The tool's refusals are those that were foreseen, and it refuses nothing else.
std::string refusals_differ(const Book& book, const std::vector<SheetSeen>& expected,
                            const Answer& answer);
/// Takes away what may not come, and with a shade that can't be made as written all of it.
std::vector<SheetSeen> without_refused(const std::vector<SheetSeen>& expected,
                                       std::vector<SheetSeen> sheets);
/// Mass is kept, and the balance reads what it should, from the sheet alone.
std::string unbalanced(const SheetSeen& sheet);

}  // namespace levigate::testing
