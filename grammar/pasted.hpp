#pragma once
// Lines as makers write them elsewhere, in a word processor, a mail, a table or on a web page: what
// was meant, as a line that reads. Private to the room.

#include <optional>
#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "grammar/words.hpp"

namespace levigate {

struct PastedLine {
    std::string_view text;  ///< the whole source
    Span line;              ///< without indentation, bullet, comment and `private`
    Span first_word;
    Heading block;
    const Names& names;
    /// The line just above, where it is a note or another text that has no end: this one may have
    /// been wrapped. Empty elsewhere.
    Span above;
};

/// How far the first word is a slip for one that begins a line.
enum class Guess : std::uint8_t { none, near, reads };

/// For a line whose first word nothing knows.
std::optional<Finding> explain_pasted(const PastedLine& pasted, Guess guess);
/// For a line of a form that is known and could not be read, which `said` explains; with what was
/// meant, if that is plain.
Finding explain_pasted_form(const PastedLine& pasted, Form form, Finding said);
/// `1.` and `1)` in front of a line that would be read, but not as it is meant.
std::optional<Finding> explain_list_number(const PastedLine& pasted);
/// A fix for a line that goes on from the one above; nothing where it doesn't.
std::optional<Finding> explain_wrapped(const PastedLine& pasted);
/// For a heading that could not be read, which `said` explains: `shade Quince:`.
Finding explain_pasted_heading(const PastedLine& pasted, Heading heading, Finding said);
/// The line as a comment, if it is a caption, a rule or a comment of another language.
std::optional<Finding> explain_pasted_remark(const PastedLine& pasted);

/// The example of a form with a name of the maker's own in the place of ours.
std::string in_her_words(std::string_view example, std::string_view name);

}  // namespace levigate
