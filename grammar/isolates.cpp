#include "grammar/isolates.hpp"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>

namespace levigate {
namespace {

constexpr std::string_view first_isolate = "\u2068";
constexpr std::string_view pop_isolate = "\u2069";
constexpr std::string_view same_length = "\u205F";  // a blank, of three bytes like these

struct CodePoint {
    utf8proc_int32_t value = -1;  // -1: a broken byte
    std::size_t bytes = 1;
};

CodePoint first_of(std::string_view text) {
    CodePoint point;
    const auto taken = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                        static_cast<utf8proc_ssize_t>(text.size()), &point.value);
    if (taken < 1) return {};
    point.bytes = static_cast<std::size_t>(taken);
    return point;
}

CodePoint last_of(std::string_view text) {
    std::size_t at = text.size() - 1;
    while (at > 0 && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) --at;
    return first_of(text.substr(at));
}

/// Bidi_Class of UnicodeData.txt, which utf8proc carries (2.8: Unicode 15.0).
bool is_right_to_left(utf8proc_int32_t code) {
    if (code < 0x590) return false;
    const auto bidi = utf8proc_get_property(code)->bidi_class;
    return bidi == UTF8PROC_BIDI_CLASS_R || bidi == UTF8PROC_BIDI_CLASS_AL;
}

bool is_letter(utf8proc_int32_t code) {
    if (code < 0) return false;
    switch (utf8proc_category(code)) {
        case UTF8PROC_CATEGORY_LU:
        case UTF8PROC_CATEGORY_LL:
        case UTF8PROC_CATEGORY_LT:
        case UTF8PROC_CATEGORY_LM:
        case UTF8PROC_CATEGORY_LO:
        case UTF8PROC_CATEGORY_MN:
        case UTF8PROC_CATEGORY_MC: return true;
        default: return false;
    }
}

/// What a word is made of, so that a name ends where it ends.
bool within_word(utf8proc_int32_t code) {
    return is_letter(code) || (code >= 0 && utf8proc_category(code) == UTF8PROC_CATEGORY_ND);
}

bool ends_before(std::string_view rest) {
    return rest.empty() || !within_word(first_of(rest).value);
}
bool begins_behind(std::string_view before) {
    return before.empty() || !within_word(last_of(before).value);
}

bool is_blank(utf8proc_int32_t code) {
    return code == ' ' || code == '\t' || utf8proc_category(code) == UTF8PROC_CATEGORY_ZS;
}

bool is_quote(utf8proc_int32_t code) {
    return code == '"' || code == 0x201C || code == 0x201D || code == 0x201E;
}

/// Words as names have them, in quotes or not. An amount before a name is none.
bool is_name(std::string_view text) {
    constexpr std::string_view signs = "-'./&+()#:%";
    bool letters = false, percent = false, quoted = false, first = true, starts = false;
    for (CodePoint point; !text.empty(); text.remove_prefix(point.bytes)) {
        point = first_of(text);
        const utf8proc_int32_t code = point.value;
        if (is_quote(code)) {
            quoted = !quoted;
            continue;
        }
        if (first) starts = is_letter(code);
        first = false;
        letters = letters || is_letter(code);
        percent = percent || (code == '%' && !quoted);
        const bool sign =
            code > 0 && code < 0x80 && signs.find(static_cast<char>(code)) < signs.size();
        const bool shapes = code == 0x200C || code == 0x200D || code == 0x2019;
        if (code < 0 || (!within_word(code) && !is_blank(code) && !sign && !shapes && !quoted))
            return false;
    }
    return letters && !quoted && (starts || !percent);
}

/// The length of what stands between the U+2068 at `at` and its U+2069, if a name does; else npos.
std::size_t name_length(std::string_view text, std::size_t at) {
    const std::string_view before = text.substr(0, at);
    const std::string_view behind = text.substr(at + first_isolate.size());
    // Up to the line's end, or to the next of either: no letter is looked at for several.
    const std::string_view stops = "\r\n\xE2";
    std::size_t close = behind.find_first_of(stops);
    while (close != behind.npos && behind[close] == '\xE2' &&
           !behind.substr(close).starts_with(first_isolate) &&
           !behind.substr(close).starts_with(pop_isolate))
        close = behind.find_first_of(stops, close + 1);
    if (close == behind.npos || !behind.substr(close).starts_with(pop_isolate)) return text.npos;
    const std::string_view name = behind.substr(0, close);
    const std::string_view after = behind.substr(close + pop_isolate.size());
    if (!begins_behind(before) || !ends_before(after)) return text.npos;
    const bool in_quotes = !before.empty() && is_quote(last_of(before).value) && !after.empty() &&
                           is_quote(first_of(after).value);
    return is_name(in_quotes ? fmt::format("\"{}\"", name) : std::string(name)) ? close : text.npos;
}

/// Beyond U+0590 alone are letters written from right to left.
bool may_hold(std::string_view text) {
    return std::any_of(text.begin(), text.end(),
                       [](char c) { return static_cast<unsigned char>(c) >= 0xD6; });
}

/// Letters from right to left outside all isolates.
bool left_open(std::string_view text) {
    int depth = 0;
    for (CodePoint point; !text.empty(); text.remove_prefix(point.bytes)) {
        point = first_of(text);
        if (point.value == 0x2068) ++depth;
        if (point.value == 0x2069) --depth;
        if (depth == 0 && is_right_to_left(point.value)) return true;
    }
    return false;
}

/// What our sentences quote is a word of the maker's, and may be no name that anybody knows.
std::string with_quoted(std::string text) {
    for (const char quote : {'`', '"'})
        for (std::size_t at = text.find(quote); at != text.npos; at = text.find(quote, at + 1)) {
            const std::size_t close = text.find(quote, at + 1);
            if (close == text.npos) break;
            const std::string_view all = text;
            const std::string_view inside = all.substr(at + 1, close - at - 1);
            // Hebrew writes abbreviations with such a sign within a word.
            const bool quotes =
                begins_behind(all.substr(0, at)) && ends_before(all.substr(close + 1));
            const bool open = right_to_left(inside) && inside.find(first_isolate) == inside.npos;
            at = quotes ? close : at;
            if (!quotes || !open) continue;
            text.insert(close, pop_isolate);
            text.insert(close - inside.size(), first_isolate);
            at += first_isolate.size() + pop_isolate.size();
        }
    return text;
}

}  // namespace

