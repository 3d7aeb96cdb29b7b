#include "tests/golden/planted.hpp"

#include <catch2/catch.hpp>

using namespace levigate::testing;
using Catch::Contains;

TEST_CASE("carets give the columns of the line above") {
    const Planted planted = read_planted("shade Quince\n    18 %   Windfal mica\n"
                                         "#~         ^^^^^^^^^^^^ name-unknown\n");
    REQUIRE(planted.problem.empty());
    CHECK(planted.mark.line == 2);
    // "    18 %   " is 11 columns, so that the name takes columns 12 to 23
    CHECK(planted.mark.column == 12);
    CHECK(planted.mark.end_column == 24);
    CHECK(describe(planted.mark) == "2:12-23 error name-unknown");
}

TEST_CASE("columns can be given as numbers, with a line and a severity") {
    const Planted first = read_planted("shede Quince\n#~@1-5 heading-unknown\n");
    REQUIRE(first.problem.empty());
    CHECK(describe(first.mark) == "1:1-5 error heading-unknown");
    const Planted second = read_planted("a\nb\nc\n#~@2:3-4 warning line-nothing\n");
    REQUIRE(second.problem.empty());
    CHECK(describe(second.mark) == "2:3-4 warning line-nothing");
}

TEST_CASE("accents and wide letters count as one column each") {
    CHECK(read_planted("    5 %  Crème 貝粉\n#~       ^^^^^^^^ name-unknown\n").problem.empty());
    CHECK_THAT(read_planted("    5 %  Crème\n#~       ^^^^^^^^ name-unknown\n").problem,
               Contains("beyond the line"));
}

TEST_CASE("a missing, double or misspelled annotation is said") {
    CHECK_THAT(read_planted("shade A\n").problem, Contains("no line begins with #~"));
    CHECK_THAT(read_planted("shade A\n#~ ^^ a\n#~ ^^ b\n").problem, Contains("second"));
    CHECK_THAT(read_planted("shade A\n#~ name-unknown\n").problem, Contains("no annotation"));
    CHECK_THAT(read_planted("shade A\n#~  ^^^\n").problem, Contains("no annotation"));
    CHECK_THAT(read_planted("shade A\n#~@5-3 a\n").problem, Contains("no annotation"));
}

TEST_CASE("findings are read, and compared in all that is annotated") {
    const Checked checked = read_findings(
        R"({"findings": [{"code": "a", "severity": "error", "message": "m", "file": "f",
            "line": 2, "column": 5, "end_line": 2, "end_column": 9}]})");
    REQUIRE(checked.problem.empty());
    REQUIRE(checked.marks.size() == 1);
    const Mark found = checked.marks[0];
    const Mark planted{"a", "error", 2, 5, 9};
    CHECK(same(planted, found));
    CHECK_FALSE(same({"b", "error", 2, 5, 9}, found));
    CHECK_FALSE(same({"a", "warning", 2, 5, 9}, found));
    CHECK_FALSE(same({"a", "error", 3, 5, 9}, found));
    CHECK_FALSE(same({"a", "error", 2, 4, 9}, found));
    CHECK_FALSE(same({"a", "error", 2, 5, 8}, found));
    CHECK(same({"a", "error", 2, 5, 6}, {"a", "error", 2, 5, 5}));  // a point has one caret
    CHECK_FALSE(read_findings("no json").problem.empty());
    CHECK_FALSE(read_findings("[]").problem.empty());
}
