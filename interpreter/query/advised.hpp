#pragma once
// What `check` alone says: nothing is wrong, and it may be otherwise than it was meant.

#include "interpreter/compile.hpp"

namespace levigate {

/// Blocks of a person's own, or their other names, that take the place of the library's. Rules say
/// so themselves.
Findings hidden_blocks(const Compiled& compiled);

/// Batches within 5 % of what the weights of their formula come to, and not that.
Findings batches_near_sums(const Compiled& compiled);

/// Finishes and variants that begin right below a shade's lines and that no shade names: they were
/// probably meant as lines of that shade. Not beside an error: a name that is wrong may be theirs.
Findings unnamed_blocks(const Compiled& compiled, const Findings& said);

}  // namespace levigate
