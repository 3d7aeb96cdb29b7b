#pragma once
// The canonical form: one way to write what a shade file says, so that a diff shows what was
// changed and nothing else. Tree and text to text; nothing here looks a name up.

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/tree.hpp"

namespace levigate {

/// How many bytes of these words, which stand behind a bare number, are the measure: all but the
/// name of `small scoops copper mica`. 0 where it can't be told; the blanks that the maker left
/// decide then.
using MeasureSplit = std::function<std::size_t(std::string_view words)>;

/// A line of a block in canonical form, without indentation and comments. A list that is broken
/// behind a comma stays broken: each further line then comes behind a "\n", with its indentation.
std::string tidy_line(std::string_view text, const tree::File& file, const tree::Line& line,
                      const MeasureSplit& split);
std::string tidy_heading(std::string_view text, const tree::File& file, const tree::Block& block);

/// Blanks in front of a block's lines, and of the lines that go on with a list.
inline constexpr std::size_t line_indent = 4;
inline constexpr std::size_t list_indent = 16;

struct Tidied {
    std::string text;   ///< the text as it was, where the file can't be written anew
    Findings findings;  ///< what can't be read: such lines stay as they are
    bool changed = false;
};
/// The whole file. Lines of an unfinished merge leave all of it as it is; so does a fault of ours,
/// by which the new text would not say what the old one did (`tidy-changed`).
Tidied tidy(const Sources& sources, SourceId source, Names& names, const MeasureSplit& split);
/// The same of a file that has been read. Hand it over: it is let go before the new text is read.
Tidied tidy(const Sources& sources, Outcome<tree::File>&& file, Names& names,
            const MeasureSplit& split);

}  // namespace levigate
