#pragma once
// What a person reads, before it is known how: headings, paragraphs, tables, lists. Built from
// sheets; written as plain text or Markdown. Texts stand here as they are: each writer sees to it
// that they stay text.

#include <string>
#include <variant>
#include <vector>

namespace levigate::document {

struct Heading {
    int level = 1;
    std::string text;
};

struct Paragraph {
    std::string text;
};

enum class Align : unsigned char { left, right };

struct Column {
    std::string title;
    Align align = Align::left;
};

using Row = std::vector<std::string>;  ///< one text a column

struct Table {
    std::vector<Column> columns = {};
    std::vector<Row> rows = {};
    Row foot = {};  ///< the sum below; empty where there is none
};

struct List {
    bool numbered = false;
    std::vector<std::string> items;
};

/// Something that can hurt: stands out wherever it is written.
struct Caution {
    std::string text;
};

using Block = std::variant<Heading, Paragraph, Table, List, Caution>;
using Document = std::vector<Block>;

}  // namespace levigate::document
