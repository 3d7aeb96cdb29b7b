#pragma once
// Files with their certain fixes made.
//
// A fix is made only if it keeps its promise when it is tried: the finding is gone, nothing new is
// wrong on its line, and every sheet of the named files that could be made before comes out the
// same. Whatever fails that trial is left to the maker, with the reason. A fix may bring others to
// light, so that the files are looked at again until no certain one is left.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/query/checked.hpp"

namespace levigate {

/// Why a certain fix was not made.
enum class LeftBecause : std::uint8_t {
    changes_a_sheet,  ///< some batch would come to something else
    broken_promise,   ///< the finding stays, or something new is wrong on that line
    edition,          ///< the file has the digest of an edition, which would no longer fit
    records,          ///< a record is never rewritten
    unmerged          ///< marks of a merge: nobody has decided yet what the file says
};

/// A fix that was made or left.
struct Mending {
    Code code;
    Span span;  ///< in the text as it was read: source 0 of `as_read`
    std::string text;
};

struct LeftAlone {
    Mending fix;
    LeftBecause why;
    std::string words = {};  ///< the batch that would change, or what would be said of the line
};

struct MendedFile {
    std::string path;
    CheckedFile before;  ///< empty if nothing was made; the file itself is source 0
    CheckedFile after;
    std::vector<Mending> made;  ///< in the order of the lines
    std::vector<LeftAlone> left;

    const CheckedFile& as_read() const { return made.empty() ? after : before; }
    bool unreadable() const { return after.compiled.unreadable.has_value(); }
    const std::string& text_before() const { return as_read().compiled.sources[0].bytes(); }
    const std::string& text() const { return after.compiled.sources[0].bytes(); }
};

/// All of `paths`, which may use each other, in their order. Nothing is written: that is for the
/// caller. `regions` as in `checked`.
std::vector<MendedFile> mended(const World& world, const std::vector<std::string>& paths,
                               const std::vector<std::string>& regions);

/// Tries the certain fixes of a file's own lines, all at once: those that don't keep their promise
/// are possible ones from then on.
void hold_promises(const World& world, const std::string& path,
                   const std::vector<std::string>& regions, CheckedFile& file);

/// The fix as it is made in `text`: a line of which nothing would be left goes as a whole.
Fix as_made(const std::string& text, Fix fix);
/// `text` with these fixes; they point into it and don't overlap.
std::string with_fixes(std::string text, std::vector<Fix> fixes);

}  // namespace levigate
