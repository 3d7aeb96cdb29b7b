#pragma once
// What the canonical form of a file is put together from. Private to the room.

#include <string>
#include <string_view>

#include "grammar/atoms.hpp"
#include "grammar/tidy.hpp"

namespace levigate {

enum class Comments : bool { left_out, kept };  ///< those between the lines of a broken list

std::string line_text(std::string_view text, const tree::File& file, const tree::Line& line,
                      const MeasureSplit& split, Comments comments);
/// `begin` is where the line begins, which may be before the heading's own word.
std::string heading_text(std::string_view text, const tree::File& file, const tree::Block& block,
                         std::uint32_t begin, Comments comments);

/// A number in one spelling: `1/2` for ½, `2 1/2` for 2½, `0.5` for .5.
std::string number_text(std::string_view written);
/// Blanks single, those at the ends too.
std::string single_blanks(std::string_view text);

/// The same number for two texts that say the same, line by line, with the same comments and
/// findings, however they are laid out and spelt.
std::uint64_t meaning_of(std::string_view text, const Outcome<tree::File>& read);

}  // namespace levigate
