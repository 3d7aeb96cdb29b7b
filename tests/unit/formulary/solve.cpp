// Shares of the whole, worked out by hand beside each case.

#include <catch2/catch.hpp>

#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;
using Strings = std::vector<std::string>;

namespace {

struct Solved {
    Formula formula;
    Findings findings;
};

Solved solve_lines(Hand& hand, const std::vector<Line>& lines) {
    Solved out{hand.formula(lines), {}};
    out.findings = solve(hand.all, hand.names, out.formula, "Quince", Span{0, 1, 7});
    return out;
}

bool mentions(const Finding& finding, const std::string& words) {
    INFO(finding.message);
    return finding.message.find(words) != std::string::npos;
}

struct Shelf : Hand {
    IngredientId base = material("soft base", "base");
    IngredientId wax = material("hard wax", "base");
    IngredientId lake = material("red 7 lake", "lake");
    IngredientId mica = material("copper mica", "mica");
    IngredientId clay = material("kaolin", "clay");
};

}  // namespace

TEST_CASE("shares and a rest", "[solve]") {
    Shelf shelf;
    // 100 − 18 − 2.5 = 79.5
    Solved out = solve_lines(
        shelf, {{shelf.base, rest()}, {shelf.mica, pct(18)}, {shelf.lake, pct(Exact(5, 2))}});
    CHECK(out.findings.empty());
    CHECK(percents(out.formula) == Strings{"159/2", "18", "5/2"});
    CHECK(out.formula.solving.by == Solving::By::rest);
    CHECK(in_percent(out.formula.solving.left) == Exact(159, 2));
}

TEST_CASE("weights share what the shares leave", "[solve]") {
    Shelf shelf;
    // 12 parts take 100 − 4 = 96 %: 8 %, a part
    Solved out = solve_lines(shelf, {{shelf.base, parts(8)},
                                     {shelf.wax, parts(3)},
                                     {shelf.mica, parts(1)},
                                     {shelf.lake, pct(4)}});
    CHECK(out.findings.empty());
    CHECK(percents(out.formula) == Strings{"64", "24", "8", "4"});
    CHECK(out.formula.solving.by == Solving::By::weights);
    CHECK(in_grams(out.formula.solving.all_weights) == 12);
}

TEST_CASE("shares alone come to exactly 100 %", "[solve]") {
    Shelf shelf;
    Solved thirds = solve_lines(shelf, {{shelf.base, pct(Exact(100, 3))},
                                        {shelf.wax, pct(Exact(100, 3))},
                                        {shelf.lake, pct(Exact(100, 3))}});
    CHECK(thirds.findings.empty());
    CHECK(thirds.formula.solved());

    Solved over =
        solve_lines(shelf, {{shelf.base, pct(12)}, {shelf.wax, pct(40)}, {shelf.lake, pct(50)}});
    CHECK(codes(over.findings) == Strings{"total-off"});
    CHECK(mentions(over.findings[0], "12 % + 40 % + 50 % = 102 %, 2 % too much"));
    CHECK(over.findings[0].span == Span{0, 1, 7});
    CHECK_FALSE(over.formula.solved());

    Solved under = solve_lines(shelf, {{shelf.base, pct(60)}, {shelf.lake, pct(39)}});
    CHECK(mentions(under.findings[0], "60 % + 39 % = 99 %, 1 % too little"));
}

TEST_CASE("a long sum is cut", "[solve]") {
    Shelf shelf;
    std::vector<Line> lines;
    for (int i = 0; i < 11; ++i)
        lines.push_back({shelf.material("pigment " + std::to_string(i)), pct(1)});
    Solved out = solve_lines(shelf, lines);
    REQUIRE(codes(out.findings) == Strings{"total-off"});
    CHECK(mentions(out.findings[0], "1 % + … (3 more) = 11 %, 89 % too little"));
}

TEST_CASE("shares that leave nothing", "[solve]") {
    Shelf shelf;
    Solved rest_over =
        solve_lines(shelf, {{shelf.base, rest()}, {shelf.mica, pct(62)}, {shelf.lake, pct(40)}});
    REQUIRE(codes(rest_over.findings) == Strings{"total-over"});
    CHECK(mentions(rest_over.findings[0],
                   "62 % copper mica + 40 % red 7 lake = 102 %, 2 % too much"));
    CHECK(rest_over.findings[0].span == rest_over.formula.parts[0].span);

    // for weights exactly 100 % is too much already
    Solved weights = solve_lines(shelf, {{shelf.base, parts(1)}, {shelf.mica, pct(100)}});
    CHECK(codes(weights.findings) == Strings{"total-over"});
    CHECK_FALSE(weights.formula.solved());

    // for a rest it is a warning
    Solved nothing_left = solve_lines(shelf, {{shelf.base, rest()}, {shelf.mica, pct(100)}});
    REQUIRE(codes(nothing_left.findings) == Strings{"amount-nothing"});
    CHECK(nothing_left.findings[0].severity == Severity::warning);
    CHECK(percents(nothing_left.formula) == Strings{"0", "100"});
}

