#pragma once
// The proof that an edition says what its source says, and gives away nothing else.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/share/pick.hpp"
#include "interpreter/share/seal.hpp"

namespace levigate::sharing {

/// Every sheet of the edition against the source's: totals, and the lines of each bowl that isn't
/// sealed, exact and rounded. The first difference is the finding `share-differs`.
Findings same_sheets(const Compiled& source, const Index& index, const Compiled& edition,
                     const Picked& picked);

/// Shades whose ingredient lists, or what the rules find against them, are other ones in the
/// edition. Only what the source can tell counts.
std::vector<ShadeId> other_labels(const Compiled& source, const Compiled& edition,
                                  const Picked& picked);

/// What must not go out and stands in the text: the words of private lines, and the names of what
/// only sealed blends hold (`share-leaks`).
Findings leaks(const Compiled& source, const Index& index, const Picked& picked,
               const std::vector<Seal>& seals, std::string_view text);

}  // namespace levigate::sharing
