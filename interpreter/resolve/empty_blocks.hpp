#pragma once
// Private to the room.

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

/// Headings of a person's own without a line below them, which mean nothing so.
void report_empty_blocks(Context& context);

}  // namespace levigate::resolving
