#pragma once
// The conflict marks that git leaves where two people changed the same lines. Private to the room.

#include "grammar/finding.hpp"
#include "grammar/lines.hpp"

namespace levigate {

struct Conflict {
    bool both_sides = false;  ///< records on both sides are read
    bool inside = false, in_theirs = false;
    bool said = false;  ///< of a file of records, once
};

enum class Passed : std::uint8_t {
    read,     ///< the line is to be read
    skipped,  ///< a mark, or a line of the side that is left out
    lost,     ///< a mark, and what is around it may have been meant otherwise
};
/// What is to be done with a line, whose mark is at `span`. Of a shade file, the first side is read
/// and the second left out.
Passed pass(Conflict& conflict, Marker marker, Span span, Findings& findings);

}  // namespace levigate
