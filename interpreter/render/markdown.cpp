#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "grammar/source.hpp"
#include "interpreter/render/text.hpp"

namespace levigate {
namespace {

using namespace document;

constexpr std::string_view always_escaped = "\\`*_[]<>|&~$@";

void append_as_markdown(std::string& out, const Heading& heading) {
    out += std::string(static_cast<std::size_t>(std::clamp(heading.level, 1, 6)), '#') + " ";
    out += markdown_escaped(heading.text, true) + "\n";
}

void append_as_markdown(std::string& out, const Paragraph& paragraph) {
    out += markdown_escaped(paragraph.text, true) + "\n";
}

void append_as_markdown(std::string& out, const Caution& caution) {
    out += "> **Caution.** " + markdown_escaped(caution.text, false) + "\n";
}

void append_as_markdown(std::string& out, const List& list) {
    int number = 0;
    for (const std::string& item : list.items) {
        out += list.numbered ? fmt::format("{}. ", ++number) : "- ";
        out += markdown_escaped(item, true) + "\n";
    }
}

void append_row(std::string& out, const Row& row, std::size_t columns) {
    for (std::size_t i = 0; i < columns; ++i) {
        out += "| ";
        if (i < row.size()) out += markdown_escaped(row[i], false);
        out += ' ';
    }
    out += "|\n";
}

void append_as_markdown(std::string& out, const Table& table) {
    Row titles;
    for (const Column& column : table.columns) titles.push_back(column.title);
    append_row(out, titles, titles.size());
    for (const Column& column : table.columns)
        out += column.align == Align::right ? "| ---: " : "| --- ";
    out += "|\n";
    for (const Row& row : table.rows) append_row(out, row, titles.size());
    if (!table.foot.empty()) append_row(out, table.foot, titles.size());
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

}  // namespace

std::string markdown_escaped(std::string_view raw, bool starts_line) {
    std::string text = shown(raw), out;
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

void append_markdown(std::string& out, const Document& document) {
    for (const Block& block : document) {
        std::visit([&](const auto& some) { append_as_markdown(out, some); }, block);
        out += '\n';
    }
}

}  // namespace levigate