TEST_CASE("nothing and less than nothing", "[solve]") {
    Shelf shelf;
    Solved zero = solve_lines(shelf, {{shelf.base, rest()}, {shelf.lake, pct(0)}});
    REQUIRE(codes(zero.findings) == Strings{"amount-nothing"});
    CHECK(zero.findings[0].span == zero.formula.parts[1].span);
    CHECK(zero.formula.solved());

    Solved negative = solve_lines(shelf, {{shelf.base, rest()}, {shelf.lake, pct(-1)}});
    CHECK(codes(negative.findings) == Strings{"amount-negative"});
    CHECK_FALSE(negative.formula.solved());

    // a member of a family at whose other end the line stands is no slip
    Formula between = shelf.formula({{shelf.base, pct(100)}, {shelf.lake, pct(0)}});
    shelf.all.origins.push_back({});
    shelf.all.origins.back().kind = OriginKind::interpolated;
    between.parts[1].origin = 0;
    CHECK(solve(shelf.all, shelf.names, between, "Hedge 1", {}).empty());
    CHECK(between.solved());
}

TEST_CASE("lines that can't stand together", "[solve]") {
    Shelf shelf;
    auto two = [&](PartAmount a, PartAmount b) {
        return solve_lines(shelf, {{shelf.base, a}, {shelf.lake, b}, {shelf.mica, pct(1)}});
    };
    Solved rests = two(rest(), rest());
    REQUIRE(codes(rests.findings) == Strings{"rest-twice"});
    CHECK(rests.findings[0].span == rests.formula.parts[1].span);
    REQUIRE(rests.findings[0].notes.size() == 1);
    CHECK(rests.findings[0].notes[0].span == rests.formula.parts[0].span);

    CHECK(codes(two(rest(), g(5)).findings) == Strings{"rest-beside-weights"});
    Solved mixed = two(parts(5), g(Exact(1, 10)));
    REQUIRE(codes(mixed.findings) == Strings{"parts-beside-grams"});
    CHECK(mixed.findings[0].span == mixed.formula.parts[1].span);
    CHECK(remedy(mixed.findings[0]).find("0.1 g per 100 g   red 7 lake") != std::string::npos);

    Solved twice =
        solve_lines(shelf, {{shelf.base, rest()}, {shelf.lake, pct(3)}, {shelf.lake, pct(4)}});
    REQUIRE(codes(twice.findings) == Strings{"name-twice"});
    CHECK(twice.findings[0].span == twice.formula.parts[2].span);

    CHECK(codes(solve_lines(shelf, {}).findings) == Strings{"formula-empty"});
}

TEST_CASE("a name twice among many lines", "[solve]") {
    Shelf shelf;
    std::vector<Line> lines{{shelf.base, rest()}};
    for (int i = 0; i < 30; ++i)
        lines.push_back({shelf.material("pigment " + std::to_string(i)), pct(1)});
    lines.push_back({lines[7].what, pct(1)});
    Solved out = solve_lines(shelf, lines);
    REQUIRE(codes(out.findings) == Strings{"name-twice"});
    CHECK(out.findings[0].span == out.formula.parts[31].span);
    CHECK(out.findings[0].notes.at(0).span == out.formula.parts[7].span);
}

TEST_CASE("numbers that are not known are said once", "[solve]") {
    Shelf shelf;
    Solved zero = solve_lines(shelf, {{shelf.base, pct(Exact(1, 0))}, {shelf.lake, pct(-1)}});
    CHECK(codes(zero.findings) == Strings{"number-by-zero"});
    Exact huge = 10;
    for (int i = 0; i < 11; ++i) huge = huge * huge;
    REQUIRE(huge.capped());
    Solved capped = solve_lines(shelf, {{shelf.base, pct(huge)}, {shelf.lake, pct(huge)}});
    CHECK(codes(capped.findings) == Strings{"number-too-long"});
    CHECK_FALSE(capped.formula.solved());
}

TEST_CASE("a sum that grows beyond the cap is no total", "[solve]") {
    // 1/3 + 1/5 + 1/7 + … over odd numbers that share no factor: the common denominator passes
    // 1000 digits long before 600 terms.
    Shelf shelf;
    std::vector<Line> lines;
    for (std::int64_t n = 1'000'003, k = 0; k < 400; ++k, n += 1'002)
        lines.push_back({shelf.material("p" + std::to_string(k)), pct(Exact(1, n))});
    Solved out = solve_lines(shelf, lines);
    CHECK(codes(out.findings) == Strings{"number-too-long"});
    CHECK_FALSE(out.formula.solved());
}

TEST_CASE("what was said before is passed over", "[solve]") {
    Shelf shelf;
    IngredientId broken = shelf.blend("Broken", {{shelf.mica, pct(90)}});
    CHECK(codes(shelf.findings) == Strings{"total-off"});
    Solved out = solve_lines(shelf, {{shelf.base, pct(10)}, {broken, pct(10)}});
    CHECK(out.findings.empty());
    CHECK_FALSE(out.formula.solved());

    Solved nameless = solve_lines(shelf, {{shelf.base, pct(10)}, {no_ingredient, pct(10)}});
    CHECK(nameless.findings.empty());
    CHECK_FALSE(nameless.formula.solved());
}
