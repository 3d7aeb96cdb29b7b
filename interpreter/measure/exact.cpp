#include "interpreter/measure/exact.hpp"

#include "interpreter/measure/exact_inside.hpp"

#include <memory>
#include <utility>

namespace levigate {
namespace mp = boost::multiprecision;

using Inside = ExactInside;

static constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();

static bool fits(const BigWhole& x) { return x >= -largest && x <= largest; }

static std::size_t bits(const BigWhole& x) { return x.is_zero() ? 0 : mp::msb(mp::abs(x)) + 1; }

BigRatio ExactInside::ratio(const Exact& x) {
    return x.den_ == 0 ? owned(x) : BigRatio(x.num_, x.den_);
}

Exact ExactInside::value(BigRatio ratio) {
    BigWhole num = mp::numerator(ratio), den = mp::denominator(ratio);
    if (fits(num) && fits(den))
        return ready(num.convert_to<std::int64_t>(), den.convert_to<std::int64_t>());
    if (bits(num) > bit_cap || bits(den) > bit_cap) return capped();
    auto* owned = std::make_unique<BigRatio>(std::move(ratio)).release();
    return ready(static_cast<std::int64_t>(reinterpret_cast<std::uintptr_t>(owned)), 0);
}

void Exact::release() {
    std::unique_ptr<const BigRatio> owned(&Inside::owned(*this));
    forget();
}

void Exact::clone() {
    auto* owned = std::make_unique<BigRatio>(Inside::owned(*this)).release();
    num_ = static_cast<std::int64_t>(reinterpret_cast<std::uintptr_t>(owned));
}

Exact& Exact::assign(const Exact& from) {
    Exact copy = from;  // first, for `from` may be *this
    return *this = std::move(copy);
}

void Exact::become_ratio(std::int64_t num, std::int64_t den) {
    forget();
    // Large on both sides: the library negates INT64_MIN where one is a plain 64-bit number.
    *this = den == 0 ? Inside::by_zero()
                     : Inside::value(BigRatio(BigWhole(num)) / BigRatio(BigWhole(den)));
}

void Exact::become_unsigned(std::uint64_t whole) {
    forget();
    *this = Inside::whole(BigWhole(whole));
}

Exact Exact::large(Step step, const Exact& a, const Exact& b) {
    if (a.capped() || b.capped()) return Inside::capped();
    if (!a.known() || !b.known()) return Inside::by_zero();
    BigRatio left = Inside::ratio(a), right = Inside::ratio(b);
    switch (step) {
        case Step::add: return Inside::value(left + right);
        case Step::subtract: return Inside::value(left - right);
        case Step::multiply: return Inside::value(left * right);
        case Step::divide: break;
    }
    return right.is_zero() ? Inside::by_zero() : Inside::value(left / right);
}

int Exact::order(const Exact& a, const Exact& b) {
    return Inside::ratio(a).compare(Inside::ratio(b));
}

int Exact::sign_large() const { return Inside::owned(*this).sign(); }

bool Exact::is_integer_large() const { return mp::denominator(Inside::owned(*this)) == 1; }

bool Exact::to_int64(std::int64_t& out) const {
    if (den_ == 1) {
        out = num_;
        return true;
    }
    // The one whole number of 64 bits that two words don't hold.
    if (den_ != 0 || Inside::owned(*this) != BigRatio(smallest)) return false;
    out = smallest;
    return true;
}

Exact Exact::floor() const {
    if (den_ > 1) return {num_ / den_ - (num_ < 0 ? 1 : 0), 1, Ready{}};
    if (den_ != 0) return *this;
    BigWhole num = mp::numerator(Inside::owned(*this)), den = mp::denominator(Inside::owned(*this));
    BigWhole whole, rest;
    mp::divide_qr(num, den, whole, rest);
    return Inside::whole(rest < 0 ? BigWhole(whole - 1) : whole);
}

Exact Exact::ceil() const { return -(-*this).floor(); }

Exact Exact::round_half_up() const { return steps_half_up(*this, Exact(1)); }

static Exact steps_large(const Exact& value, const Exact& step) {
    Exact quotient = value / step;
    if (!quotient.known()) return quotient;
    Exact size = (quotient.abs() + Exact(1, 2)).floor();
    return quotient.sign() < 0 ? -size : size;
}

Exact steps_half_up(const Exact& value, const Exact& step) {
    using Wide = Exact::UnsignedWide;
    if (value.den_ <= 0 || step.den_ <= 0 || step.num_ == 0) return steps_large(value, step);
    std::uint64_t a = static_cast<std::uint64_t>(value.num_ < 0 ? -value.num_ : value.num_);
    std::uint64_t b = static_cast<std::uint64_t>(step.num_ < 0 ? -step.num_ : step.num_);
    Wide top = Wide{a} * static_cast<std::uint64_t>(step.den_);
    Wide bottom = Wide{b} * static_cast<std::uint64_t>(value.den_);
    std::uint64_t steps;
    if ((top | bottom) >> 63 == 0) {
        auto t = static_cast<std::uint64_t>(top), u = static_cast<std::uint64_t>(bottom);
        steps = t / u;
        steps += t - steps * u >= u - (t - steps * u);
    } else {
        Wide whole = top / bottom, rest = top - whole * bottom;
        whole += rest >= bottom - rest;
        if (whole > static_cast<Wide>(largest)) return steps_large(value, step);
        steps = static_cast<std::uint64_t>(whole);
    }
    auto size = static_cast<std::int64_t>(steps);
    return {(value.num_ < 0) != (step.num_ < 0) ? -size : size, 1, Exact::Ready{}};
}

}  // namespace levigate
