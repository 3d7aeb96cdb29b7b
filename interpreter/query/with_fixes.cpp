// Fixes put into a text.
#include <algorithm>

#include "interpreter/query/mended.hpp"

namespace levigate {
namespace {

bool is_line_end(char byte) { return byte == '\n' || byte == '\r'; }
bool is_blank(char byte) { return byte == ' ' || byte == '\t'; }

/// Blanks and a list's bullets, which say nothing by themselves.
std::size_t before_bullets(std::string_view text, std::size_t at) {
    for (;;) {
        if (at > 0 && (is_blank(text[at - 1]) || text[at - 1] == '-' || text[at - 1] == '*' ||
                       text[at - 1] == '>'))
            --at;
        else if (text.substr(0, at).ends_with("\u2022"))
            at -= 3;
        else
            return at;
    }
}

}  // namespace

Fix as_made(const std::string& text, Fix fix) {
    std::size_t begin = fix.span.begin, end = fix.span.end;
    if (!fix.text.empty() || begin == end) return fix;
    begin = before_bullets(text, begin);
    while (end < text.size() && is_blank(text[end])) ++end;
    const bool whole = (begin == 0 || is_line_end(text[begin - 1])) &&
                       (end == text.size() || is_line_end(text[end]));
    if (!whole) return fix;
    if (std::string_view(text).substr(end).starts_with("\r\n")) ++end;
    if (end < text.size()) ++end;
    fix.span.begin = static_cast<std::uint32_t>(begin);
    fix.span.end = static_cast<std::uint32_t>(end);
    return fix;
}

std::string with_fixes(std::string text, std::vector<Fix> fixes) {
    for (Fix& fix : fixes) fix = as_made(text, std::move(fix));
    // From the last to the first, so that no place moves.
    std::sort(fixes.begin(), fixes.end(),
              [](const Fix& a, const Fix& b) { return b.span.begin < a.span.begin; });
    for (const Fix& fix : fixes)
        text.replace(fix.span.begin, fix.span.end - fix.span.begin, fix.text);
    return text;
}

}  // namespace levigate
