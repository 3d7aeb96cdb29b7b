#pragma once
// A name as it is written into a file, so that every line reads it again as the same name.

#include <string>
#include <string_view>
#include <vector>

#include "grammar/finding.hpp"

namespace levigate {

/// True where the name has to stand in quotes.
bool needs_name_quotes(std::string_view name);
/// `soft base`, `"7 lake"`.
std::string written_name(std::string_view name);
/// Each near name to write in the place of `span`, the likeliest first.
std::vector<Fix> near_fix(Span span, const std::vector<std::string>& near);

}  // namespace levigate
