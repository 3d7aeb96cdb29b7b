// Marks of web pages, of Markdown and of tables, taken out of a line.

#include <algorithm>
#include <initializer_list>
#include <utility>

#include "grammar/pasted_scan.hpp"

namespace levigate {

namespace {

/// `&nbsp;` and its like, and signs that look like others.
constexpr std::pair<std::string_view, std::string_view> written_for[] = {
    {"&nbsp;", " "},   {"&#160;", " "},   {"&amp;", "&"},    {"&#37;", "%"},   {"&percnt;", "%"},
    {"&frac12;", "½"}, {"&frac14;", "¼"}, {"&frac34;", "¾"}, {"&ndash;", "–"}, {"&mdash;", "—"},
    {"&lt;", "<"},     {"&gt;", ">"},     {"％", "%"},       {"：", ":"},      {"**", ""},
    {"__", ""},        {"`", ""},         {"\t", "|"},       {"｜", "|"},
};

/// `<li>`, `</td>`: a cell's or a line's begins and ends, all others are nothing.
void take_out_tags(std::string& text) {
    for (std::size_t at = text.find('<'); at != text.npos; at = text.find('<', at + 1)) {
        const std::size_t end = text.find('>', at);
        const std::size_t word = at + 1 < text.size() && text[at + 1] == '/' ? at + 2 : at + 1;
        if (end == text.npos || !letter_at(text, word)) continue;
        const bool cell = word_length(text, word, {"td", "th", "tr"}) > 0;
        text.replace(at, end + 1 - at, cell ? "|" : " ");
    }
}

/// `*18 %*`: a star that touches a word on one side only.
void take_out_stars(std::string& text) {
    const auto blank = [&](std::size_t at) { return at >= text.size() || text[at] == ' '; };
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] != '*' && text[at] != '_') continue;
        const bool opens = (at == 0 || blank(at - 1)) && !blank(at + 1);
        const bool closes = at > 0 && !blank(at - 1) && blank(at + 1);
        if (opens || closes) text.erase(at--, 1);
    }
}

/// `[ ]`, `☐` and bullets that no line here begins with.
void take_out_box(std::string& text) {
    for (const std::string_view box :
         {"[ ]", "[x]", "[X]", "☐", "☑", "☒", "✓", "✔", "▢", "→", "►",
          "+",   "·",   "▪",   "◦", "●", "○", "■", "□", "‣", "⁃", "»"}) {
        if (!text.starts_with(box)) continue;
        text.erase(0, box.size());
        text.erase(0, text.find_first_not_of(' '));
    }
}

}  // namespace

std::string without_marks(std::string_view line) {
    std::string text(line);
    for (const auto& [written, here] : written_for)
        for (std::size_t at = text.find(written); at != text.npos; at = text.find(written, at))
            text.replace(at, written.size(), here), at += here.size();
    take_out_tags(text);
    text = tidy_name(text);
    take_out_stars(text);
    take_out_box(text);
    while (!text.empty() && std::string_view("|;, ").find(text.back()) != std::string_view::npos)
        text.pop_back();
    while (text.starts_with('|') || text.starts_with(' ')) text.erase(0, 1);
    return text;
}

}  // namespace levigate
