#include "interpreter/render/html.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "grammar/source.hpp"

namespace levigate {
namespace {

using namespace document;

/// A tag around a text. `open` may carry attributes of ours.
void append_element(std::string& out, std::string_view open, std::string_view text) {
    out += fmt::format("<{}>", open);
    append_escaped(out, text);
    out += fmt::format("</{}>", open.substr(0, open.find(' ')));
}

void append(std::string& out, const Heading& heading, int deeper) {
    append_element(out, fmt::format("h{}", std::clamp(heading.level + deeper, 1, 6)), heading.text);
}

void append(std::string& out, const Paragraph& paragraph, int) {
    append_element(out, "p", paragraph.text);
}

void append(std::string& out, const Caution& caution, int) {
    out += "<p class=\"caution\"><strong>Caution.</strong> ";
    append_escaped(out, caution.text);
    out += "</p>";
}

void append(std::string& out, const List& list, int) {
    const std::string_view tag = list.numbered ? "ol" : "ul";
    out += fmt::format("<{}>\n", tag);
    for (const std::string& item : list.items) {
        append_element(out, "li", item);
        out += '\n';
    }
    out += fmt::format("</{}>", tag);
}

void append_row(std::string& out, const Row& row, const Table& table, std::string_view cell) {
    out += "<tr>";
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const bool right = table.columns[i].align == Align::right;
        append_element(out, fmt::format("{}{}", cell, right ? " class=\"right\"" : ""),
                       i < row.size() ? row[i] : std::string_view());
    }
    out += "</tr>\n";
}

void append(std::string& out, const Table& table, int) {
    Row titles;
    for (const Column& column : table.columns) titles.push_back(column.title);
    out += "<table>\n<thead>\n";
    append_row(out, titles, table, "th scope=\"col\"");
    out += "</thead>\n<tbody>\n";
    for (const Row& row : table.rows) append_row(out, row, table, "td");
    out += "</tbody>\n";
    if (!table.foot.empty()) {
        out += "<tfoot>\n";
        append_row(out, table.foot, table, "td");
        out += "</tfoot>\n";
    }
    out += "</table>";
}

std::string_view entity(char c) {
    switch (c) {
        case '&': return "&amp;";
        case '<': return "&lt;";
        case '>': return "&gt;";
        case '"': return "&quot;";
        case '\'': return "&#39;";
        default: return {};
    }
}

}  // namespace

void append_escaped(std::string& out, std::string_view text) {
    for (const char c : shown(text)) {
        if (const std::string_view safe = entity(c); !safe.empty())
            out += safe;
        else
            out += c;
    }
}

std::string with_names_apart(std::string body, const Isolates& isolates) {
    if (isolates.empty()) return body;
    const Isolates names =
        isolates.escaped([](const std::string& one) { return html_escaped(one); });
    std::string out;
    std::string_view rest = body;
    for (bool isolated = false; !rest.empty();) {
        const std::string_view text = rest.substr(0, rest.find('<'));
        out += isolated ? std::string(text) : names.between(text, "<span dir=\"auto\">", "</span>");
        rest.remove_prefix(text.size());
        const std::string_view tag = rest.substr(0, std::min(rest.find('>'), rest.size() - 1) + 1);
        isolated = tag == "<bdi>";
        out += tag;
        rest.remove_prefix(tag.size());
    }
    return out;
}

std::string html_escaped(std::string_view text) {
    std::string out;
    append_escaped(out, text);
    return out;
}

void append_html(std::string& out, const Document& document, int deeper) {
    for (const Block& block : document) {
        std::visit([&](const auto& some) { append(out, some, deeper); }, block);
        out += '\n';
    }
}

}  // namespace levigate
