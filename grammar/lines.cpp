#include "grammar/lines.hpp"

#include <utility>

#include <fmt/format.h>
#include <utf8proc.h>

#include <cstring>

#include "grammar/hidden.hpp"

namespace levigate {

namespace {

/// Length in bytes of the blank at `at`, as blank_sign in lexical.hpp; 0 where there is none.
std::uint32_t blank_at(std::string_view text, std::uint32_t at, std::uint32_t end) {
    const auto first = static_cast<unsigned char>(text[at]);
    if (first == ' ' || first == '\t') return 1;
    if (first < 0x80) return 0;
    utf8proc_int32_t code = 0;
    const auto length =
        utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data() + at),
                         static_cast<utf8proc_ssize_t>(end - at), &code);
    if (length <= 0) return 0;
    const bool blank = code == 0xA0 || code == 0x1680 || (code >= 0x2000 && code <= 0x200A) ||
                       code == 0x2028 || code == 0x2029 || code == 0x202F || code == 0x205F ||
                       code == 0x3000;
    return blank ? static_cast<std::uint32_t>(length) : 0;
}

}  // namespace

std::uint32_t quote_at(std::string_view text, std::uint32_t at) {
    if (text[at] == '"') return 1;
    const std::string_view three = text.substr(at, 3);
    return three == "\u201C" || three == "\u201D" || three == "\u201E" ? 3 : 0;
}

std::uint32_t trim_end(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    while (end > begin) {
        std::uint32_t at = end - 1;
        while (at > begin && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) --at;
        if (blank_at(text, at, end) != end - at) break;
        end = at;
    }
    return end;
}

namespace {

/// A `#` at the line's start or between blanks, outside quotes.
std::uint32_t find_comment(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    if (std::memchr(text.data() + begin, '#', end - begin) == nullptr) return end;
    bool quoted = false;
    for (std::uint32_t at = begin; at < end; ++at) {
        if (quote_at(text, at) > 0) quoted = !quoted;
        if (text[at] != '#' || quoted) continue;
        if (at == begin) return at;
        const bool before = trim_end(text, begin, at) < at;
        const bool behind = at + 1 == end || blank_at(text, at + 1, end) > 0;
        if (before && behind) return at;
    }
    return end;
}

/// Length of a list's bullet with the blank behind it, or of one that the line ends with.
std::uint32_t bullet_at(std::string_view text, std::uint32_t at, std::uint32_t end) {
    std::uint32_t length = 0;
    // As in lexical.hpp. A dash that touches what follows is a minus.
    for (const std::string_view sign : {"-", "*", ">", "\u2022", "\u2013", "\u2014", "\u00B7",
                                        "\u25AA", "\u25CF", "\u25E6", "\u2023", "\u2043"})
        if (text.substr(at, sign.size()) == sign) length = static_cast<std::uint32_t>(sign.size());
    if (length == 0) return 0;
    if (at + length >= end) return at + length == end ? length : 0;
    const std::uint32_t blank = blank_at(text, at + length, end);
    return blank > 0 ? length + blank : 0;
}

}  // namespace

std::uint32_t skip_blanks(std::string_view text, std::uint32_t at, std::uint32_t end) {
    while (at < end) {
        const std::uint32_t blank = blank_at(text, at, end);
        if (blank == 0) break;
        at += blank;
    }
    return at;
}

PhysicalLine cut_line(std::string_view text, std::uint32_t at) {
    PhysicalLine line;
    const auto size = static_cast<std::uint32_t>(text.size());
    std::uint32_t end = at;
    bool plain = true;
    for (; end < size; ++end) {
        const auto byte = static_cast<unsigned char>(text[end]);
        if (byte == '\n' || byte == '\r') break;
        plain = plain && (byte == '\t' || (byte >= 0x20 && byte < 0x7F));
    }
    line.plain = plain;
    line.next = end < size ? end + 1 : end;
    if (end + 1 < size && text[end] == '\r' && text[end + 1] == '\n') ++line.next;
    line.begin = skip_blanks(text, at, end);
    while (line.begin < end) {
        const std::uint32_t bullet = bullet_at(text, line.begin, end);
        if (bullet == 0) break;
        line.begin = skip_blanks(text, line.begin + bullet, end);
        line.bullet = true;
    }
    line.comment = find_comment(text, line.begin, end);
    line.comment_end = end;
    if (line.comment == end) line.comment = line.next;
    line.end = trim_end(text, line.begin, line.comment < end ? line.comment : end);
    return line;
}

