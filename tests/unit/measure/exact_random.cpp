// The 64-bit way of Exact against the multiprecision library, on random operations.
#include "interpreter/measure/exact.hpp"

#include <boost/multiprecision/cpp_int.hpp>
#include <catch2/catch.hpp>

#include <cstdlib>
#include <random>

using levigate::Exact;
using Reference = boost::multiprecision::cpp_rational;

namespace {

struct Pair {
    Exact exact;
    Reference reference;
};

// Numbers of every length, so that small, border and large cases all come up; some round ones as
// formulas have them.
Pair random_pair(std::mt19937_64& random) {
    static constexpr std::int64_t usual[] = {1, 2, 3, 4, 5, 8, 10, 16, 25, 75, 100, 1000, 10000};
    auto any = [&] {
        auto x = static_cast<std::int64_t>(random() >> (1 + random() % 63));
        return random() % 4 == 0 ? usual[random() % std::size(usual)] : x;
    };
    std::int64_t num = any(), den = any();
    if (den == 0) den = 1;
    if (random() % 2 == 0) num = -num;
    return {Exact(num, den), Reference(num, den)};
}

bool same(const Exact& exact, const Reference& reference) {
    return exact.known() && exact.fraction() == reference.str();
}

bool operation_agrees(unsigned which, const Pair& a, const Pair& b, Pair& out) {
    switch (which) {
        case 0: out = {a.exact + b.exact, a.reference + b.reference}; break;
        case 1: out = {a.exact - b.exact, a.reference - b.reference}; break;
        case 2: out = {a.exact * b.exact, a.reference * b.reference}; break;
        default:
            if (b.reference.is_zero()) return (a.exact / b.exact).by_zero();
            out = {a.exact / b.exact, a.reference / b.reference};
    }
    return same(out.exact, out.reference);
}

bool order_agrees(const Pair& a, const Pair& b) {
    int order = a.reference.compare(b.reference);
    return (a.exact < b.exact) == (order < 0) && (a.exact == b.exact) == (order == 0) &&
           (a.exact != b.exact) == (order != 0) && (a.exact <= b.exact) == (order <= 0) &&
           (a.exact > b.exact) == (order > 0) && (a.exact >= b.exact) == (order >= 0) &&
           a.exact.sign() == a.reference.sign();
}

// Half away from zero, computed in another way than Exact does: by twice the size plus one.
Reference rounded(const Reference& x) {
    boost::multiprecision::cpp_int num = abs(numerator(x)), den = denominator(x);
    Reference size = (2 * num + den) / (2 * den);
    return x.sign() < 0 ? Reference(-size) : size;
}

}  // namespace

TEST_CASE("200,000 random operations agree with the multiprecision library", "[exact]") {
    const char* chosen = std::getenv("LEVIGATE_SEED");
    const std::uint64_t seed =
        chosen ? std::strtoull(chosen, nullptr, 10) : std::random_device{}();
    std::mt19937_64 random(seed);
    WARN("seed of the random operations: " << seed);
    Pair kept = random_pair(random);
    for (int i = 0; i < 200'000; ++i) {
        Pair a = random() % 3 == 0 ? kept : random_pair(random), b = random_pair(random);
        Pair out = kept;
        unsigned which = random() % 4;
        if (!operation_agrees(which, a, b, out)) {
            FAIL("operation " << which << " on " << a.reference << " and " << b.reference
                              << " after " << i << " with seed " << seed);
        }
        if (!order_agrees(a, b) || !order_agrees(a, out)) {
            FAIL("order of " << a.reference << " and " << b.reference << ", seed " << seed);
        }
        // What was computed goes on being used, until it is far beyond 64 bits.
        kept = out.exact.fraction().size() < 60 ? out : random_pair(random);
    }
}

TEST_CASE("random roundings agree with the multiprecision library", "[exact]") {
    std::mt19937_64 random(20240229);
    for (int i = 0; i < 20'000; ++i) {
        Pair value = random_pair(random), step = random_pair(random);
        if (step.reference.is_zero()) continue;
        Reference due = rounded(value.reference / step.reference);
        INFO(value.reference << " in steps of " << step.reference);
        if (!same(steps_half_up(value.exact, step.exact), due)) FAIL("steps");
        if (!same(value.exact.round_half_up(), rounded(value.reference))) FAIL("whole");
        Reference hundredths = rounded(value.reference * 100);
        std::string digits = boost::multiprecision::cpp_int(abs(numerator(hundredths))).str();
        if (digits.size() < 3) digits.insert(0, 3 - digits.size(), '0');
        digits.insert(digits.size() - 2, ".");
        if (hundredths.sign() < 0) digits.insert(0, "-");
        if (value.exact.fixed(2) != digits) FAIL("two places: " << value.exact.fixed(2));
    }
}
