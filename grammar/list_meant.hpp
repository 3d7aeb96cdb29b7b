#pragma once
// Headings among the lines of a shade: what was probably meant.

#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/tree.hpp"
#include "grammar/words.hpp"

namespace levigate {

/// `finish matte` among the lines of a shade begins a block of its own. The word of the shade's
/// line that was probably meant: `finishes`, `variants`, `market`. Empty where no shade stands
/// directly before the block, or the heading is like no line of a shade.
std::string_view list_meant(const tree::File& file, std::size_t block);
/// The shade that stands before it then.
const tree::Block& shade_before(const tree::File& file, std::size_t block);

/// The same for the last block of the file: its advice and fix take the place of the finding's.
void add_list_meant(std::string_view text, const tree::File& file, Finding& finding);

}  // namespace levigate
