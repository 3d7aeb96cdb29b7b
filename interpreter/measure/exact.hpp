#pragma once
// Exact numbers: fractions that never round, wrap or throw.
//
// An Exact is 16 bytes. Almost every number of a formula is a small fraction, so the two words
// hold numerator and denominator themselves, in lowest terms; what grows beyond 64 bits moves
// silently to the heap and comes back as soon as it fits again. The second word tells which:
//
//     den_ >= 1   the fraction num_/den_, in lowest terms, |num_| <= INT64_MAX, zero is 0/1
//     den_ == 0   num_ is the address of a fraction of any size, owned; it does not fit above
//     den_ == -1  capped: numerator or denominator passed digit_cap digits
//     den_ == -2  by zero: something was divided by nothing
//
// Each value has one form only, so a large value never equals a small one. The last two are
// unknown values. They are sticky: whatever is computed from one is unknown too (capped before by
// zero where both meet), and every comparison with one, also == and !=, is false. So one cause
// gives one message: whoever made the number says so, and all later checks pass over it.

#include <bit>
#include <concepts>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

namespace levigate {

// A numerator or a denominator of more decimal digits than this makes a value "capped". The size
// is taken in bits: 1000 digits can need 3322 of them, and a number of up to 3322 bits may stay.
inline constexpr int digit_cap = 1000;
inline constexpr unsigned bit_cap = 3322;

class Exact {
public:
    constexpr Exact() = default;
    constexpr Exact(std::int64_t whole) : num_(whole) {
        if (whole == smallest) [[unlikely]]
            become_ratio(whole, 1);
    }
    template <std::unsigned_integral T>
    constexpr Exact(T whole) : num_(static_cast<std::int64_t>(whole)) {
        if (num_ < 0) [[unlikely]]
            become_unsigned(whole);
    }
    template <std::floating_point T>
    Exact(T) = delete;  // a double has rounded already
    constexpr Exact(std::int64_t num, std::int64_t den) : num_(num), den_(den) {
        if (den <= 0 || num == smallest) [[unlikely]]
            become_ratio(num, den);
        else
            lower();
    }

    constexpr Exact(const Exact& from) : num_(from.num_), den_(from.den_) {
        if (den_ == 0) [[unlikely]]
            clone();
    }
    constexpr Exact(Exact&& from) noexcept : num_(from.num_), den_(from.den_) {
        if (den_ == 0) [[unlikely]]
            from.forget();
    }
    constexpr Exact& operator=(const Exact& from) {
        if (den_ == 0 || from.den_ == 0) [[unlikely]]
            return assign(from);
        num_ = from.num_;
        den_ = from.den_;
        return *this;
    }
    constexpr Exact& operator=(Exact&& from) noexcept {
        std::int64_t num = num_, den = den_;
        num_ = from.num_;
        den_ = from.den_;
        from.num_ = num;  // the old value goes with the one that is moved from
        from.den_ = den;
        return *this;
    }
    constexpr ~Exact() {
        if (den_ == 0) [[unlikely]]
            release();
    }

    bool capped() const { return den_ == is_capped; }
    bool by_zero() const { return den_ == is_by_zero; }
    bool known() const { return den_ >= 0; }

    // -1, 0 or 1; 0 for an unknown value.
    int sign() const {
        if (den_ == 0) [[unlikely]]
            return sign_large();
        return den_ < 0 ? 0 : (num_ > 0) - (num_ < 0);
    }
    bool is_zero() const { return num_ == 0 && den_ == 1; }
    bool is_integer() const { return den_ == 1 || (den_ == 0 && is_integer_large()); }
    // True, and out is set, if the value is whole and fits.
    bool to_int64(std::int64_t& out) const;

    // To a whole number: the greatest that is not above the value (-2.5 -> -3), and the least that
    // is not below it (-2.5 -> -2). An unknown value stays what it is.
    Exact floor() const;
    Exact ceil() const;
    // To the nearest whole number; a half goes away from zero (2.5 -> 3, -2.5 -> -3). Amounts are
    // never negative, where this is "half up"; below zero it is the rule of the half_up column of
    // the facts' rounding table.
    Exact round_half_up() const;
    Exact abs() const { return sign() < 0 ? -*this : *this; }

