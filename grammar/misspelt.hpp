#pragma once
// Whether a word of the language that was misspelt can only have been the one that is near it.
// Private to the room.

#include <cstdint>
#include <string_view>

#include "grammar/classify.hpp"
#include "grammar/names.hpp"

namespace levigate {

/// True where the line that ends at `end` reads with `kind.guess` as its first word, by a form that
/// doesn't take any words.
bool reads_as_guessed(std::string_view text, const LineKind& kind, std::uint32_t end, Names& names);
/// True where the first word of the line that ends at `end` is one slip away from `kind.guess`, and
/// with the guess the line reads as above. Nothing is kept of it but names.
bool surely_meant(std::string_view text, const LineKind& kind, std::uint32_t end, Names& names);

}  // namespace levigate
