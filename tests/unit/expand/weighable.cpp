// Least weights, rounding errors, aliquots and dilutions to keep: by hand, and as properties of
// random numbers.

#include <catch2/catch.hpp>

#include <random>

#include "interpreter/expand/weighable.hpp"

using namespace levigate;

namespace {

Mass g(std::int64_t num, std::int64_t den = 1) { return grams(Exact(num, den)); }

constexpr unsigned seed_of_weights = 20261129;

/// A balance and a need that is too small for it.
struct Small {
    Scale scale;
    Mass need;
};
Small some(std::mt19937& random) {
    const std::int64_t parts[] = {1, 10, 20, 50, 100, 1000, 10000};
    Small out;
    out.scale.step = g(1, parts[random() % 7]);
    const auto least = static_cast<std::int64_t>(random() % 200 + 4);
    out.scale.least = grams(in_grams(out.scale.step) * Exact(least, 3));
    const Exact under = out.scale.least_steps() - Exact(1, 2);
    out.need = grams(in_grams(out.scale.step) * under *
                     Exact(static_cast<std::int64_t>(random() % 997 + 1), 998));
    return out;
}

}  // namespace

TEST_CASE("the largest of all least weights counts", "[weighable]") {
    Reading reading;  // 0.01 g
    CHECK_FALSE(least_weight(reading));
    reading.repeatability = g(1, 100);
    CHECK_FALSE(least_weight(reading));  // nobody asks for it
    reading.error = percent(5);          // 0.01 ÷ 0.05
    REQUIRE(least_weight(reading));
    CHECK(in_grams(least_weight(reading)->mass) == Exact(1, 5));
    CHECK(least_weight(reading)->by == LeastBy::error);
    reading.least = g(3, 10);
    CHECK(least_weight(reading)->by == LeastBy::stated);
    reading.least = g(1, 10);
    CHECK(least_weight(reading)->by == LeastBy::error);
    reading.usp41 = true;  // 2000 × 0.01
    CHECK(in_grams(least_weight(reading)->mass) == 20);
    reading.repeatability.reset();  // 2000 × 0.41 × 0.01
    CHECK(in_grams(least_weight(reading)->mass) == Exact(82, 10));
    CHECK(least_weight(reading)->by == LeastBy::usp41);
}

TEST_CASE("what a reading is off by", "[weighable]") {
    CHECK(off_by(g(5, 100), g(48, 1000)) == Exact(1, 24));
    CHECK(off_by(g(0), g(3, 100)) == -1);
    CHECK(off_by(g(2), g(2)).is_zero());
    CHECK(off_by(g(0), g(0)).is_zero());
    CHECK_FALSE(off_by(g(1), g(0)).known());
}

TEST_CASE("an aliquot whose mixture can't be weighed", "[weighable]") {
    // 12 times 10 mg are 120 mg; 120 mg of the mixture of 1440 mg are taken (facts, ALI01)
    const Mass need = g(10, 1000), least = g(120, 1000), step = g(1, 1000);
    CHECK(aliquot(need, {step, least, g(1440, 1000)}));
    CHECK_FALSE(aliquot(need, {step, least, g(1439, 1000)}));
    CHECK_FALSE(aliquot(g(0), {step, least}));
    CHECK_FALSE(aliquot(least, {step, least}));
    CHECK_FALSE(aliquot(g(1, 10000000), {step, least}));  // weaker than 1 in 1000
    // just under the least, the diluent would be too little: more is taken. 2 × 100 = 200 mg;
    // ≥ (200 + 120) × 100 ÷ 200 = 160 mg are taken, which leaves 160 × 2 − 200 = 120 mg
    const auto near = aliquot(g(100, 1000), {step, least});
    REQUIRE(near);
    CHECK(in_grams(near->take) == Exact(160, 1000));
    CHECK(in_grams(near->with) == Exact(120, 1000));
}

