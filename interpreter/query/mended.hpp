#pragma once
// A file with its certain fixes made.
//
// A fix is made only if it keeps its promise when it is tried: the finding is gone, nothing new is
// wrong on its line, and every sheet that could be made before comes out the same. Whatever fails
// that trial is left to the maker, with the reason. A fix may bring others to light, so that the
// file is looked at again until no certain one is left.

#include <cstdint>
#include <string>
#include <vector>

#include "interpreter/query/checked.hpp"

namespace levigate {

/// Why a certain fix was not made.
enum class LeftBecause : std::uint8_t {
    changes_a_sheet,  ///< some batch would come to something else
    broken_promise,   ///< the finding stays, or something new is wrong on that line
    edition,          ///< the file has the digest of an edition, which would no longer fit
    records,          ///< a file of records is only ever added to
    unmerged,         ///< marks of a merge: nobody has decided yet what the file says
    too_many          ///< so many fixes failed that the rest were not tried
};

/// A fix that was made or left.
struct Mending {
    Code code;
    Span span;  ///< in the text as it was read, `before`
    std::string text;
};

struct LeftAlone {
    Mending fix;
    LeftBecause why;
    std::string sheet = {};  ///< the batch that would change: "Quince · matte · trial"
};

struct Mended {
    CheckedFile before, after;  ///< FILE is the first source of each
    std::vector<Mending> made;  ///< in the order of the lines
    std::vector<LeftAlone> left;

    bool unreadable() const { return before.compiled.unreadable.has_value(); }
    const std::string& text_before() const { return before.compiled.sources[0].text; }
    const std::string& text() const { return after.compiled.sources[0].text; }
};

/// Nothing is written: that is for the caller. `regions` as in `checked`.
Mended mended(const World& world, const std::string& path, const std::vector<std::string>& regions);

/// The fix as it is made in `text`: a line of which nothing would be left goes as a whole.
Fix as_made(const std::string& text, Fix fix);
/// `text` with these fixes; they point into it and don't overlap.
std::string with_fixes(std::string text, std::vector<Fix> fixes);

}  // namespace levigate
