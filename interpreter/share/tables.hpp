#pragma once
// Rules, regions, measures and balances: what an edition needs beside its formulas. And what of a
// block must go out.

#include "interpreter/share/pick.hpp"

namespace levigate::sharing {

/// `written`: the blocks that go out line by line, in whose words measures are looked for.
void add_tables(const Compiled& compiled, const Index& index, std::vector<Place> written,
                Picked& out);

/// A line of this form can't be private in what is shared: without it the formula would be another
/// one, or a caution would be lacking.
bool must_go_out(Form form);
Finding private_line(const tree::Line& line);

}  // namespace levigate::sharing
