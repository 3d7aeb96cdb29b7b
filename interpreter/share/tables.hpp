#pragma once
// Rules, regions, measures and balances: what an edition needs beside its formulas.

#include "interpreter/share/pick.hpp"

namespace levigate::sharing {

/// `written`: the blocks that go out line by line, in whose words measures are looked for.
void add_tables(const Compiled& compiled, const Index& index, std::vector<Place> written,
                Picked& out);

}  // namespace levigate::sharing
