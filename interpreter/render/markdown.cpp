#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "grammar/source.hpp"
#include "interpreter/render/text.hpp"

namespace levigate {
namespace {

using namespace document;

constexpr std::string_view always_escaped = "\\`*_[]<>|&~$@";

std::string escaped(std::string text, bool starts_line);

struct Writer {
    std::string& out;
    const Isolates& isolates;

    std::string line(std::string_view raw) const {
        return escaped(isolates.in_sentence(shown(raw)), true);
    }
    std::string piece(std::string_view raw) const {
        return escaped(isolates.in_sentence(shown(raw)), false);
    }
    std::string cell(std::string_view raw) const {
        return escaped(isolates.in_cell(shown(raw)), false);
    }
};

void append_as_markdown(Writer& to, const Heading& heading) {
    to.out += std::string(static_cast<std::size_t>(std::clamp(heading.level, 1, 6)), '#') + " ";
    to.out += to.line(heading.text) + "\n";
}

void append_as_markdown(Writer& to, const Paragraph& paragraph) {
    to.out += to.line(paragraph.text) + "\n";
}

void append_as_markdown(Writer& to, const Caution& caution) {
    to.out += "> **Caution.** " + to.piece(caution.text) + "\n";
}

void append_as_markdown(Writer& to, const List& list) {
    int number = 0;
    for (const std::string& item : list.items) {
        to.out += list.numbered ? fmt::format("{}. ", ++number) : "- ";
        to.out += to.line(item) + "\n";
    }
}

void append_row(Writer& to, const Row& row, std::size_t columns) {
    for (std::size_t i = 0; i < columns; ++i) {
        to.out += "| ";
        if (i < row.size()) to.out += to.cell(row[i]);
        to.out += ' ';
    }
    to.out += "|\n";
}

void append_as_markdown(Writer& to, const Table& table) {
    Row titles;
    for (const Column& column : table.columns) titles.push_back(column.title);
    append_row(to, titles, titles.size());
    for (const Column& column : table.columns)
        to.out += column.align == Align::right ? "| ---: " : "| --- ";
    to.out += "|\n";
    for (const Row& row : table.rows) append_row(to, row, titles.size());
    if (!table.foot.empty()) append_row(to, table.foot, titles.size());
}

/// Bytes at the head that a line would be taken for something else by: "- ", "# ", "12. ".
std::size_t opener(std::string_view text) {
    if (text.empty()) return std::string_view::npos;
    if (std::string_view("#+-=>:").find(text[0]) != std::string_view::npos) return 0;
    std::size_t digits = 0;
    while (digits < text.size() && std::isdigit(static_cast<unsigned char>(text[digits]))) ++digits;
    bool numbers =
        digits > 0 && digits < text.size() && (text[digits] == '.' || text[digits] == ')');
    return numbers ? digits : std::string_view::npos;
}

bool behind_www(std::string_view text, std::size_t dot) {
    const auto is_w = [](char sign) { return sign == 'w' || sign == 'W'; };
    return dot >= 3 && std::all_of(text.begin() + dot - 3, text.begin() + dot, is_w);
}

std::string escaped(std::string text, bool starts_line) {
    std::string out;
    text.erase(0, text.find_first_not_of(' '));  // four blanks would make it code
    std::size_t open = starts_line ? opener(text) : std::string_view::npos;
    for (std::size_t i = 0; i < text.size(); ++i) {
        // A bare address would become a link, and a # at the end would close a heading.
        bool link = text.compare(i, 3, "://") == 0 || (text[i] == '.' && behind_www(text, i));
        bool closes = starts_line && text[i] == '#' && i + 1 == text.size();
        bool markup = always_escaped.find(text[i]) != std::string_view::npos;
        if (i == open || link || closes || markup) out += '\\';
        out += text[i];
    }
    return out;
}

}  // namespace

std::string markdown_escaped(std::string_view raw, bool starts_line) {
    return escaped(shown(raw), starts_line);
}

void append_markdown(std::string& out, const Document& document, const Isolates& isolates) {
    Writer writer{out, isolates};
    for (const Block& block : document) {
        std::visit([&](const auto& some) { append_as_markdown(writer, some); }, block);
        out += '\n';
    }
}

}  // namespace levigate
