// What the balance reads: the rule of the design page, by hand and against a plain count.

#include <catch2/catch.hpp>
#include <random>

#include "interpreter/expand/expand.hpp"
#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;

namespace {

std::vector<std::int64_t> read(const Bowl& bowl) {
    std::vector<std::int64_t> out;
    for (const SheetLine& line : bowl.lines) {
        std::int64_t steps = -1;
        line.steps.to_int64(steps);
        out.push_back(steps);
    }
    return out;
}

/// The rule as it is written, in whole numbers: target after target, each line rounded half up.
std::vector<std::int64_t> count_up(const std::vector<std::int64_t>& parts, std::int64_t asked) {
    std::int64_t all = 0;
    for (std::int64_t part : parts) all += part;
    for (std::int64_t target = asked;; ++target) {
        std::vector<std::int64_t> lines;
        std::int64_t sum = 0;
        for (std::int64_t part : parts) {
            lines.push_back((2 * part * target + all) / (2 * all));
            sum += lines.back();
        }
        if (sum >= asked) return lines;
    }
}

/// One blend of so many parts, as the whole of a shade, of which so many steps are made.
Sheet one_blend(const std::vector<std::int64_t>& sizes, std::int64_t steps) {
    Hand hand;
    std::vector<Line> lines;
    for (std::size_t i = 0; i < sizes.size(); ++i)
        lines.push_back({hand.material("m" + std::to_string(i)), parts(sizes[i])});
    IngredientId blend = hand.blend("blend", lines);
    ShadeId shade = hand.shade("Quince", {{blend, pct(100)}});
    hand.batch(shade, "trial", grams(Exact(steps, 100)));
    return expand(hand.all, hand.names, {}).sheets.at(0);
}

}  // namespace

TEST_CASE("own lines are rounded half up, and the foot is their sum", "[rounding]") {
    Hand hand;
    IngredientId a = hand.material("a"), b = hand.material("b"), c = hand.material("c");
    ShadeId shade =
        hand.shade("Quince", {{a, pct(Exact(1, 2))}, {b, pct(Exact(1, 2))}, {c, rest()}});
    hand.batch(shade, "trial", grams(1));
    // 0.005, 0.005 and 0.99 g: equal lines stay equal, and the foot is 1.01
    const Sheet sheet = expand(hand.all, hand.names, {}).sheets.at(0);
    CHECK(read(sheet.bowls[0]) == std::vector<std::int64_t>{1, 1, 99});
    CHECK(sheet.foot == 101);
    CHECK(in_grams(sheet.total) == 1);
}

TEST_CASE("a blend is never short of what was asked", "[rounding]") {
    // thirds of 100 steps are 33 each, 99 in all; of 101 they are 34 each
    const Sheet thirds = one_blend({1, 1, 1}, 100);
    CHECK(thirds.bowls[0].asked == 100);
    CHECK(read(thirds.bowls[0]) == std::vector<std::int64_t>{34, 34, 34});
    CHECK(thirds.bowls[0].steps == 102);
    // `exact` comes from the need, not from the target
    CHECK(in_grams(thirds.bowls[0].lines[0].exact) == Exact(1, 3));

    // 200 equal lines of 10 steps: all of them read nothing until the target is 100
    const Sheet many = one_blend(std::vector<std::int64_t>(200, 1), 10);
    CHECK(many.bowls[0].steps == 200);
}

TEST_CASE("targets as a plain count finds them", "[rounding]") {
    const unsigned seed = 20260731;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    for (int round = 0; round < 300; ++round) {
        std::vector<std::int64_t> sizes(1 + random() % 40);
        for (std::int64_t& size : sizes) size = 1 + random() % (random() % 2 ? 5 : 1000);
        std::int64_t asked = 1 + random() % (random() % 2 ? 20 : 2000);
        const Sheet sheet = one_blend(sizes, asked);
        REQUIRE(read(sheet.bowls[0]) == count_up(sizes, asked));
    }
}

TEST_CASE("another balance, another step", "[rounding]") {
    Hand hand;
    IngredientId a = hand.material("a"), b = hand.material("b");
    ShadeId shade = hand.shade("Quince", {{a, pct(30)}, {b, rest()}});
    hand.batch(shade, "trial", grams(Exact(71, 10)));
    Choice choice;
    choice.reading = Reading{grams(Exact(1, 20)), 2, {}, {}, {}};
    // 2.13 and 4.97 in steps of 0.05: 42.6 and 99.4
    CHECK(read(expand(hand.all, hand.names, choice).sheets.at(0).bowls[0]) ==
          std::vector<std::int64_t>{43, 99});
    // the only balance is taken unasked, a shade's own before it
    BalanceId coarse = hand.balance("kitchen", Exact(1, 2), 1);
    hand.all.own_balances = {coarse};
    hand.all.only_balance = coarse;
    CHECK(read(expand(hand.all, hand.names, {}).sheets.at(0).bowls[0]) ==
          std::vector<std::int64_t>{4, 10});
    hand.all.shades[shade].balance = hand.balance("fine", Exact(1, 1000), 3);
    CHECK(read(expand(hand.all, hand.names, {}).sheets.at(0).bowls[0]) ==
          std::vector<std::int64_t>{2130, 4970});
}
