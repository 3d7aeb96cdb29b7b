#pragma once
// The proof that an edition says what its source says, and gives away nothing else.

#include <set>
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

/// A shade whose ingredient list, or what the rules find against it, is another one in the edition.
struct OtherLabel {
    ShadeId shade = nothing;
    std::set<std::string> open;  ///< folded names: which comes first can't be told
};

/// Only what the source can tell counts.
std::vector<OtherLabel> other_labels(const Compiled& source, const Compiled& edition,
                                     const Picked& picked);

/// What must not go out and stands in the text: the words of private lines, and the names of what
/// only sealed blends hold (`share-leaks`).
Findings leaks(const Compiled& source, const Index& index, const Picked& picked,
               const std::vector<Seal>& seals, std::string_view text);

}  // namespace levigate::sharing
