// Numbers as people write them, read to the digit.
#include "interpreter/measure/exact_inside.hpp"

#include <array>

namespace levigate {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view take_digits(std::string_view& text) {
    std::size_t n = 0;
    while (n < text.size() && is_digit(text[n])) ++n;
    auto digits = text.substr(0, n);
    text.remove_prefix(n);
    return digits;
}

bool take(std::string_view& text, std::string_view what) {
    if (!text.starts_with(what)) return false;
    text.remove_prefix(what.size());
    return true;
}

// The blanks of Unicode that don't break a line (White_Space of the Unicode Character Database).
bool take_blank(std::string_view& text) {
    static constexpr std::array<std::string_view, 18> blanks = {
        " ",      "\t",     "\u00A0", "\u1680", "\u2000", "\u2001", "\u2002", "\u2003", "\u2004",
        "\u2005", "\u2006", "\u2007", "\u2008", "\u2009", "\u200A", "\u202F", "\u205F", "\u3000"};
    for (auto blank : blanks)
        if (take(text, blank)) return true;
    return false;
}

// U+00BC to U+00BE and U+2150 to U+215E, by their names in Unicode.
struct Vulgar {
    std::string_view sign;
    std::int64_t num, den;
};
constexpr std::array<Vulgar, 18> vulgars = {{
    {"¼", 1, 4},
    {"½", 1, 2},
    {"¾", 3, 4},
    {"⅐", 1, 7},
    {"⅑", 1, 9},
    {"⅒", 1, 10},
    {"⅓", 1, 3},
    {"⅔", 2, 3},
    {"⅕", 1, 5},
    {"⅖", 2, 5},
    {"⅗", 3, 5},
    {"⅘", 4, 5},
    {"⅙", 1, 6},
    {"⅚", 5, 6},
    {"⅛", 1, 8},
    {"⅜", 3, 8},
    {"⅝", 5, 8},
    {"⅞", 7, 8},
}};

std::string_view without_leading_zeros(std::string_view digits) {
    auto at = digits.find_first_not_of('0');
    return at == digits.npos ? std::string_view() : digits.substr(at);
}

std::string whole_words(std::string_view digits) {
    digits = without_leading_zeros(digits);
    return digits.empty() ? "0" : std::string(digits);
}

Exact whole_of(std::string_view digits) {
    digits = without_leading_zeros(digits);
    if (digits.size() > digit_cap) return ExactInside::capped();
    if (digits.size() > 18) return ExactInside::whole(BigWhole(std::string(digits)));
    std::int64_t value = 0;
    for (char c : digits) value = value * 10 + (c - '0');
    return value;
}

Exact decimal_of(std::string_view whole, std::string_view after) {
    after = after.substr(0, after.find_last_not_of('0') + 1);
    if (after.empty()) return whole_of(whole);
    whole = without_leading_zeros(whole);
    if (whole.size() + after.size() > digit_cap) return ExactInside::capped();
    std::string power = "1" + std::string(after.size(), '0');
    return whole_of(std::string(whole) + std::string(after)) / whole_of(power);
}

// "1/2", "1⁄2" after its numerator.
std::optional<Exact> fraction_over(std::string_view num, std::string_view text) {
    if (!take(text, "/") && !take(text, "\u2044")) return std::nullopt;
    auto den = take_digits(text);
    if (den.empty() || !text.empty()) return std::nullopt;
    return whole_of(num) / whole_of(den);
}

// A fraction that is all of the text: "½", "1/2".
std::optional<Exact> fraction_of(std::string_view text) {
    for (const auto& vulgar : vulgars)
        if (text == vulgar.sign) return Exact(vulgar.num, vulgar.den);
    auto num = take_digits(text);
    if (num.empty()) return std::nullopt;
    return fraction_over(num, text);
}

// A fraction that is all of the text, in digits.
std::string fraction_words(std::string_view text) {
    for (const auto& vulgar : vulgars)
        if (text == vulgar.sign)
            return std::to_string(vulgar.num) + '/' + std::to_string(vulgar.den);
    const auto num = take_digits(text);
    if (!take(text, "/")) take(text, "\u2044");
    return whole_words(num) + '/' + whole_words(text);
}

}  // namespace

std::optional<Exact> read_number(std::string_view text) {
    if (text.empty()) return std::nullopt;
    auto rest = text;
    auto whole = take_digits(rest);
    if (whole.empty() && !rest.starts_with('.')) return fraction_of(rest);
    if (rest.empty()) return whole_of(whole);
    if (take(rest, ".")) {
        auto after = take_digits(rest);
        if (after.empty() || !rest.empty()) return std::nullopt;
        return decimal_of(whole, after);
    }
    if (auto simple = fraction_over(whole, rest)) return simple;
    bool apart = false;
    while (take_blank(rest)) apart = true;
    // Digits must stand apart from the whole number, a sign like ½ may touch it.
    if (rest.empty() || (!apart && is_digit(rest.front()))) return std::nullopt;
    auto part = fraction_of(rest);
    if (!part) return std::nullopt;
    return whole_of(whole) + *part;
}

std::string canonical_number(std::string_view text) {
    if (!read_number(text)) return {};
    if (fraction_of(text)) return fraction_words(text);
    const std::string whole = whole_words(take_digits(text));
    if (text.empty()) return whole;
    if (take(text, ".")) {
        const auto last = text.find_last_not_of('0');
        return last == text.npos ? whole : whole + '.' + std::string(text.substr(0, last + 1));
    }
    while (take_blank(text)) {
    }
    return whole == "0" ? fraction_words(text) : whole + ' ' + fraction_words(text);
}

}  // namespace levigate
