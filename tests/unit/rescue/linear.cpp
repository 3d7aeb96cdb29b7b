// The solver against programs whose answers follow by hand, and against one that goes round in
// circles without a rule such as Bland's.

#include <catch2/catch.hpp>

#include "interpreter/measure/linear.hpp"

using namespace levigate;
using namespace levigate::linear;

TEST_CASE("a corner of two bounds is the best") {
    // x + y >= 4, x + 3y >= 6: they cross at (3, 1). 2x + 3y is 9 there, 12 at (0, 4), 12 at (6,
    // 0).
    const Answer answer =
        least({{2, 3}, {{{1, 1}, Relation::at_least, 4}, {{1, 3}, Relation::at_least, 6}}});
    REQUIRE(answer.status == Status::best);
    CHECK(answer.cost == Exact(9));
    CHECK(answer.at == std::vector<Exact>{3, 1});
}

TEST_CASE("an equation and a bound below nothing are kept exactly") {
    // x + y = 1, -3x <= -1: x is at least 1/3, so that y is 2/3 at most, and -y is least there.
    const Answer answer =
        least({{0, -1}, {{{1, 1}, Relation::exactly, 1}, {{-3, 0}, Relation::at_most, -1}}});
    REQUIRE(answer.status == Status::best);
    CHECK(answer.cost == Exact(-2, 3));
    CHECK(answer.at == std::vector<Exact>{Exact(1, 3), Exact(2, 3)});
}

TEST_CASE("what can't be, and what has no end, is said") {
    CHECK(least({{1}, {{{1}, Relation::at_most, 1}, {{1}, Relation::at_least, 2}}}).status ==
          Status::impossible);
    CHECK(least({{-1}, {{{1}, Relation::at_least, 1}}}).status == Status::unbounded);
    CHECK(least({{-1}, {}}).status == Status::unbounded);
}

TEST_CASE("rows that say the same twice do no harm") {
    const Answer answer = least({{1, 2},
                                 {{{1, 1}, Relation::exactly, 2},
                                  {{2, 2}, Relation::exactly, 4},
                                  {{1, 1}, Relation::at_least, 2}}});
    REQUIRE(answer.status == Status::best);
    CHECK(answer.cost == Exact(2));
}

// E. M. L. Beale's example of 1955, in the form that textbooks give: with the steepest column and
// ties broken by the first row it cycles for ever. Its optimum is -1/20, at (1/25, 0, 1, 0).
TEST_CASE("no circle") {
    const Answer answer = least({{Exact(-3, 4), 150, Exact(-1, 50), 6},
                                 {{{Exact(1, 4), -60, Exact(-1, 25), 9}, Relation::at_most, 0},
                                  {{Exact(1, 2), -90, Exact(-1, 50), 3}, Relation::at_most, 0},
                                  {{0, 0, 1, 0}, Relation::at_most, 1}}});
    REQUIRE(answer.status == Status::best);
    CHECK(answer.cost == Exact(-1, 20));
}

TEST_CASE("numbers beyond the digit cap make no answer") {
    Exact large = 3;
    for (int i = 0; i < 11; ++i) large *= large;  // 3^2048: 978 digits
    const Answer answer = least(
        {{-1, -1},
         {{{large, 1}, Relation::at_most, 1}, {{1, large * 2}, Relation::at_most, Exact(1, 7)}}});
    CHECK(answer.status == Status::unknown);
}
