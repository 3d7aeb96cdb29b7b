// Quantities that the compiler checks: what must compile, what must not, and the trade's sums.
#include "interpreter/measure/quantities.hpp"

#include <catch2/catch.hpp>

#include <type_traits>

using namespace levigate;

namespace {

template <class A, class B>
concept adds = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept subtracts = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept multiplies = requires(A a, B b) {
    a* b;
};
template <class A, class B>
concept divides = requires(A a, B b) {
    a / b;
};
template <class A, class B>
concept compares = requires(A a, B b) {
    a == b;
    a < b;
};
template <class A, class B>
concept assigns = requires(A a, B b) {
    a = b;
};

// The concepts can hold at all, so that the refusals below mean something.
static_assert(adds<Mass, Mass> && subtracts<Share, Share> && multiplies<Share, Mass>);
static_assert(divides<Mass, Volume> && compares<Mass, Mass> && assigns<Mass, Mass>);

// A weight and a share don't add; a bare number is no quantity.
static_assert(!adds<Mass, Share> && !adds<Share, Mass> && !adds<Mass, Volume>);
static_assert(!adds<Mass, Exact> && !adds<Exact, Share> && !adds<Share, int>);
static_assert(!assigns<Mass, Exact> && !assigns<Share, Exact> && !assigns<Mass, int>);
static_assert(!std::is_convertible_v<Share, Mass> && !std::is_convertible_v<Volume, Mass>);
static_assert(!compares<Mass, Volume> && !compares<Share, Exact> && !compares<Mass, int>);
static_assert(!std::is_convertible_v<Mass, Exact> && !std::is_convertible_v<Exact, Share>);

// A share is a share of a mass and of nothing else.
static_assert(!multiplies<Volume, Share> && !multiplies<Share, Volume>);
static_assert(!multiplies<Money, Share> && !multiplies<Share, Count>);
static_assert(!divides<Volume, Share> && !divides<Share, Mass> && !divides<Share, Volume>);

// Readings of temperature don't add, scale or mix with differences of other things.
static_assert(!adds<TemperaturePoint, TemperaturePoint>);
static_assert(!multiplies<TemperaturePoint, Exact> && !multiplies<int, TemperaturePoint>);
static_assert(!subtracts<TemperatureStep, TemperaturePoint>);
static_assert(!adds<TemperaturePoint, Exact> && !adds<TemperaturePoint, Mass>);

// What comes out.
static_assert(std::is_same_v<decltype(Share() * Mass()), Mass>);
static_assert(std::is_same_v<decltype(Mass() * Share()), Mass>);
static_assert(std::is_same_v<decltype(Mass() / Share()), Mass>);
static_assert(std::is_same_v<decltype(Mass() / Mass()), Share>);
static_assert(std::is_same_v<decltype(Share() * Share()), Share>);
static_assert(std::is_same_v<decltype(Share() / Share()), Ratio>);
static_assert(std::is_same_v<decltype(Volume() * Density()), Mass>);
static_assert(std::is_same_v<decltype(Mass() / Density()), Volume>);
static_assert(std::is_same_v<decltype(Mass() * VolumePerMass()), Volume>);
static_assert(std::is_same_v<decltype(Exact(1) / Density()), VolumePerMass>);
static_assert(std::is_same_v<decltype(MoneyPerMass() * Mass()), Money>);
static_assert(std::is_same_v<decltype(MoneyPerVolume() / Density()), MoneyPerMass>);
static_assert(std::is_same_v<decltype(Money() / MoneyPerCount()), Count>);
static_assert(std::is_same_v<decltype(2 * Share() + Share() / 3), Share>);

// No cost beyond the number itself.
static_assert(sizeof(Mass) == sizeof(Exact));

struct Line {
    Mass mass;
    Share share;
    Density density;
};

}  // namespace

TEST_CASE("quantities start at zero and live in plain structs", "[quantities]") {
    Line line;
    CHECK(line.mass == grams(0));
    CHECK(line.share == percent(0));
    line = {grams(5), percent(18), grams_per_millilitre(Exact(17, 10))};
    Line copy = line;
    CHECK(copy.mass == grams(5));
    CHECK(in_grams_per_millilitre(copy.density) == Exact(17, 10));
}

TEST_CASE("shares of a mass", "[quantities]") {
    CHECK(percent(18) * grams(50) == grams(9));
    CHECK(grams(50) * percent(18) == grams(9));
    CHECK(grams(9) / percent(18) == grams(50));
    CHECK(share_of(grams(9), grams(50)) == percent(18));
    CHECK(percent(50) * percent(50) == share(Exact(1, 4)));
    CHECK(as_fraction(percent(18)) == Exact(9, 50));
    CHECK(in_percent(share(Exact(1, 3))) == Exact(100, 3));
    CHECK(as_fraction(grams(1) / grams(0)).by_zero());
    CHECK(percent(100) - percent(18) == percent(82));
    CHECK(-grams(1) < Mass());
    Mass sum;
    sum += grams(Exact(1, 3)) * 3;
    sum -= grams(1);
    CHECK(sum == Mass());
}

TEST_CASE("volumes by density", "[quantities]") {
    // check_values.md, section 2 (PSG rows): 45 g at 1.25 is 36 mL; 240 mL at 0.81 is 194.4 g.
    CHECK(grams(45) / grams_per_millilitre(Exact(5, 4)) == millilitres(36));
    CHECK(millilitres(240) * grams_per_millilitre(Exact(81, 100)) == grams(Exact(1944, 10)));
    Exact parts = millilitres(3) / millilitres(4);
    CHECK(parts == Exact(3, 4));
}

TEST_CASE("prices", "[quantities]") {
    MoneyPerMass price = money(Exact(1420, 100)) / grams(30);
    CHECK(price * grams(15) == money(Exact(710, 100)));
    MoneyPerCount each = money(10) / pieces(4);
    CHECK(each * pieces(2) == money(5));
}

TEST_CASE("temperatures", "[quantities]") {
    TemperaturePoint melt{75}, pour{62};
    CHECK(melt - pour == kelvins(13));
    CHECK(pour + kelvins(13) == melt);
    CHECK(kelvins(13) + pour == melt);
    CHECK(melt - kelvins(13) == pour);
}
