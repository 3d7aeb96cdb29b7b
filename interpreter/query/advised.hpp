#pragma once
// What `check` alone says: nothing is wrong, and it may be otherwise than it was meant.

#include "interpreter/compile.hpp"

namespace levigate {

/// Blocks of a person's own that take the place of the library's. Rules say so themselves.
Findings hidden_blocks(const Compiled& compiled);

/// Batches within 5 % of what the weights of their formula come to, and not that.
Findings batches_near_sums(const Formulary& formulary);

}  // namespace levigate
