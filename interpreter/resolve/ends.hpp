#pragma once
// `± 2 %` behind a figure. Private to the room.

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

/// `0.9 ± 0.02 g/mL`: each number has its own measure. True, said, where the first has none.
bool bare_before_ends(Context& context, std::uint32_t file, const tree::Line& line);

/// How much more or less a figure may be, in its own kind: what stands behind `±` in its line, 0
/// where nothing does. Nothing, said, where that can't be.
std::optional<Exact> half_width(Context& context, std::uint32_t file, const tree::Line& line,
                                const Quantity& figure);

}  // namespace levigate::resolving
