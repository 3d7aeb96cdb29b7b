#pragma once
// The proof that an edition says what its source says, and gives away nothing else.

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/share/open.hpp"
#include "interpreter/share/pick.hpp"

namespace levigate::sharing {

/// By ShadeId of the public part: which shade of the source it is.
std::vector<ShadeId> twins(const Compiled& source, const Compiled& open);

/// An error that the public part has, and its source hasn't, as the maker is told it.
Finding rests_on(const Finding& finding);

/// Amounts that go out and rest on what stays at home (`share-rests`): members would come to
/// another amount, or to none.
Findings rests_on_secrets(const Compiled& source, const Open& open, const Index& index,
                          const Picked& picked);

/// `expect cost` lines of the shades that go out, where a price is private or sealed.
std::vector<Span> lines_that_stay(const Compiled& source, const Open& open, const Picked& picked);

/// Every sheet of the edition against those of the public part: totals and the lines of each bowl,
/// exact and rounded. The first difference is the finding `share-differs`.
Findings same_sheets(const Compiled& open, const Compiled& edition, const Picked& picked);

/// Shades whose ingredient list, or what the rules find against them, is another one in the
/// edition. Only what the source can tell counts.
std::vector<ShadeId> other_labels(const Compiled& source, const std::vector<bool>& chosen,
                                  const Compiled& edition);

/// What must not go out and is in the text: the words of private lines, and the names
/// of what only sealed blends hold (`share-leaks`). Words of a private note that a public line has
/// too are said (`share-words`).
Findings leaks(const Compiled& source, const Open& open, const Index& index, const Picked& picked,
               const std::vector<Seal>& seals, std::string_view text);

}  // namespace levigate::sharing
