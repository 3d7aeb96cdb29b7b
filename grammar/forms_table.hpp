#pragma once
// One line of a known form, from text to tree. Private to the room: hides PEGTL from the loop
// over the lines (read.cpp).

#include <optional>
#include <string>

#include "grammar/draft.hpp"
#include "grammar/tree.hpp"
#include "grammar/words.hpp"

namespace levigate {

/// Where a line stopped making sense, in bytes from its begin, and what was due (expected.hpp).
struct Misread {
    std::size_t offset = 0;
    std::string due;
};

struct FormReader {
    Form form;
    std::optional<Misread> (*parse)(const char* begin, const char* end, Draft& draft);
    tree::Body (*build)(Draft& draft);
};

std::optional<Misread> read_form(Form form, const char* begin, const char* end, Draft& draft,
                                 tree::Body& body);
std::optional<Misread> read_heading(Heading heading, const char* begin, const char* end,
                                    Draft& draft, tree::Block& block);
/// What was poured, from the command line: to the draft.
std::optional<Misread> read_pours(const char* begin, const char* end, Draft& draft);
/// A size from the command line: a quantity, and what may follow a batch's size.
std::optional<Misread> read_quantity(const char* begin, const char* end, Draft& draft);

}  // namespace levigate
