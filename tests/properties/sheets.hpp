#pragma once
// Sheets as plain values, from both sides: reckoned here from the book, and asked from the tool.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "tests/properties/book.hpp"
#include "tests/properties/reckon.hpp"

namespace levigate::testing {

struct Row {
    std::string name;
    Number share, exact, grams;
};
struct BowlSeen {
    std::string name;
    Number asked, grams;  // asked: what the bowls that use it weigh of it (blends)
    std::vector<Row> rows;
};
struct SheetSeen {
    std::string shade, variant, finish, batch;
    std::string refused;         // reckoned: the finding that the tool owes in its place
    std::set<std::string> also;  // reckoned: other findings that it may have there
    bool no_bulk = false;        // reckoned: it is the bulk that can't be made
    Number total, step;
    std::vector<BowlSeen> bowls;
    std::vector<Row> materials;
    std::vector<std::string> errors;  // codes of the findings on it
    std::vector<std::string> steps;   // holes filled; reckoned without those of a finish
};

/// The key that tells sheets apart.
std::string title(const SheetSeen& sheet);

/// What is asked for: every variant and finish or none; so many grams in place of the batches, or
/// added to so many grams of the bulk.
struct Question {
    bool all = false;
    std::optional<Number> make{}, onto{};
};

/// Every sheet that the design page promises, in its order.
std::vector<SheetSeen> reckon_sheets(const Book& book, const Question& question);

/// What becomes of each expectation over all that its shades name, in the order of the lines as the
/// shades have them: in the words of `check`.
std::vector<std::string> reckon_expects(const Book& book);

/// What a shade names by itself and has from what it is like, said in full.
Properties in_full(const Book& book, Id shade);

/// Rounds half up to a multiple of the step.
Number half_up(const Number& value, const Number& step);

struct Answer {
    std::vector<SheetSeen> sheets;
    std::vector<std::string> errors;  // codes of the errors that stand outside sheets
    std::string said;                 // every finding in words, for a failure's text
};

/// Runs the tool in process on one page.
Answer ask(const std::string& text, const Question& question);
std::vector<std::string> ask_expects(const std::string& text);

}  // namespace levigate::testing
