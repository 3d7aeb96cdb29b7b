#pragma once
// A book as the text of one file.

#include <cstdint>
#include <string>
#include <vector>

#include "tests/properties/book.hpp"

namespace levigate::testing {

struct TextLine {
    std::string text;
    bool ingredient = false;  // its place among its like is free
};
struct TextBlock {
    std::string heading;
    std::vector<TextLine> lines;
};

/// Block by block. `noise` chooses what a reader must not mind: case, blanks, quotes, other
/// names, bullets, comments; 0 is plain.
std::vector<TextBlock> write_blocks(const Book& book, std::uint64_t noise);
std::string join(const std::vector<TextBlock>& blocks);
std::string write(const Book& book, std::uint64_t noise = 0);

/// "18", "2.5", "1/3": exact.
std::string number_text(const Number& number);
/// "(100/3 %)": a share as an exact expression.
std::string share_text(const Number& share);

}  // namespace levigate::testing
