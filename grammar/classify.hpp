#pragma once
// What a line is, told by its first word. Private to the room.

#include <string_view>

#include "grammar/words.hpp"

namespace levigate {

struct LineKind {
    Heading heading = Heading::none;
    Form form = Form::ingredient;
    bool is_private = false;
    bool known = true;
    bool near_heading = false;    ///< not a heading, but surely meant as one
    std::string_view guess = {};  ///< the word that was meant, where nothing is known
    std::uint32_t begin = 0;      ///< where the form's own word begins, behind `private`
    std::uint32_t word_end = 0;   ///< end of the first word
};

/// Looks at the trimmed line [begin, end) of `text`, inside a block of kind `block`.
LineKind classify(std::string_view text, std::uint32_t begin, std::uint32_t end, Heading block);

/// True of a line that a record may hold.
bool is_for_records(const LineKind& kind);

/// True where the line can only be a heading.
bool is_heading(std::string_view text, std::uint32_t begin, std::uint32_t end);

}  // namespace levigate