    friend Exact operator+(const Exact& a, const Exact& b) {
        Exact out;
        if (a.den_ > 0 && b.den_ > 0 && out.sum(a.num_, a.den_, b.num_, b.den_)) [[likely]]
            return out;
        return large(Step::add, a, b);
    }
    friend Exact operator-(const Exact& a, const Exact& b) {
        Exact out;
        if (a.den_ > 0 && b.den_ > 0 && out.sum(a.num_, a.den_, -b.num_, b.den_)) [[likely]]
            return out;
        return large(Step::subtract, a, b);
    }
    friend Exact operator*(const Exact& a, const Exact& b) {
        Exact out;
        if (a.den_ > 0 && b.den_ > 0 && out.product(a.num_, a.den_, b.num_, b.den_)) [[likely]]
            return out;
        return large(Step::multiply, a, b);
    }
    friend Exact operator/(const Exact& a, const Exact& b) {
        Exact out;
        if (a.den_ > 0 && b.den_ > 0 && b.num_ != 0) [[likely]] {
            bool flip = b.num_ < 0;
            if (out.product(a.num_, a.den_, flip ? -b.den_ : b.den_, flip ? -b.num_ : b.num_))
                [[likely]]
                return out;
        }
        return large(Step::divide, a, b);
    }
    Exact operator-() const {
        if (den_ == 0) [[unlikely]]
            return large(Step::subtract, Exact(), *this);
        return Exact(den_ < 0 ? num_ : -num_, den_, Ready{});
    }
    Exact& operator+=(const Exact& b) { return *this = *this + b; }
    Exact& operator-=(const Exact& b) { return *this = *this - b; }
    Exact& operator*=(const Exact& b) { return *this = *this * b; }
    Exact& operator/=(const Exact& b) { return *this = *this / b; }

    friend bool operator==(const Exact& a, const Exact& b) {
        if (a.den_ == 0 && b.den_ == 0) [[unlikely]]
            return order(a, b) == 0;
        return a.den_ > 0 && a.den_ == b.den_ && a.num_ == b.num_;
    }
    friend bool operator!=(const Exact& a, const Exact& b) {
        return a.known() && b.known() && !(a == b);
    }
    friend bool operator<(const Exact& a, const Exact& b) {
        if (a.den_ <= 0 || b.den_ <= 0) [[unlikely]]
            return comparable(a, b) && order(a, b) < 0;
        if (a.den_ == b.den_) return a.num_ < b.num_;
        return Wide{a.num_} * b.den_ < Wide{b.num_} * a.den_;
    }
    friend bool operator>(const Exact& a, const Exact& b) { return b < a; }
    friend bool operator<=(const Exact& a, const Exact& b) { return comparable(a, b) && !(b < a); }
    friend bool operator>=(const Exact& a, const Exact& b) { return b <= a; }

    // How many steps the value is, to the nearest whole number, a half away from zero: what a
    // balance that reads `step` shows. A step of zero gives a by_zero() value.
    friend Exact steps_half_up(const Exact& value, const Exact& step);

    // Text. An unknown value is written "?" by all of these.
    // "32/75", "6", "-1/2".
    void append_fraction(std::string& out) const;
    std::string fraction() const;
    // Exactly so many places, half up: "7.10". Nothing rounds to "-0.00".
    void append_fixed(std::string& out, int places) const;
    std::string fixed(int places) const;
    // At most so many places, half up, closing zeros dropped: "7.1111", "6", "0.5".
    void append_decimal(std::string& out, int max_places) const;
    std::string decimal(int max_places) const;
    // value × scale, as append_decimal writes it: append_scaled(out, 100, 2) is a percentage.
    void append_scaled(std::string& out, std::int64_t scale, int max_places) const;
    // The shortest form that loses nothing: a decimal where one of at most 12 places is exact
    // ("0.125"), else a fraction ("2 1/3").
    std::string exactly() const;
    // Whether some number of decimal places is exact, and the least such number.
    bool finite_decimal(int& places) const;

private:
    friend struct ExactInside;  // exact_inside.hpp: the sources of this class

    __extension__ using Wide = __int128;
    __extension__ using UnsignedWide = unsigned __int128;
    enum class Step { add, subtract, multiply, divide };
    struct Ready {};  // marks words that are in their final form
    static constexpr std::int64_t smallest = std::numeric_limits<std::int64_t>::min();
    static constexpr std::int64_t is_capped = -1;
    static constexpr std::int64_t is_by_zero = -2;

    constexpr Exact(std::int64_t num, std::int64_t den, Ready) : num_(num), den_(den) {}

