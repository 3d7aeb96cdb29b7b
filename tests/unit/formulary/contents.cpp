// What is inside a mix, and how dense it is: worked out by hand.

#include <catch2/catch.hpp>

#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;

TEST_CASE("content by name at any depth", "[contents]") {
    Hand hand;
    IngredientId lake = hand.material("lake"), base = hand.material("base");
    IngredientId inner = hand.blend("inner", {{lake, pct(20)}, {base, pct(80)}});
    IngredientId outer = hand.blend("outer", {{inner, pct(50)}, {lake, pct(10)}, {base, pct(40)}});
    Formula formula =
        hand.solved("Quince", {{outer, pct(50)}, {inner, pct(10)}, {lake, pct(1)}, {base, rest()}});
    // outer holds 20 % lake: 10 + 2 + 1
    CHECK(in_percent(content_of(hand.all, formula, lake)) == 13);
    // inner itself: half of outer's 50, and 10
    CHECK(in_percent(content_of(hand.all, formula, inner)) == 35);
    CHECK(in_percent(content_of(hand.all, formula, outer)) == 50);
}

TEST_CASE("blends within blends are looked at once each", "[contents]") {
    // 60 levels, each holding the one before it twice by way of two blends: 2^60 paths
    Hand hand;
    IngredientId lake = hand.material("lake", "lake"), last = lake;
    for (int i = 0; i < 60; ++i) {
        IngredientId left = hand.blend("l" + std::to_string(i), {{last, pct(100)}});
        IngredientId right = hand.blend("r" + std::to_string(i), {{last, pct(100)}});
        last = hand.blend("b" + std::to_string(i), {{left, pct(50)}, {right, pct(50)}});
    }
    const Mix& top = hand.all.mixes.back();
    CHECK(as_fraction(content_of(hand.all, top.formula, lake)) == 1);
    REQUIRE(top.roles.size() == 1);
    CHECK(as_fraction(top.roles[0].share) == 1);
    CHECK(density_of(hand.all, last, false).lacking == std::vector<IngredientId>{lake});
}

TEST_CASE("masses over densities, volumes adding up", "[density]") {
    Hand hand;
    IngredientId oil = hand.material("oil", {}, Exact(9, 10));
    IngredientId salt = hand.material("salt", {}, Exact(9, 5));
    IngredientId dust = hand.material("dust");
    // 50 g / 0.9 + 50 g / 1.8 = 250/3 mL: 1.2 g/mL
    IngredientId half = hand.blend("half", {{oil, pct(50)}, {salt, pct(50)}});
    DensityAnswer answer = density_of(hand.all, half, false);
    REQUIRE(answer.density);
    CHECK(in_grams_per_millilitre(*answer.density) == Exact(6, 5));

    IngredientId dusty = hand.blend("dusty", {{half, pct(90)}, {dust, pct(10)}});
    CHECK_FALSE(density_of(hand.all, dusty, false).density);
    CHECK(density_of(hand.all, dusty, false).lacking == std::vector<IngredientId>{dust});

    // a blend's own statement stands before its parts
    hand.all.ingredients[dusty].density = grams_per_millilitre(2);
    CHECK(in_grams_per_millilitre(*density_of(hand.all, dusty, false).density) == 2);
    IngredientId quince = hand.blend("Quince", {{dusty, pct(50)}, {oil, pct(50)}});
    // 0.5 / 2 + 0.5 / 0.9 = 29/36
    CHECK(in_grams_per_millilitre(*density_of(hand.all, quince, false).density) == Exact(36, 29));
}

TEST_CASE("by the spoon loose powder counts", "[density]") {
    Hand hand;
    IngredientId mica = hand.material("mica", {}, Exact(3));
    hand.all.ingredients[mica].bulk = grams_per_millilitre(Exact(3, 10));
    IngredientId oil = hand.material("oil", {}, Exact(1));
    CHECK(in_grams_per_millilitre(*density_of(hand.all, mica, true).density) == Exact(3, 10));
    CHECK(in_grams_per_millilitre(*density_of(hand.all, mica, false).density) == 3);
    CHECK(in_grams_per_millilitre(*density_of(hand.all, oil, true).density) == 1);
    // each part by this rule: 0.5 / 0.3 + 0.5 / 1 = 13/6
    IngredientId both = hand.blend("both", {{mica, pct(50)}, {oil, pct(50)}});
    CHECK(in_grams_per_millilitre(*density_of(hand.all, both, true).density) == Exact(6, 13));
}