TEST_CASE("every aliquot can be weighed, and holds what is needed", "[weighable]") {
    INFO("seed " << seed_of_weights);
    std::mt19937 random(seed_of_weights);
    int made_of_it = 0;
    for (int round = 0; round < 20000; ++round) {
        const auto [scale, need] = some(random);
        const auto made = aliquot(need, scale);
        if (!made) {
            REQUIRE(aliquot_factor(need, scale.mass(scale.least_steps())) > 1000);
            continue;
        }
        ++made_of_it;
        for (const Mass& one : {made->weigh, made->with, made->take}) {
            REQUIRE((in_grams(one) / in_grams(scale.step)).is_integer());
            REQUIRE(in_grams(one) >= in_grams(scale.least));
        }
        REQUIRE(in_grams(made->take) > in_grams(need));
        REQUIRE(in_grams(made->take) <= in_grams(made->weigh + made->with));
        // half a step of the diluent is the only error there is
        const Exact off = off_by(made->held(), need).abs();
        const Exact whole = in_grams(made->weigh + made->with);
        REQUIRE(off <= in_grams(scale.step) / 2 / whole);
        // no smaller factor would do
        REQUIRE((made->factor - 1) * in_grams(need) < in_grams(scale.mass(scale.least_steps())));
    }
    CHECK(made_of_it > 15000);
}

TEST_CASE("every dilution to keep can be prepared and taken from", "[weighable]") {
    INFO("seed " << seed_of_weights);
    std::mt19937 random(seed_of_weights);
    int taken_of_it = 0;
    for (int round = 0; round < 20000; ++round) {
        const auto [scale, need] = some(random);
        const Mass base =
            grams(in_grams(scale.least) * Exact(static_cast<std::int64_t>(random() % 60), 3));
        for (const std::int64_t parts : stock_strengths) {
            const auto taken = taken_of_stock(need, base, parts, scale);
            if (!taken) continue;
            ++taken_of_it;
            const Exact least = scale.least_steps();
            REQUIRE(*taken >= least);
            const Exact left = in_grams(base) - in_grams(need) * (parts - 1);
            const Exact reads = steps_half_up(left, in_grams(scale.step));
            REQUIRE(left.sign() >= 0);
            REQUIRE((left.is_zero() || reads >= least));
            const auto weigh = stock_to_prepare(scale.mass(*taken), parts, scale);
            REQUIRE(weigh);
            REQUIRE(weigh->is_integer());
            REQUIRE(*weigh >= least);
            REQUIRE(*weigh * (parts - 1) >= least);
            REQUIRE(*weigh * parts >= *taken);
            // one step less would not do
            const Exact less = *weigh - 1;
            REQUIRE((less < least || less * (parts - 1) < least || less * parts < *taken));
        }
    }
    CHECK(taken_of_it > 1000);
}

TEST_CASE("dilutions by hand", "[weighable]") {
    // 0.02 g on steps of 0.01 g, from 0.2 g on: 1 in 10 takes 0.20 g and 0.18 g of the base
    const Scale scale{g(1, 100), g(1, 5)};
    CHECK_FALSE(taken_of_stock(g(2, 100), g(5), 5, scale));
    REQUIRE(taken_of_stock(g(2, 100), g(5), 10, scale));
    CHECK(*taken_of_stock(g(2, 100), g(5), 10, scale) == 20);
    CHECK(taken_of_stock(g(2, 100), g(18, 100), 10, scale));        // nothing is left of the base
    CHECK_FALSE(taken_of_stock(g(2, 100), g(17, 100), 10, scale));  // not so much is there
    CHECK_FALSE(taken_of_stock(g(2, 100), g(30, 100), 10, scale));  // 0.12 g are left
    CHECK(taken_of_stock(g(2, 100), g(38, 100), 10, scale));        // 0.20 g are left
    // 0.2 g of the one make 2 g
    CHECK(*stock_to_prepare(g(1, 5), 10, scale) == 20);
    CHECK(*stock_to_prepare(g(201, 100), 10, scale) == 21);
    CHECK_FALSE(stock_to_prepare(g(1, 5), 10, {g(1, 100), g(1, 5), g(199, 100)}));
    CHECK(stock_to_prepare(g(1, 5), 10, {g(1, 100), g(1, 5), g(2)}));
}