namespace {

/// With these, what is seen stands in another order than what is read.
bool turns_around(char32_t code) {
    return code == 0x061C || code == 0x200E || code == 0x200F ||
           (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

/// Ends of lines to a word processor, and none here: what follows was to be a line of its own.
bool breaks_line(char32_t code) {
    return code == 0x0B || code == 0x0C || code == 0x85 || code == 0x2028 || code == 0x2029;
}

/// Takes all hidden characters of [at, end) out, of which the first is at `at`. Nothing else can be
/// meant if each is beside a blank or at an end; between letters a blank may be missing, and behind
/// one that turns the line around its maker sees something else.
Fix without_hidden(std::string_view text, std::uint32_t at, std::uint32_t end, SourceId source) {
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
    const auto bare = [&](std::uint32_t place) {
        return place == end || place == 0 || text[place] == '\n' || text[place] == '\r' ||
               blank_at(text, place, end) > 0;
    };
    Fix out = certain_fix({source, at, at}, {});
    std::string kept;  // since the last hidden one
    char32_t before = 0;
    for (std::uint32_t place = at; place < end;) {
        utf8proc_int32_t code = 0;
        const auto length =
            utf8proc_iterate(bytes + place, static_cast<utf8proc_ssize_t>(end - place), &code);
        if (length <= 0) break;
        const std::uint32_t next = place + static_cast<std::uint32_t>(length);
        if (place == at || hidden(static_cast<char32_t>(code), before)) {
            out.text += std::exchange(kept, {});
            if (breaks_line(static_cast<char32_t>(code))) out.text += '\n', out.certain = false;
            out.span.end = next;
            const bool edge = place == 0 || text[place - 1] == ' ' || text[place - 1] == '\t' ||
                              text[place - 1] == '\n' || text[place - 1] == '\r';
            out.certain =
                out.certain && (edge || bare(next)) && !turns_around(static_cast<char32_t>(code));
        } else {
            kept += text.substr(place, next - place);
        }
        before = static_cast<char32_t>(code);
        place = next;
    }
    return out;
}

}  // namespace

bool check_characters(std::string_view text, std::uint32_t begin, std::uint32_t end,
                      SourceId source, Findings& findings) {
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
    char32_t before = 0;
    for (std::uint32_t at = begin; at < end;) {
        utf8proc_int32_t code = 0;
        const auto length =
            utf8proc_iterate(bytes + at, static_cast<utf8proc_ssize_t>(end - at), &code);
        if (length <= 0) {
            findings.push_back({.code = Code::text_not_utf8,
                                .message = fmt::format("The byte {:02X} is no part of a UTF-8 "
                                                       "text.",
                                                       bytes[at]),
                                .span = {source, at, at + 1},
                                .advice = "Save the file as UTF-8, or type the character again."});
            return false;
        }
        if (hidden(static_cast<char32_t>(code), before)) {
            findings.push_back(
                {.code = Code::text_hidden_character,
                 .message = fmt::format("A hidden character, U+{:04X}, stands in this line.",
                                        static_cast<unsigned>(code)),
                 .span = {source, at, at + static_cast<std::uint32_t>(length)},
                 .advice = "Delete it; it may have come in with pasted text.",
                 .fixes = {without_hidden(text, at, end, source)}});
            return false;
        }
        before = static_cast<char32_t>(code);
        at += static_cast<std::uint32_t>(length);
    }
    return true;
}

Marker merge_marker(std::string_view line) {
    if (line.size() < 7) return Marker::none;
    const std::string_view first = line.substr(0, 7);
    const bool ends = line.size() == 7 || line[7] == ' ' || line[7] == '\r' || line[7] == '\n';
    if (!ends) return Marker::none;
    if (first == "<<<<<<<") return Marker::ours;
    if (first == "|||||||") return Marker::base;
    if (first == "=======") return Marker::middle;
    if (first == ">>>>>>>") return Marker::theirs;
    return Marker::none;
}

}  // namespace levigate
