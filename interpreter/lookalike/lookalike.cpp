#include "interpreter/lookalike/lookalike.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

#include <fmt/format.h>
#include <utf8proc.h>

#include "interpreter/lookalike/tables.hpp"

namespace levigate::lookalike {
namespace {

bool plain_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(),
                       [](char byte) { return static_cast<unsigned char>(byte) < 0x80; });
}

/// The bytes that stand for a sign; empty where it stands for itself.
std::string_view find(char32_t sign) {
    const auto all = lookalikes();
    const auto found =
        std::lower_bound(all.begin(), all.end(), sign,
                         [](const Lookalike& one, char32_t wanted) { return one.sign < wanted; });
    if (found == all.end() || found->sign != sign) return {};
    return prototypes().substr(found->offset, found->size);
}

struct Sign {
    char32_t value = 0;
    std::string_view bytes;
};

/// The sign that begins at `at`; a broken byte is one of its own, beyond all that Unicode has.
Sign sign_at(std::string_view text, std::size_t at) {
    text.remove_prefix(at);
    utf8proc_int32_t value = 0;
    const auto taken = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                        static_cast<utf8proc_ssize_t>(text.size()), &value);
    if (taken < 1) return {0x110000u + static_cast<unsigned char>(text[0]), text.substr(0, 1)};
    return {static_cast<char32_t>(value), text.substr(0, static_cast<std::size_t>(taken))};
}

/// NFD; a broken text stays as it is.
std::string apart(std::string_view text) {
    utf8proc_uint8_t* out = nullptr;
    const auto length =
        utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                     static_cast<utf8proc_ssize_t>(text.size()), &out,
                     static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_DECOMPOSE));
    std::string result(length < 0 ? text
                                  : std::string_view(reinterpret_cast<const char*>(out),
                                                     static_cast<std::size_t>(length)));
    std::free(out);
    return result;
}

/// A hash of bytes that can be reckoned piece by piece: `hash × times + plus` is that of all before
/// and of the piece. So a sign is one multiplication, whatever stands for it.
struct Piece {
    std::uint64_t times = 1, plus = 0;
};

Piece piece_of(std::string_view bytes) {
    constexpr std::uint64_t base = 0x9E3779B97F4A7C15u;
    Piece piece;
    for (const char byte : bytes) {
        piece.times *= base;
        piece.plus = piece.plus * base + static_cast<unsigned char>(byte) + 1;
    }
    return piece;
}

/// Of the 128 signs of ASCII, in a skeleton.
std::array<Piece, 128> ascii_pieces() {
    std::array<Piece, 128> all;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const char sign = static_cast<char>(i);
        const std::string_view stands = find(static_cast<char32_t>(i));
        all[i] = piece_of(stands.empty() ? std::string_view(&sign, 1) : stands);
    }
    return all;
}

std::string_view script_of(char32_t sign) {
    const auto all = scripts();
    const auto behind =
        std::upper_bound(all.begin(), all.end(), sign, [](char32_t wanted, const ScriptRange& one) {
            return wanted < one.first;
        });
    if (behind == all.begin() || (behind - 1)->last < sign) return {};
    return script_names()[(behind - 1)->script];
}

bool is_letter(char32_t sign) {
    if (sign > 0x10FFFF) return false;
    switch (utf8proc_category(static_cast<utf8proc_int32_t>(sign))) {
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

/// Chinese, Japanese and Korean are each written in several scripts at once, and with Latin.
bool east_asian(std::string_view script) {
    constexpr std::string_view all[] = {"Han", "Hiragana", "Katakana", "Bopomofo", "Hangul"};
    return std::find(std::begin(all), std::end(all), script) != std::end(all);
}

bool go_together(std::string_view a, std::string_view b) {
    const auto may = [](std::string_view script) {
        return script == "Latin" || east_asian(script);
    };
    return a == b || (may(a) && may(b));
}

std::string named(const Sign& sign) {
    if (sign.bytes.empty()) return "nothing";
    const std::string_view script = script_of(sign.value);
    return fmt::format("{} (U+{:04X}{}{})", sign.bytes, static_cast<unsigned>(sign.value),
                       script.empty() ? "" : ", ", script);
}

}  // namespace

std::string skeleton(std::string_view text) {
    std::string out;
    const std::string parts = apart(text);
    for (std::size_t i = 0; i < parts.size();) {
        const Sign sign = sign_at(parts, i);
        const std::string_view stands = find(sign.value);
        out += stands.empty() ? sign.bytes : stands;
        i += sign.bytes.size();
    }
    return apart(out);
}

// Of plain ASCII the skeleton is not made: nothing in it falls apart into others.
std::uint64_t skeleton_hash(std::string_view text) {
    static const std::array<Piece, 128> pieces = ascii_pieces();
    std::uint64_t hash = 0;
    for (const char byte : text) {
        const auto sign = static_cast<unsigned char>(byte);
        if (sign >= pieces.size()) return piece_of(skeleton(text)).plus;
        hash = hash * pieces[sign].times + pieces[sign].plus;
    }
    return hash;
}

bool look_alike(std::string_view a, std::string_view b) {
    return a != b && skeleton(a) == skeleton(b);
}

Difference difference(std::string_view a, std::string_view b) {
    std::size_t i = 0;
    while (i < a.size() && i < b.size()) {
        const Sign in_a = sign_at(a, i);
        if (in_a.bytes != sign_at(b, i).bytes) break;
        i += in_a.bytes.size();
    }
    const auto rest = [&](std::string_view text) {
        return i < text.size() ? sign_at(text, i) : Sign{};
    };
    return {named(rest(a)), named(rest(b))};
}

std::optional<Mixed> mixed_word(std::string_view text) {
    if (plain_ascii(text)) return std::nullopt;
    std::size_t begin = 0;
    std::string_view seen;     // the script of the word so far
    std::optional<Mixed> out;  // as soon as there is one, until the end of its word
    for (std::size_t i = 0; i < text.size();) {
        Sign sign = sign_at(text, i);
        i += sign.bytes.size();
        if (!is_letter(sign.value)) {
            if (out) return out;
            begin = i;
            seen = {};
            continue;
        }
        if (sign.value == 0x3BC) continue;  // the Greek letter, where a micro sign is meant
        const std::string_view script = script_of(sign.value);
        if (!script.empty() && !seen.empty() && !go_together(seen, script) && !out)
            out = Mixed{{}, seen, script};
        if (!script.empty()) seen = script;
        if (out) out->word = text.substr(begin, i - begin);
    }
    return out;
}

}  // namespace levigate::lookalike
