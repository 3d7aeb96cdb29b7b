#pragma once
// What differs between two texts, line by line, in the unified form that version control shows and
// `patch` applies.

#include <string>
#include <string_view>

namespace levigate {

/// Empty where the texts are the same. Its time grows with the texts, not with their product: of
/// texts that share little it may name more lines than it must.
std::string unified_difference(std::string_view name, std::string_view before,
                               std::string_view after);

}  // namespace levigate
