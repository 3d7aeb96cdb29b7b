// Exact numbers as text. Small values never leave 128 bits; the others go through large numbers.
#include "interpreter/measure/exact_inside.hpp"

#include <algorithm>
#include <array>
#include <cstring>

namespace levigate {
namespace mp = boost::multiprecision;

using Inside = ExactInside;
using UnsignedWide = ExactInside::UnsignedWide;

static constexpr int most_exact_places = 12;  // exactly() writes a fraction beyond
static constexpr std::array<std::int64_t, 19> tens = [] {
    std::array<std::int64_t, 19> table{1};
    for (std::size_t i = 1; i < table.size(); ++i) table[i] = table[i - 1] * 10;
    return table;
}();

static std::uint64_t size_of(std::int64_t x) {
    return x < 0 ? 0 - static_cast<std::uint64_t>(x) : static_cast<std::uint64_t>(x);
}

// Writes the digits backwards from `end` and answers where they begin; at least `least` of them.
template <class Unsigned>
static char* digits_before(char* end, Unsigned x, int least) {
    char* at = end;
    for (; x != 0 || least > 0; --least, x /= 10) *--at = static_cast<char>('0' + int(x % 10));
    return at;
}

static void append_whole(std::string& out, std::int64_t x) {
    char text[24];
    char* end = text + sizeof text;
    char* at = digits_before(end, size_of(x), 1);
    if (x < 0) *--at = '-';
    out.append(at, end);
}

// Puts a sign and a point into a run of more than `places` digits.
static void append_digits(std::string& out, bool negative, std::string_view digits, int places,
                          bool drop_zeros) {
    auto whole = digits.size() - static_cast<std::size_t>(places);
    auto end = digits.size();
    if (drop_zeros)
        while (end > whole && digits[end - 1] == '0') --end;
    if (negative && digits.find_first_not_of('0') != digits.npos) out += '-';
    out.append(digits.substr(0, whole));
    if (end == whole) return;
    out += '.';
    out.append(digits.substr(whole, end - whole));
}

static BigWhole power_of_ten(int places) {
    return mp::pow(BigWhole(10), static_cast<unsigned>(places));
}

static void append_large(std::string& out, const Exact& x, std::int64_t scale, int places,
                         bool drop_zeros) {
    BigRatio ratio = Inside::ratio(x) * BigWhole(scale);
    BigWhole num = mp::abs(mp::numerator(ratio)) * power_of_ten(places);
    BigWhole den = mp::denominator(ratio);
    BigWhole steps, rest;
    mp::divide_qr(num, den, steps, rest);
    if (rest * 2 >= den) ++steps;
    std::string digits = steps.str();
    auto least = static_cast<std::size_t>(places) + 1;
    if (digits.size() < least) digits.insert(0, least - digits.size(), '0');
    append_digits(out, ratio.sign() < 0, digits, places, drop_zeros);
}

// value × scale, rounded half up to `places`.
static void append_rounded(std::string& out, const Exact& x, std::int64_t scale, int places,
                           bool drop_zeros) {
    if (!x.known()) {
        out += '?';
        return;
    }
    places = std::max(places, 0);
    std::int64_t factor;
    if (!Inside::small(x) || places >= static_cast<int>(tens.size()) ||
        __builtin_mul_overflow(scale, tens[static_cast<std::size_t>(places)], &factor)) {
        append_large(out, x, scale, places, drop_zeros);
        return;
    }
    char text[48];
    char* end = text + sizeof text;
    char* at;
    std::uint64_t den = size_of(Inside::den(x));
    UnsignedWide top = UnsignedWide{size_of(Inside::num(x))} * size_of(factor);
    if (top >> 64 == 0) {
        auto num = static_cast<std::uint64_t>(top);
        std::uint64_t steps = num / den, rest = num - steps * den;
        at = digits_before(end, steps + (rest >= den - rest), places + 1);
    } else {
        UnsignedWide steps = top / den, rest = top - steps * den;
        at = digits_before(end, steps + (rest >= den - rest), places + 1);
    }
    bool negative = (Inside::num(x) < 0) != (factor < 0);
    append_digits(out, negative, {at, static_cast<std::size_t>(end - at)}, places, drop_zeros);
}

void Exact::append_fixed(std::string& out, int places) const {
    append_rounded(out, *this, 1, places, false);
}

void Exact::append_decimal(std::string& out, int max_places) const {
    append_rounded(out, *this, 1, max_places, true);
}

void Exact::append_scaled(std::string& out, std::int64_t scale, int max_places) const {
    append_rounded(out, *this, scale, max_places, true);
}

void Exact::append_fraction(std::string& out) const {
    if (den_ < 0) {
        out += '?';
    } else if (den_ == 0) {
        const BigRatio& ratio = Inside::owned(*this);
        out += mp::numerator(ratio).str();
        if (mp::denominator(ratio) != 1) out += '/' + mp::denominator(ratio).str();
    } else {
        append_whole(out, num_);
        if (den_ == 1) return;
        out += '/';
        append_whole(out, den_);
    }
}

std::string Exact::fraction() const {
    std::string out;
    append_fraction(out);
    return out;
}

std::string Exact::fixed(int places) const {
    std::string out;
    append_fixed(out, places);
    return out;
}

std::string Exact::decimal(int max_places) const {
    std::string out;
    append_decimal(out, max_places);
    return out;
}

// How often 2 and 5 divide the number, and whether nothing else does.
template <class Whole>
static bool only_twos_and_fives(Whole x, int& places) {
    int twos = 0, fives = 0;
    for (; x % 2 == 0; x /= 2) ++twos;
    for (; x % 5 == 0; x /= 5) ++fives;
    places = std::max(twos, fives);
    return x == 1;
}

bool Exact::finite_decimal(int& places) const {
    if (den_ < 0) return false;
    return den_ == 0 ? only_twos_and_fives(BigWhole(mp::denominator(Inside::owned(*this))), places)
                     : only_twos_and_fives(den_, places);
}

std::string Exact::exactly() const {
    int places = 0;
    if (!known() || is_integer()) return fraction();
    if (finite_decimal(places) && places <= most_exact_places) return decimal(places);
    Exact size = abs(), whole = size.floor();
    if (whole.is_zero()) return fraction();
    std::string out = sign() < 0 ? "-" : "";
    whole.append_fraction(out);
    out += ' ';
    (size - whole).append_fraction(out);
    return out;
}

}  // namespace levigate