    static bool comparable(const Exact& a, const Exact& b) { return a.known() && b.known(); }
    // The greatest common divisor of |a| and b >= 1. One division brings both to like sizes, then
    // by halves without branches: here a third faster than std::gcd (measured).
    static constexpr std::int64_t common(std::int64_t a, std::int64_t b) {
        if (b == 1 || a == 0) return b;
        auto y = static_cast<std::uint64_t>(b);
        std::uint64_t x = static_cast<std::uint64_t>(a < 0 ? -a : a);
        if (x >= y) {
            x %= y;
            if (x == 0) return b;
        } else if (x < y >> 8) {
            y %= x;
            if (y == 0) return static_cast<std::int64_t>(x);
        }
        int twos = std::countr_zero(x | y);
        x >>= std::countr_zero(x);
        do {
            y >>= std::countr_zero(y);
            std::uint64_t apart = x > y ? x - y : y - x;
            x = x < y ? x : y;
            y = apart;
        } while (y != 0);
        return static_cast<std::int64_t>(x << twos);
    }

    constexpr void lower() {
        std::int64_t g = common(num_, den_);
        if (g == 1) return;
        num_ /= g;
        den_ /= g;
    }

    // These two set *this and say whether the outcome fits two words; if not, *this is untouched.
    // (Where only a cancelled form would fit they may decline: the large way finds it.)
    bool sum(std::int64_t an, std::int64_t ad, std::int64_t bn, std::int64_t bd) {
        if (ad == bd) {
            std::int64_t num;
            if (__builtin_add_overflow(an, bn, &num) || num == smallest) return false;
            num_ = num;
            den_ = ad;
            lower();
            return true;
        }
        // With g common to both denominators only a factor of g can cancel (Knuth 4.5.1).
        std::int64_t g = common(ad, bd);
        if (g != 1) {
            ad /= g;
            bd /= g;
        }
        Wide wide = Wide{an} * bd + Wide{bn} * ad;
        auto num = static_cast<std::int64_t>(wide);
        if (num != wide) return false;
        if (g != 1) {
            std::int64_t cancel = common(num, g);
            if (cancel != 1) {
                num /= cancel;
                g /= cancel;
            }
        }
        return settle(num, 1, ad, bd, g);
    }

    bool product(std::int64_t an, std::int64_t ad, std::int64_t bn, std::int64_t bd) {
        // By a whole number, as most amounts are multiplied: only that one can cancel.
        if (bd == 1 && bn != 0) {
            const std::int64_t g = common(bn, ad);
            return settle(an, bn / g, ad / g, 1, 1);
        }
        // Most often both products fit, and one divisor does.
        if (settle(an, bn, ad, bd, 1)) {
            lower();
            return true;
        }
        std::int64_t g = common(an, bd);
        if (g != 1) {
            an /= g;
            bd /= g;
        }
        g = common(bn, ad);
        if (g != 1) {
            bn /= g;
            ad /= g;
        }
        return settle(an, bn, ad, bd, 1);
    }

    // Sets a × b / (c × d × e), as it stands.
    bool settle(std::int64_t a, std::int64_t b, std::int64_t c, std::int64_t d, std::int64_t e) {
        std::int64_t num, den;
        if (__builtin_mul_overflow(a, b, &num) || num == smallest ||
            __builtin_mul_overflow(c, d, &den) || __builtin_mul_overflow(den, e, &den))
            return false;
        num_ = num;
        den_ = den;
        return true;
    }

    constexpr void forget() {
        num_ = 0;
        den_ = 1;
    }
    // The seldom ways, in exact.cpp.
    [[gnu::cold]] static Exact large(Step step, const Exact& a, const Exact& b);
    [[gnu::cold]] static int order(const Exact& a, const Exact& b);
    [[gnu::cold]] void become_ratio(std::int64_t num, std::int64_t den);
    [[gnu::cold]] void become_unsigned(std::uint64_t whole);
    [[gnu::cold]] void clone();
    [[gnu::cold]] void release();
    [[gnu::cold]] Exact& assign(const Exact& from);
    [[gnu::cold]] int sign_large() const;
    [[gnu::cold]] bool is_integer_large() const;

    std::int64_t num_ = 0;
    std::int64_t den_ = 1;
};

static_assert(sizeof(Exact) == 16);

Exact steps_half_up(const Exact& value, const Exact& step);

// A number as a person writes one: "18", "0.18", ".5", "1/3", "2 1/2", "½", "2½", "2 ½", "1⁄2",
// any Unicode blanks between a whole number and its fraction. Nothing else: no sign, no exponent,
// no comma, no blanks around it. "1/0" gives a by_zero() value, more digits than digit_cap on
// either side of the fraction a capped() one, in time linear in the text.
std::optional<Exact> read_number(std::string_view text);

// The same number, written the one way: ".50" as "0.5", "½" as "1/2", "2½" as "2 1/2". A decimal
// stays one, and a fraction keeps its numbers. Empty where it is no number.
std::string canonical_number(std::string_view text);

}  // namespace levigate
