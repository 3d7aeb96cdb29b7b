#pragma once
// Where a comma at a line's end lets the line go on, and where it is a slip. Private to the room.

#include "grammar/finding.hpp"
#include "grammar/lines.hpp"
#include "grammar/words.hpp"

namespace levigate {

/// True of a line that ends in a comma and isn't words for readers.
bool ends_in_comma(std::string_view text, const PhysicalLine& line, Heading block);
/// True where `next` is a line of its own, so that the comma before it lets nothing go on: only a
/// list goes on, and no list holds an ingredient's line.
bool stands_alone(std::string_view text, const PhysicalLine& line, const PhysicalLine& next,
                  Heading block);
/// What is said of the comma that ends at `end`. `certain`: a line of its own follows.
Finding explain_trailing_comma(SourceId source, std::uint32_t end, bool certain);

}  // namespace levigate
