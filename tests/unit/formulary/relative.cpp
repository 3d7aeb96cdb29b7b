// `as much … as` and `enough … to bring`, worked out by hand beside each case.

#include <catch2/catch.hpp>

#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;
using Strings = std::vector<std::string>;

namespace {

struct RelativeShelf : Hand {
    IngredientId base = material("soft base", "base");
    IngredientId wax = material("hard wax", "base");
    IngredientId lake = material("red 7 lake", "lake");
    IngredientId mica = material("copper mica", "mica");
    IngredientId clay = material("kaolin", "clay");
    IngredientId oil = material("jojoba", "oil");

    Formula last;
    Findings run(const std::vector<Line>& lines) {
        last = formula(lines);
        return solve(all, names, last, "Quince", Span{0, 1, 7});
    }
};

PartAmount much(const Ref& what, const Exact& factor = 1) { return AsMuch{factor, what}; }
PartAmount enough(const Ref& what, const Exact& percentage) {
    return Enough{what, percent(percentage)};
}

bool mentions(const Findings& findings, const std::string& words) {
    INFO((findings.empty() ? std::string("nothing") : findings[0].message));
    return !findings.empty() && findings[0].message.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("as much as another line, whatever the order", "[relative]") {
    RelativeShelf shelf;
    // clay = lake / 2 = 2, mica = 3 × clay = 6, base = 100 − 4 − 2 − 6 = 88
    CHECK(shelf
              .run({{shelf.mica, much(ref(shelf.clay), 3)},
                    {shelf.clay, much(ref(shelf.lake), Exact(1, 2))},
                    {shelf.lake, pct(4)},
                    {shelf.base, rest()}})
              .empty());
    CHECK(percents(shelf.last) == Strings{"6", "2", "4", "88"});
}

TEST_CASE("as much as the rest", "[relative]") {
    RelativeShelf shelf;
    // x + x/4 = 100 − 10: x = 72
    CHECK(shelf
              .run({{shelf.base, rest()},
                    {shelf.clay, much(ref(shelf.base), Exact(1, 4))},
                    {shelf.lake, pct(10)}})
              .empty());
    CHECK(percents(shelf.last) == Strings{"72", "18", "10"});
}

TEST_CASE("as much as a role, of which weights and shares are", "[relative]") {
    RelativeShelf shelf;
    // bases: 3u + 10; clay as much. 10 + 3u + u + (3u + 10) = 100: 7u = 80
    CHECK(shelf
              .run({{shelf.base, parts(3)},
                    {shelf.lake, parts(1)},
                    {shelf.wax, pct(10)},
                    {shelf.clay, much(the(shelf.role("base")))}})
              .empty());
    CHECK(percents(shelf.last) == Strings{"240/7", "80/7", "10", "310/7"});
}

TEST_CASE("a blend counts whole by its own role, else by what is inside", "[relative]") {
    RelativeShelf shelf;
    IngredientId inner = shelf.blend("inner", {{shelf.mica, pct(50)}, {shelf.lake, pct(50)}});
    IngredientId plain = shelf.blend("plain", {{inner, pct(40)}, {shelf.base, pct(60)}});
    IngredientId named =
        shelf.blend("named", {{shelf.lake, pct(30)}, {shelf.mica, pct(70)}}, "mica");
    Sym mica = shelf.role("mica");
    // micas: 20 % of plain's 30, that is 6, and named's 10 whole
    CHECK(shelf
              .run({{plain, pct(30)},
                    {named, pct(10)},
                    {shelf.base, rest()},
                    {shelf.clay, much(the(mica))}})
              .empty());
    CHECK(percents(shelf.last) == Strings{"30", "10", "44", "16"});
    // lakes: 6 of plain, and 30 % of named though it is a mica itself: 9
    CHECK(shelf
              .run({{plain, pct(30)},
                    {named, pct(10)},
                    {shelf.base, rest()},
                    {shelf.clay, much(the(shelf.role("lake")))}})
              .empty());
    CHECK(percents(shelf.last)[3] == "9");
}

TEST_CASE("amounts that depend on themselves", "[relative]") {
    RelativeShelf shelf;
    Findings pair = shelf.run({{shelf.base, rest()},
                               {shelf.clay, much(ref(shelf.mica))},
                               {shelf.mica, much(ref(shelf.clay), 2)},
                               {shelf.lake, much(ref(shelf.mica))}});
    REQUIRE(codes(pair) == Strings{"relative-loop"});
    CHECK(mentions(pair, "kaolin and copper mica depend on each other"));
    CHECK(pair[0].notes.size() == 1);
    CHECK_FALSE(shelf.last.solved());

    Findings itself = shelf.run({{shelf.base, rest()}, {shelf.clay, much(ref(shelf.clay))}});
    CHECK(mentions(itself, "kaolin depends on itself"));

    // hard wax is a base
    Findings by_role =
        shelf.run({{shelf.base, rest()}, {shelf.wax, much(the(shelf.role("base")))}});
    REQUIRE(codes(by_role) == Strings{"relative-loop"});
    CHECK(mentions(by_role, "it belongs to the base"));

    // two loops are two causes
    Findings both = shelf.run({{shelf.base, rest()},
                               {shelf.clay, much(ref(shelf.clay))},
                               {shelf.mica, much(ref(shelf.mica))}});
    CHECK(codes(both) == Strings{"relative-loop", "relative-loop"});
}

TEST_CASE("references that are no line", "[relative]") {
    RelativeShelf shelf;
    IngredientId blend =
        shelf.blend("Windfall mica", {{shelf.mica, pct(50)}, {shelf.lake, pct(50)}});
    Findings inside =
        shelf.run({{shelf.base, rest()}, {blend, pct(5)}, {shelf.clay, much(ref(shelf.lake))}});
    REQUIRE(codes(inside) == Strings{"reference-unknown"});
    CHECK(mentions(inside, "red 7 lake; it stands inside Windfall mica only"));

    Findings nowhere = shelf.run({{shelf.base, rest()}, {shelf.clay, much(ref(shelf.oil))}});
    REQUIRE(codes(nowhere) == Strings{"reference-unknown"});
    CHECK_FALSE(mentions(nowhere, "inside"));

    Sym near = shelf.role("bases");
    Findings role = shelf.run({{shelf.base, rest()}, {shelf.clay, much(the(near))}});
    REQUIRE(codes(role) == Strings{"role-empty"});
    CHECK(remedy(role[0]) == "the base");

    // the line that gave the role may be lost
    shelf.all.ingredients[shelf.base].damaged = true;
    CHECK(shelf.run({{shelf.base, rest()}, {shelf.clay, much(the(near))}}).empty());
    CHECK_FALSE(shelf.last.solved());
}

TEST_CASE("a long chain of references", "[relative]") {
    RelativeShelf shelf;
    std::vector<Line> lines{{shelf.base, rest()}};
    IngredientId before = shelf.base;
    for (int i = 0; i < 20000; ++i) {
        IngredientId next = shelf.material("m" + std::to_string(i));
        lines.push_back({next, much(ref(before))});
        before = next;
    }
    std::reverse(lines.begin(), lines.end());
    CHECK(shelf.run(lines).empty());
    REQUIRE(shelf.last.solved());
    CHECK(as_fraction(shelf.last.shares[0]) == Exact(1, 20001));
}

TEST_CASE("enough to bring a name down to a share", "[enough]") {
    RelativeShelf shelf;
    // 4 g of lake in 10 g; 5 % of (10 + x) = 4: x = 70
    CHECK(
        shelf.run({{shelf.wax, g(6)}, {shelf.lake, g(4)}, {shelf.base, enough(ref(shelf.lake), 5)}})
            .empty());
    CHECK(percents(shelf.last) == Strings{"15/2", "5", "175/2"});
    CHECK(in_grams(shelf.last.solving.enough) == 70);
    CHECK(in_grams(shelf.last.solving.all_weights) == 80);
}

TEST_CASE("enough sees blends from inside, and what it adds itself", "[enough]") {
    RelativeShelf shelf;
    IngredientId strong = shelf.blend("strong", {{shelf.lake, pct(40)}, {shelf.base, pct(60)}});
    IngredientId weak = shelf.blend("weak", {{shelf.lake, pct(2)}, {shelf.base, pct(98)}});
    // alligation: 40 down to 10 with 2: 8 parts of strong to 30 of weak
    CHECK(shelf.run({{strong, g(8)}, {weak, enough(ref(shelf.lake), 10)}}).empty());
    CHECK(in_grams(shelf.last.solving.enough) == 30);
    CHECK(shelf.run({{strong, g(8)}, {weak, enough(the(shelf.role("lake")), 10)}}).empty());
    CHECK(in_grams(shelf.last.solving.enough) == 30);
}

TEST_CASE("enough beside lines that follow it", "[enough]") {
    RelativeShelf shelf;
    // clay = base / 4: 10 of 10 + x + x/4 is 20 %: 1.25 x = 40, x = 32
    CHECK(shelf
              .run({{shelf.lake, parts(10)},
                    {shelf.base, enough(ref(shelf.lake), 20)},
                    {shelf.clay, much(ref(shelf.base), Exact(1, 4))}})
              .empty());
    CHECK(percents(shelf.last) == Strings{"20", "64", "16"});
}

TEST_CASE("enough that can't be", "[enough]") {
    RelativeShelf shelf;
    Findings below = shelf.run(
        {{shelf.wax, g(96)}, {shelf.lake, g(4)}, {shelf.base, enough(ref(shelf.lake), 5)}});
    REQUIRE(codes(below) == Strings{"enough-impossible"});
    CHECK(mentions(below, "already below 5 % (4 %)"));

    IngredientId strong = shelf.blend("strong", {{shelf.lake, pct(40)}, {shelf.base, pct(60)}});
    Findings own = shelf.run({{shelf.lake, g(4)}, {strong, enough(ref(shelf.lake), 5)}});
    REQUIRE(codes(own) == Strings{"enough-impossible"});
    CHECK(mentions(own, "strong holds 40 % of it itself"));

    CHECK(codes(shelf.run({{shelf.lake, enough(ref(shelf.lake), 5)}})) ==
          Strings{"enough-impossible"});
    CHECK(codes(shelf.run({{shelf.wax, g(4)}, {shelf.base, enough(ref(shelf.lake), 5)}})) ==
          Strings{"reference-unknown"});
    CHECK(
        codes(shelf.run(
            {{shelf.lake, g(4)}, {shelf.wax, pct(4)}, {shelf.base, enough(ref(shelf.lake), 5)}})) ==
        Strings{"enough-misplaced"});
    CHECK(codes(shelf.run({{shelf.lake, g(4)},
                           {shelf.wax, enough(ref(shelf.lake), 5)},
                           {shelf.base, enough(ref(shelf.lake), 5)}})) ==
          Strings{"enough-misplaced"});
}
