// Words about amounts, just where they change: what is counted, listed, summed or cut.

#include <catch2/catch.hpp>

#include "interpreter/formulary/say.hpp"
#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;

namespace {

Findings said_of(Hand& hand, const std::vector<Line>& lines) {
    Formula formula = hand.formula(lines);
    return solve(hand.all, hand.names, formula, "Quince", Span{0, 1, 7});
}

/// `count` materials with so much of each.
Findings said_of_many(int count, const PartAmount& amount) {
    Hand hand;
    std::vector<Line> lines;
    for (int i = 0; i < count; ++i)
        lines.push_back({hand.material("m" + std::to_string(i)), amount});
    return said_of(hand, lines);
}

std::string only_message(const Findings& findings) {
    REQUIRE(findings.size() == 1);
    return findings[0].message;
}

}  // namespace

TEST_CASE("one and less is one of a thing, nothing and more are several", "[say]") {
    CHECK(counted("slim tube", Exact(1, 2)) == "slim tube");
    CHECK(counted("slim tube", 1) == "slim tube");
    CHECK(counted("slim tube", Exact(3, 2)) == "slim tubes");
    CHECK(counted("slim tube", 2) == "slim tubes");
    CHECK(counted("slim tube", 0) == "slim tubes");
}

TEST_CASE("a list is cut behind the most names, and not at them", "[say]") {
    CHECK(list_words({"a"}, 3) == "a");
    CHECK(list_words({"a", "b", "c"}, 3) == "a, b and c");
    CHECK(list_words({"a", "b", "c", "d"}, 3) == "a, b and 2 more");
}

TEST_CASE("halves, thirds and sixths are exact, sevenths are not", "[say]") {
    CHECK(number_words(Exact(1, 2)) == "0.5");
    CHECK(number_words(Exact(2, 3)) == "2/3");
    CHECK(number_words(Exact(5, 6)) == "5/6");
    CHECK(number_words(Exact(1, 7)) == "about 0.1429");
}

TEST_CASE("a sum shows eight terms, and of more how many", "[solve]") {
    // 8 × 12 = 96 and 9 × 11 = 99.
    CHECK(only_message(said_of_many(8, pct(12))) ==
          "Quince doesn't come to 100 %: 12 % + 12 % + 12 % + 12 % + 12 % + 12 % + 12 % + 12 % = "
          "96 %, 4 % too little.");
    CHECK(only_message(said_of_many(9, pct(11))) ==
          "Quince doesn't come to 100 %: 11 % + 11 % + 11 % + 11 % + 11 % + 11 % + 11 % + 11 % + "
          "… (1 more) = 99 %, 1 % too little.");
}

TEST_CASE("a name twice is found wherever its two lines are", "[solve]") {
    // Few lines are compared each with each, many are sorted.
    for (const std::size_t count : {2, 3, 16, 17, 20})
        for (std::size_t second = 1; second < count; ++second) {
            INFO(count << " lines, the first name again in line " << second);
            Hand hand;
            std::vector<Line> lines;
            for (std::size_t i = 0; i < count; ++i)
                lines.push_back({hand.material("m" + std::to_string(i)), parts(1)});
            lines[second].what = lines[0].what;
            const Findings said = said_of(hand, lines);
            REQUIRE(said.size() == 1);
            CHECK(said[0].code == Code::name_twice);
        }
}

TEST_CASE("why nothing is enough of a thing that holds just what is due", "[enough]") {
    Hand hand;
    const IngredientId base = hand.material("base"), lake = hand.material("lake");
    const IngredientId half = hand.blend("half", {{base, parts(1)}, {lake, parts(1)}});
    const auto enough = [&](const Exact& due) { return Enough{ref(lake), percent(due)}; };
    // Half is lake already, and half of what is added: nothing changes by it.
    CHECK(only_message(said_of(hand, {{base, g(10)}, {lake, g(10)}, {half, enough(50)}}))
              .ends_with("any amount would do, since half holds 50 % of it too."));
    // A quarter is due and half is lake: with more of it, it stays above.
    CHECK(only_message(said_of(hand, {{base, g(10)}, {lake, g(10)}, {half, enough(25)}}))
              .ends_with("half holds 50 % of it itself."));
}
