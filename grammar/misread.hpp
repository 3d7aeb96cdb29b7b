#pragma once
// The words for a line that could not be read. Private to the room. (misread.cpp, unknown_line.cpp)

#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/forms_table.hpp"
#include "grammar/words.hpp"

namespace levigate {

/// `example` is a whole line that is right.
Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example);

/// True of a slip that is told whatever else the line may be meant as.
bool has_own_words(const Misread& wrong);

/// For a line that begins with a word that nothing knows. `guess` is the nearest word, or empty.
Finding explain_unknown(std::string_view text, Span first_word, Span line, std::string_view guess,
                        Heading block, const Names& names);

/// A right line of the form that this one seems to be meant as.
std::string_view example_of(Form form, std::string_view line);

/// For a property that its block doesn't hold.
Finding explain_misplaced(Heading block, Form form, Span word);

}  // namespace levigate
