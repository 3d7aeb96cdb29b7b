#include "interpreter/render/text.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/source.hpp"

namespace levigate {
namespace {

using namespace document;

constexpr std::size_t page_width = 96;

/// The next piece of prose that isn't broken: a word, or a name that is isolated, with what
/// touches it.
std::string_view next_piece(std::string_view text) {
    std::size_t end = 0;
    for (int depth = 0; end < text.size() && (depth > 0 || text[end] != ' '); ++end) {
        if (text.compare(end, 3, "\u2068") == 0) ++depth;
        if (text.compare(end, 3, "\u2069") == 0) --depth;
    }
    return text.substr(0, end);
}

/// Texts as they are printed.
struct Writer {
    std::string& out;
    const Isolates& isolates;

    std::string sentence(std::string_view raw) const { return isolates.in_sentence(shown(raw)); }
    std::string cell(std::string_view raw) const { return isolates.in_cell(shown(raw)); }
};

// Breaks prose at blanks; the first line begins with `lead`, the others are indented as far.
void append_wrapped(Writer writer, std::string_view lead, const std::string& raw) {
    std::string& out = writer.out;
    std::string text = writer.sentence(raw);
    std::string indent(display_width(lead), ' ');
    out += lead;
    std::size_t column = indent.size();
    std::string_view rest = text;
    bool first = true;
    while (!rest.empty()) {
        std::string_view word = next_piece(rest);
        rest.remove_prefix(std::min(word.size() + 1, rest.size()));
        std::size_t width = display_width(word);
        if (!first && column + 1 + width > page_width) {
            out += '\n';
            out += indent;
            column = indent.size();
            first = true;
        }
        if (!first) {
            out += ' ';
            ++column;
        }
        out += word;
        column += width;
        first = false;
    }
    out += '\n';
}

void append_as_text(Writer writer, const Heading& heading) {
    std::string& out = writer.out;
    std::string text = writer.sentence(heading.text);
    out += text;
    out += '\n';
    if (heading.level == 1) out += std::string(display_width(text), '=') + "\n";
}

void append_as_text(Writer out, const Paragraph& paragraph) {
    append_wrapped(out, "", paragraph.text);
}

void append_as_text(Writer out, const Caution& caution) {
    append_wrapped(out, "  ! ", caution.text);
}

void append_as_text(Writer out, const List& list) {
    std::size_t digits = fmt::formatted_size("{}", list.items.size());
    for (std::size_t i = 0; i < list.items.size(); ++i)
        append_wrapped(out, list.numbered ? fmt::format("  {:>{}}. ", i + 1, digits) : "  - ",
                       list.items[i]);
}

std::size_t width_of(const std::vector<Row>& rows, std::size_t column) {
    std::size_t width = 0;
    for (const Row& row : rows) width = std::max(width, display_width(row[column]));
    return width;
}

void append_row(std::string& out, const Table& table, const Row& row,
                const std::vector<std::size_t>& widths) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
        std::string blanks(widths[i] - std::min(widths[i], display_width(row[i])), ' ');
        line += "  ";
        if (table.columns[i].align == Align::right)
            line += blanks + row[i];
        else
            line += row[i] + blanks;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line;
    out += '\n';
}

void append_as_text(Writer writer, const Table& table) {
    std::vector<Row> rows(1);
    for (const Column& column : table.columns) rows[0].push_back(column.title);
    rows.insert(rows.end(), table.rows.begin(), table.rows.end());
    if (!table.foot.empty()) rows.push_back(table.foot);
    for (Row& row : rows) {
        row.resize(table.columns.size());
        for (std::string& cell : row) cell = writer.cell(cell);
    }
    std::vector<std::size_t> widths;
    Row rule;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        widths.push_back(width_of(rows, i));
        rule.push_back(std::string(widths.back(), '-'));
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        bool before_foot = !table.foot.empty() && i + 1 == rows.size();
        if (i == 1 || (before_foot && i > 1)) append_row(writer.out, table, rule, widths);
        append_row(writer.out, table, rows[i], widths);
    }
}

}  // namespace

void append_text(std::string& out, const Document& document, const Isolates& isolates) {
    for (const Block& block : document) {
        std::visit([&](const auto& some) { append_as_text(Writer{out, isolates}, some); }, block);
        out += '\n';
    }
}

}  // namespace levigate
