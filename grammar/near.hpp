#pragma once
// Which name was meant, where one was misspelt.

#include <cstddef>
#include <string_view>

namespace levigate {

/// Damerau's distance between two texts in code points: insert, drop, change, swap neighbours.
std::size_t distance(std::string_view a, std::string_view b);
/// True where `written` is so near to `meant` that a slip is likely: within a third of its length.
bool is_near(std::string_view written, std::string_view meant);

}  // namespace levigate
