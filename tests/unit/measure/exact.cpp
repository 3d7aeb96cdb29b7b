// Exact numbers: where they move to the heap and back, and the values that stay unknown.
#include "interpreter/measure/exact.hpp"

#include <boost/multiprecision/cpp_int.hpp>
#include <catch2/catch.hpp>

#include <limits>
#include <utility>
#include <vector>

using levigate::Exact;

namespace {

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t smallest = std::numeric_limits<std::int64_t>::min();

// The multiprecision library is the outside reference for what 64 bits can't hold.
std::string big(boost::multiprecision::cpp_int x) { return x.str(); }
boost::multiprecision::cpp_int wide(std::int64_t x) { return x; }

bool no_comparison_holds(const Exact& a, const Exact& b) {
    return !(a == b) && !(a != b) && !(a < b) && !(a <= b) && !(a > b) && !(a >= b);
}

Exact capped_value() {
    Exact x(largest);
    while (x.known()) x *= x;
    return x;
}

}  // namespace

TEST_CASE("fractions are kept in lowest terms with the sign above", "[exact]") {
    CHECK(Exact(2, 4).fraction() == "1/2");
    CHECK(Exact(2, -4).fraction() == "-1/2");
    CHECK(Exact(-6, -3).fraction() == "2");
    CHECK(Exact(0, -7).fraction() == "0");
    CHECK(Exact(0, 7) == Exact());
    CHECK((Exact(1, 6) + Exact(1, 3)).fraction() == "1/2");
    CHECK((Exact(1, 6) - Exact(1, 6)).is_zero());
    CHECK((Exact(7, 10) * Exact(5, 14)).fraction() == "1/4");
    CHECK((Exact(1, 2) / Exact(-3, 4)).fraction() == "-2/3");
    CHECK((Exact() / 5 * Exact(1, 3)).fraction() == "0");
}

TEST_CASE("a tenth ten times is one, which doubles miss", "[exact]") {
    Exact sum;
    double rounded = 0;
    for (int i = 0; i < 10; ++i) {
        sum += Exact(1, 10);
        rounded += 0.1;
    }
    CHECK(sum == 1);
    CHECK(rounded != 1.0);
}

TEST_CASE("the border of 64 bits is crossed both ways without a wrap", "[exact]") {
    CHECK((Exact(largest) + 1).fraction() == big(wide(largest) + 1));
    CHECK((Exact(largest) + 1 - 1) == Exact(largest));
    CHECK((Exact(-largest) - 1).fraction() == big(wide(smallest)));
    CHECK((Exact(-largest) - 2).fraction() == big(wide(smallest) - 1));
    CHECK(Exact(smallest).fraction() == big(wide(smallest)));
    CHECK((-Exact(smallest)).fraction() == big(-wide(smallest)));
    CHECK(-Exact(smallest) == Exact(largest) + 1);
    CHECK(Exact(smallest) + 1 == Exact(-largest));
    CHECK(Exact(smallest, smallest) == 1);
    CHECK(Exact(1, smallest).fraction() == "-1/" + big(-wide(smallest)));
    CHECK(Exact(smallest, 2).fraction() == big(wide(smallest) / 2));
    CHECK(Exact(std::numeric_limits<std::uint64_t>::max()).fraction() == "18446744073709551615");
    CHECK(Exact(7u) == 7);
}

TEST_CASE("INT64_MIN has one form however it is reached", "[exact]") {
    // It is the one number whose negation wraps, so it must never be held in the two words.
    Exact product = Exact(-(std::int64_t{1} << 32)) * (std::int64_t{1} << 31);
    CHECK(product == Exact(smallest));
    CHECK((-product).fraction() == big(-wide(smallest)));
    CHECK(Exact(-largest) - 1 == Exact(smallest));
    CHECK(Exact(-largest, 15) - Exact(1, 15) == Exact(smallest, 15));
    // 5 × 1 + 3 × 3074457345618258601 = 2^63
    Exact sum = Exact(-1, 3) + Exact(-3074457345618258601, 5);
    CHECK(sum == Exact(smallest, 15));
    CHECK(sum.abs() == Exact(largest, 15) + Exact(1, 15));
}

TEST_CASE("products just over the border are exact, and demote again", "[exact]") {
    // 3037000500² is the first square beyond INT64_MAX, 2^32 × 2^32 wraps to exactly 0.
    CHECK((Exact(3037000499) * 3037000499).fraction() == "9223372030926249001");
    CHECK((Exact(3037000500) * 3037000500).fraction() == "9223372037000250000");
    Exact two32(std::int64_t{1} << 32);
    Exact two64 = two32 * two32;
    CHECK(two64.fraction() == "18446744073709551616");
    CHECK(two64 / two32 == two32);
    CHECK((1 / two32 / two32).fraction() == "1/18446744073709551616");
    CHECK(1 / two32 / two32 * two64 == 1);
    CHECK((two64 + Exact(1, 3) - two64) == Exact(1, 3));
    CHECK((1 / two32 / two32 + 1) > 1);
    CHECK((Exact(largest) / (largest - 1) * (largest - 1)) == Exact(largest));
    CHECK((Exact(1, largest) + Exact(1, largest - 1)).fraction() ==
          big(2 * wide(largest) - 1) + "/" + big(wide(largest) * (largest - 1)));
}

