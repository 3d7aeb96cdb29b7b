#pragma once
// What the sources about pasted lines share. Private to them.

#include <string>
#include <vector>

#include "grammar/pasted.hpp"

namespace levigate {

inline std::string_view written_line(const PastedLine& pasted) {
    return pasted.text.substr(pasted.line.begin, pasted.line.end - pasted.line.begin);
}

inline bool holds(Heading block, Form form) { return (entry(form).where & in(block)) != 0; }

/// True where the words read as a line of this form, or as this heading.
bool reads_as(Form form, std::string_view line);
bool reads_as(Heading heading, std::string_view line);

/// True of a line with an amount and a name that is there: never words for readers.
bool holds_amount(const PastedLine& pasted, std::string_view line);

/// What the line means once the marks, the number or the word in front of it are taken away, its
/// amount is written in figures, or its list has commas. (pasted_front.cpp)
std::optional<Finding> explain_front(const PastedLine& pasted);
/// `finishes dull / satin`, `finishes: dull; satin`
std::optional<Finding> as_list(const PastedLine& pasted);
/// `price $4.50 per 30 g`
std::optional<Finding> with_currency(const PastedLine& pasted);
/// `1 000 g clay`
std::optional<Finding> without_thousands(const PastedLine& pasted);

Finding unknown_line(const PastedLine& pasted, std::string message, std::vector<Fix> fixes,
                     std::string advice = {});

/// Words, by their number or their full stop; no indentation.
bool is_sentence(std::string_view line);
/// Work at the bench, told by its first word.
bool is_work(std::string_view line);
/// `Tip: keep it warm`
bool is_told(std::string_view line);
/// The line as a note, as a step and as a comment.
Finding as_sentence(const PastedLine& pasted, std::string_view line);

/// A `have` line with options behind it, each as it is written here. What is none becomes a
/// comment. (have_option.cpp)
std::string with_have_options(std::string head, std::string_view options);
/// For a `have` line that reads up to its options: the first that doesn't, and what it is meant as.
std::optional<Finding> explain_have_option(const PastedLine& pasted, Finding said);

}  // namespace levigate
