// Rounding to the steps of a balance, and to whole numbers.
#include "interpreter/measure/exact.hpp"

#include <catch2/catch.hpp>

using levigate::Exact;
using levigate::read_number;

namespace {

struct Rounding {
    const char* value;
    const char* step;
    const char* half_up;
};

// Source: the project's facts, rounding_half_even.csv, columns value, step and half_up_decimal,
// all rows. Its last column shows that doubles go wrong in several of these.
constexpr Rounding roundings[] = {
    {"2.5", "1", "3"},           {"3.5", "1", "4"},         {"-2.5", "1", "-3"},
    {"1.5", "1", "2"},           {"-1.5", "1", "-2"},       {"1.4", "1", "1"},
    {"1.6", "1", "2"},           {"16.5", "1", "17"},       {"23.5", "1", "24"},
    {"24.5", "1", "25"},         {"-23.5", "1", "-24"},     {"-24.5", "1", "-25"},
    {"0.125", "0.01", "0.13"},   {"0.135", "0.01", "0.14"}, {"0.145", "0.01", "0.15"},
    {"0.155", "0.01", "0.16"},   {"1.005", "0.01", "1.01"}, {"1.015", "0.01", "1.02"},
    {"2.675", "0.01", "2.68"},   {"0.005", "0.01", "0.01"}, {"0.015", "0.01", "0.02"},
    {"0.025", "0.01", "0.03"},   {"0.335", "0.01", "0.34"}, {"8.345", "0.01", "8.35"},
    {"12.345", "0.01", "12.35"}, {"0.05", "0.1", "0.1"},    {"0.15", "0.1", "0.2"},
    {"0.25", "0.1", "0.3"},      {"0.35", "0.1", "0.4"},    {"2.25", "0.1", "2.3"},
    {"2.35", "0.1", "2.4"},      {"0.01", "0.02", "0.02"},  {"0.03", "0.02", "0.04"},
    {"0.05", "0.02", "0.06"},    {"0.07", "0.02", "0.08"},  {"0.025", "0.05", "0.05"},
    {"0.075", "0.05", "0.10"},   {"0.125", "0.05", "0.15"}, {"0.175", "0.05", "0.20"},
    {"0.25", "0.5", "0.5"},      {"0.75", "0.5", "1.0"},    {"1.25", "0.5", "1.5"},
    {"1.75", "0.5", "2.0"},
};

Exact signed_number(std::string_view text) {
    bool negative = text.starts_with('-');
    Exact size = *read_number(text.substr(negative ? 1 : 0));
    return negative ? -size : size;
}

}  // namespace

TEST_CASE("half up, by the table of the facts", "[exact][rounding]") {
    for (const auto& row : roundings) {
        INFO(row.value << " in steps of " << row.step);
        Exact value = signed_number(row.value), step = signed_number(row.step);
        Exact steps = steps_half_up(value, step);
        CHECK(steps.is_integer());
        CHECK(steps * step == signed_number(row.half_up));
        if (step == 1) CHECK(value.round_half_up() == signed_number(row.half_up));
    }
}

TEST_CASE("just under and just over a half", "[exact][rounding]") {
    Exact hair(1, 1'000'000'000'000'000'000);
    CHECK(steps_half_up(Exact(5, 1000) - hair, Exact(1, 100)) == 0);
    CHECK(steps_half_up(Exact(5, 1000), Exact(1, 100)) == 1);
    CHECK(steps_half_up(Exact(5, 1000) + hair, Exact(1, 100)) == 1);
    CHECK((Exact(1, 2) - hair).round_half_up() == 0);
}

TEST_CASE("steps of values and steps beyond 64 bits", "[exact][rounding]") {
    Exact ten18 = 1'000'000'000'000'000'000, ten36 = ten18 * ten18;
    CHECK(steps_half_up(ten18, Exact(1, 1000)) == ten18 * 1000);
    CHECK(steps_half_up(ten36 + Exact(1, 2), 1) == ten36 + 1);
    CHECK(steps_half_up(-ten36 - Exact(1, 2), 1) == -ten36 - 1);
    CHECK(steps_half_up(1, ten36) == 0);
    CHECK(steps_half_up(ten36 / 2, ten36) == 1);
    CHECK(steps_half_up(Exact(1, 3), 1 / ten36) * 3 == ten36 - 1);
}

namespace {

struct Whole {
    Exact value;
    Exact below;
    Exact above;
};

}  // namespace

TEST_CASE("down and up to a whole number", "[exact][rounding]") {
    // By the definition: the greatest whole number that is not above, the least that is not below.
    const Whole wholes[] = {
        {{7, 2}, 3, 4},
        {{-7, 2}, -4, -3},
        {{1, 3}, 0, 1},
        {{-1, 3}, -1, 0},
        {{2, 3}, 0, 1},
        {{-2, 3}, -1, 0},
        {0, 0, 0},
        {5, 5, 5},
        {-5, -5, -5},
        {{999, 1000}, 0, 1},
        {{1001, 1000}, 1, 2},
        {{-999, 1000}, -1, 0},
        {{-1001, 1000}, -2, -1},
    };
    for (const auto& [value, below, above] : wholes) {
        INFO(value.fraction());
        CHECK(value.floor() == below);
        CHECK(value.ceil() == above);
    }
    CHECK(Exact(-1, 3).ceil().is_zero());
    CHECK(Exact(-1, 3).ceil().fraction() == "0");
}

TEST_CASE("up to a whole number, beyond 64 bits and from a hair", "[exact][rounding]") {
    Exact ten18 = 1'000'000'000'000'000'000, ten36 = ten18 * ten18, hair = 1 / ten36;
    CHECK(hair.ceil() == 1);
    CHECK((-hair).ceil() == 0);
    CHECK((1 + hair).ceil() == 2);
    CHECK((1 - hair).ceil() == 1);
    CHECK(ten36.ceil() == ten36);
    CHECK((-ten36).ceil() == -ten36);
    CHECK((ten36 + Exact(1, 2)).ceil() == ten36 + 1);
    CHECK((-ten36 - Exact(1, 2)).ceil() == -ten36);
    CHECK((ten36 / 3).ceil() * 3 == ten36 + 2);  // 10^36 = 3 × 333…333 + 1
    CHECK(Exact(std::numeric_limits<std::int64_t>::min()).ceil() ==
          std::numeric_limits<std::int64_t>::min());
}

TEST_CASE("an unknown number has no whole number above it", "[exact][rounding]") {
    CHECK(Exact(1, 0).ceil().by_zero());
    Exact large = 10;
    for (int i = 0; i < 11; ++i) large *= large;  // 10^2048
    CHECK(large.capped());
    CHECK(large.ceil().capped());
}
