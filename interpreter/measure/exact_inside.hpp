#pragma once
// The inside of Exact: only the sources of measure/ that carry large fractions include this, so
// that nobody else pays for compiling the multiprecision library.

#include "interpreter/measure/exact.hpp"

#include <boost/multiprecision/cpp_int.hpp>

namespace levigate {

using BigWhole = boost::multiprecision::cpp_int;
using BigRatio = boost::multiprecision::cpp_rational;

struct ExactInside {
    __extension__ using Wide = __int128;
    __extension__ using UnsignedWide = unsigned __int128;

    static bool small(const Exact& x) { return x.den_ > 0; }
    static std::int64_t num(const Exact& x) { return x.num_; }
    static std::int64_t den(const Exact& x) { return x.den_; }

    // The fraction that a large value owns.
    static const BigRatio& owned(const Exact& x) {
        return *reinterpret_cast<const BigRatio*>(static_cast<std::uintptr_t>(x.num_));
    }
    // Any known value as a large fraction.
    static BigRatio ratio(const Exact& x);
    // The one form of a value: two words if it fits, the heap if not, capped beyond the cap.
    static Exact value(BigRatio ratio);
    static Exact whole(const BigWhole& whole) { return value(BigRatio(whole)); }

    static Exact capped() { return {0, Exact::is_capped, Exact::Ready{}}; }
    static Exact by_zero() { return {0, Exact::is_by_zero, Exact::Ready{}}; }
    static Exact ready(std::int64_t num, std::int64_t den) { return {num, den, Exact::Ready{}}; }
};

}  // namespace levigate