TEST_CASE("large values compare, copy and move", "[exact]") {
    Exact a = Exact(largest) * 3, b = Exact(largest) * 2;
    CHECK(b < a);
    CHECK(a > b);
    CHECK(a >= a);
    CHECK(a != b);
    CHECK(Exact(5) < b);
    CHECK(-a < Exact(-5));
    CHECK(a.sign() == 1);
    CHECK((-a).sign() == -1);
    CHECK((-a).abs() == a);

    Exact copy = a;
    CHECK(copy == a);
    copy = b;
    CHECK(copy == b);
    copy = *&copy;
    CHECK(copy == b);
    Exact moved = std::move(copy);
    CHECK(moved == b);
    copy = Exact(1);
    copy = std::move(moved);
    CHECK(copy == b);
    std::vector<Exact> many(3, a);
    many.insert(many.begin(), Exact(1, 2));
    many.erase(many.begin() + 1);
    CHECK(many.size() == 3);
    CHECK(many[0] + many[2] == a + Exact(1, 2));
}

TEST_CASE("comparison of close fractions does not overflow", "[exact]") {
    Exact a(largest - 1, largest), b(largest - 2, largest - 1);
    CHECK(b < a);
    CHECK_FALSE(a < b);
    CHECK(a > b);
    CHECK(b <= a);
    CHECK(a != b);
    CHECK(Exact(-1, 3) < Exact(-1, 4));
}

TEST_CASE("whole numbers", "[exact]") {
    std::int64_t out = 0;
    CHECK(Exact(8, 4).is_integer());
    CHECK_FALSE(Exact(7, 4).is_integer());
    CHECK((Exact(largest) * 4).is_integer());
    CHECK_FALSE((Exact(largest) * 4 + Exact(1, 2)).is_integer());
    CHECK((Exact(-42).to_int64(out) && out == -42));
    CHECK((Exact(smallest).to_int64(out) && out == smallest));
    CHECK_FALSE(Exact(1, 2).to_int64(out));
    CHECK_FALSE((Exact(largest) + 1).to_int64(out));
    CHECK(Exact(7, 2).floor() == 3);
    CHECK(Exact(-7, 2).floor() == -4);
    CHECK(Exact(-4).floor() == -4);
    CHECK((Exact(largest) * 2 + Exact(1, 2)).floor() == Exact(largest) * 2);
    CHECK((-(Exact(largest) * 2) - Exact(1, 2)).floor() == -(Exact(largest) * 2) - 1);
}

TEST_CASE("division by nothing gives a value that stays unknown", "[exact]") {
    Exact x = Exact(3) / 0;
    CHECK(x.by_zero());
    CHECK_FALSE(x.capped());
    CHECK_FALSE(x.known());
    CHECK(Exact(1, 0).by_zero());
    CHECK((Exact(largest) * 2 / Exact()).by_zero());
    CHECK((x + 1).by_zero());
    CHECK((1 - x).by_zero());
    CHECK((x * 0).by_zero());
    CHECK((0 / x).by_zero());
    CHECK((-x).by_zero());
    CHECK(x.floor().by_zero());
    CHECK(x.abs().by_zero());
    CHECK(x.round_half_up().by_zero());
    CHECK(steps_half_up(x, 1).by_zero());
    CHECK(steps_half_up(1, x).by_zero());
    CHECK(steps_half_up(Exact(1), 0).by_zero());
    CHECK(no_comparison_holds(x, x));
    CHECK(no_comparison_holds(x, 1));
    CHECK(no_comparison_holds(1, x));
    CHECK(no_comparison_holds(x, Exact(largest) * 2));
    CHECK(x.sign() == 0);
    CHECK_FALSE(x.is_zero());
    CHECK_FALSE(x.is_integer());
    std::int64_t out = 0;
    CHECK_FALSE(x.to_int64(out));
    for (const auto& text : {x.fraction(), x.fixed(2), x.decimal(2), x.exactly()})
        CHECK(text == "?");
}

TEST_CASE("beyond the digit cap a value is capped, and stays so", "[exact]") {
    Exact x = capped_value();
    CHECK(x.capped());
    CHECK_FALSE(x.by_zero());
    CHECK((x - x).capped());
    CHECK((x * 0).capped());
    CHECK((x / 0).capped());
    CHECK((0 / x).capped());
    CHECK((x + Exact(1, 0)).capped());
    CHECK((Exact(1, 0) + x).capped());
    CHECK((-x).capped());
    CHECK(x.floor().capped());
    CHECK(steps_half_up(x, Exact(1, 100)).capped());
    CHECK(no_comparison_holds(x, x));
    CHECK(no_comparison_holds(x, 1));
    CHECK(x.fraction() == "?");
    Exact copy = x, small(1, 2);
    small = copy;
    CHECK(small.capped());
}

TEST_CASE("a long sum of fractions is exact up to the cap", "[exact]") {
    // GROUND: the sum of 1/1 … 1/2000 has an 867-digit numerator.
    Exact sum;
    boost::multiprecision::cpp_rational reference;
    for (int i = 1; i <= 2000; ++i) {
        sum += Exact(1, i);
        reference += boost::multiprecision::cpp_rational(1, i);
    }
    CHECK(sum.known());
    CHECK(sum.fraction() == reference.str());
    CHECK(sum.fraction().find('/') == 867);
    for (int i = 2001; i <= 5000; ++i) sum += Exact(1, i);
    CHECK(sum.capped());
}

TEST_CASE("the cap lies where it is said to lie", "[exact]") {
    Exact ten999 = 1;
    for (int i = 0; i < 999; ++i) ten999 *= 10;
    CHECK(ten999.known());
    CHECK(ten999.fraction().size() == 1000);
    CHECK((1 / ten999).known());
    CHECK((ten999 * 100).capped());
    CHECK((1 / ten999 / 100).capped());
    CHECK((-ten999 * 100).capped());
    CHECK(ten999 * 9 - ten999 * 9 == 0);
}