bool right_to_left(std::string_view text) {
    if (!may_hold(text)) return false;
    for (CodePoint point; !text.empty(); text.remove_prefix(point.bytes)) {
        point = first_of(text);
        if (is_right_to_left(point.value)) return true;
    }
    return false;
}

std::string drop_isolates(std::string& text) {
    std::string original;
    for (std::size_t at = text.find(first_isolate); at != text.npos;
         at = text.find(first_isolate, at + 1)) {
        const std::size_t length = name_length(text, at);
        if (length == text.npos) continue;
        if (original.empty()) original = text;
        text.replace(at, same_length.size(), same_length);
        text.replace(at + first_isolate.size() + length, same_length.size(), same_length);
    }
    return original;
}

std::string without_isolates(std::string_view text, std::string_view original) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t mark = same_length.size();
        if (text.substr(at, mark) == original.substr(at, mark)) {
            out += text[at++];
            continue;
        }
        at += mark;
        const bool parts = !begins_behind(out) || out.ends_with('%');
        if (parts && !ends_before(text.substr(std::min(at, text.size())))) out += ' ';
    }
    return out;
}

void Isolates::add(std::string_view name) {
    if (right_to_left(name)) names_.emplace(name);
}

void Isolates::add(const Isolates& others) {
    names_.insert(others.names_.begin(), others.names_.end());
}

// A name that `text` begins with sorts no later than it, and is also the beginning of every name
// between the two. So what is common to `text` and the last name before it is all to look at.
std::size_t Isolates::name_at(std::string_view text) const {
    std::string_view common = text;
    while (!common.empty()) {
        auto next = names_.upper_bound(common);
        if (next == names_.begin()) return 0;
        const std::string& name = *--next;
        if (text.starts_with(name)) {
            if (ends_before(text.substr(name.size()))) return name.size();
            common = text.substr(0, name.size() - 1);
            continue;
        }
        const auto differ = std::mismatch(name.begin(), name.end(), common.begin(), common.end());
        common = text.substr(0, static_cast<std::size_t>(differ.first - name.begin()));
    }
    return 0;
}

std::string Isolates::between(std::string_view text, std::string_view open,
                              std::string_view close) const {
    if (empty() || !may_hold(text)) return std::string(text);
    std::string out;
    bool starts = true;  // no word goes on here
    while (!text.empty()) {
        if (const std::size_t length = starts ? name_at(text) : 0; length > 0) {
            out.append(open).append(text.substr(0, length)).append(close);
            text.remove_prefix(length);
            continue;
        }
        const CodePoint point = first_of(text);
        out += text.substr(0, point.bytes);
        text.remove_prefix(point.bytes);
        starts = !within_word(point.value);
    }
    return out;
}

std::string Isolates::in_sentence(std::string_view text) const {
    if (!may_hold(text)) return std::string(text);
    return with_quoted(between(text, first_isolate, pop_isolate));
}

std::string Isolates::in_cell(std::string_view text) const {
    if (!may_hold(text)) return std::string(text);
    std::string out = in_sentence(text);
    if (left_open(out)) out.insert(0, first_isolate).append(pop_isolate);
    return out;
}

}  // namespace levigate
