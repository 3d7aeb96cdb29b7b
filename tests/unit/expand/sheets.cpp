// Whole sheets. The Damson sheet is the one that the design of the language prints for programs;
// the other figures are worked out by hand beside each case.

#include <catch2/catch.hpp>

#include "interpreter/expand/expand.hpp"
#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;
using Strings = std::vector<std::string>;

namespace {

/// The invented Orchard page, as far as these tests need it.
struct Orchard : Hand {
    IngredientId base = material("soft base", "base");
    IngredientId copper = material("copper mica", "mica");
    IngredientId lake = material("red 7 lake", "lake");
    IngredientId iron = material("red iron oxide", "oxide");
    IngredientId black = material("black iron oxide", "oxide");
    IngredientId kaolin = material("kaolin", "clay");
    IngredientId thinner = material("light thinner", "thinner");
    IngredientId mica =
        blend("Windfall mica", {{copper, parts(8)}, {lake, parts(3)}, {iron, parts(1)}}, "mica");
    ShadeId damson = shade("Damson", {{base, rest()}, {mica, pct(21)}, {black, pct(Exact(3, 2))}});
    FinishingId satin = finish("satin", {});
    FinishingId matte = finish("matte", {{kaolin, AsMuch{1, the(role("base"))}},
                                         {thinner, AsMuch{Exact(1, 4), the(role("base"))}}});

    Sheets run(const Choice& choice) { return expand(all, names, choice); }
};

/// "copper mica 32/75 43": name, exact grams, steps.
Strings rows(const Formulary& all, const Bowl& bowl) {
    Strings out;
    for (const SheetLine& line : bowl.lines)
        out.push_back(all.name(line.what) + " " + in_grams(line.exact).fraction() + " " +
                      line.steps.fraction());
    return out;
}

Strings bowl_names(const Formulary& all, const Sheet& sheet) {
    Strings out;
    for (const Bowl& bowl : sheet.bowls)
        out.push_back(bowl.mix == no_ingredient ? "own" : all.name(bowl.mix));
    return out;
}

Choice with_finish(const std::string& name) {
    Choice choice;
    choice.finish = name;
    return choice;
}

}  // namespace

TEST_CASE("Damson / matte, 6 g", "[sheet]") {
    Orchard page;
    page.takes(page.damson, page.matte);
    page.batch(page.damson, "trial", grams(6));
    Sheets out = page.run(with_finish("matte"));
    CHECK(out.findings.empty());
    REQUIRE(out.sheets.size() == 1);
    const Sheet& sheet = out.sheets[0];
    CHECK(sheet.findings.empty());
    CHECK(in_grams(sheet.total) == 6);
    CHECK(bowl_names(page.all, sheet) == Strings{"Windfall mica", "own"});
    // the whole is 63/32 of the bulk: base 31/40 × 32/63, the blend 21/100 × 32/63, …, of 6 g
    CHECK(rows(page.all, sheet.bowls[0]) ==
          Strings{"copper mica 32/75 43", "red 7 lake 4/25 16", "red iron oxide 4/75 5"});
    CHECK(rows(page.all, sheet.bowls[1]) ==
          Strings{"soft base 248/105 236", "Windfall mica 16/25 64", "black iron oxide 8/175 5",
                  "kaolin 248/105 236", "light thinner 62/105 59"});
    CHECK(sheet.bowls[0].asked == 64);
    CHECK(sheet.bowls[0].steps == 64);
    CHECK(sheet.foot == 600);
    CHECK(sheet.bowls[0].lines[0].share.value().decimal(6) == "0.071111");
    CHECK(sheet.bowls[1].lines[3].addition);
    CHECK_FALSE(sheet.bowls[1].lines[0].addition);
}

TEST_CASE("materials are flat, largest first, ties in the order of the lines", "[sheet]") {
    Orchard page;
    page.takes(page.damson, page.matte);
    page.batch(page.damson, "trial", grams(6));
    const Sheet sheet = page.run(with_finish("matte")).sheets.at(0);
    Strings names;
    Mass sum;
    for (const MaterialLine& line : sheet.materials) {
        names.push_back(page.all.name(line.what));
        sum += line.exact;
    }
    // base and kaolin 248/105 each; thinner 62/105; copper 32/75; lake 4/25; iron 4/75 before
    // black 8/175
    CHECK(names == Strings{"soft base", "kaolin", "light thinner", "copper mica", "red 7 lake",
                           "red iron oxide", "black iron oxide"});
    CHECK(in_grams(sum) == 6);
}

TEST_CASE("a finish that adds what the bulk holds merges into its line", "[sheet]") {
    Orchard page;
    page.takes(page.damson, page.finish("smoky", {{page.black, percent(10)},
                                                  {page.kaolin, AsMuch{2, ref(page.black)}}}));
    page.batch(page.damson, "trial", grams(100));
    const Sheet sheet = page.run(with_finish("smoky")).sheets.at(0);
    // 10 % black, kaolin 2 × 1.5 % of the bulk: bulk × 1.03 = 90 %, which makes it 90/103
    CHECK(rows(page.all, sheet.bowls.back()) ==
          Strings{"soft base 6975/103 6772", "Windfall mica 1890/103 1835",
                  "black iron oxide 1165/103 1131", "kaolin 270/103 262"});
    CHECK(sheet.bowls.back().lines[2].addition);
}

TEST_CASE("a finish may look at its own additions and at the bulk", "[sheet]") {
    Orchard page;
    page.takes(page.damson, page.finish("wet", {{page.thinner, AsMuch{1, ref(page.kaolin)}},
                                                {page.kaolin, AsMuch{Exact(1, 2), the_bulk()}}}));
    page.batch(page.damson, "trial", grams(8));
    // bulk 4, kaolin 2, thinner 2
    const Sheet sheet = page.run(with_finish("wet")).sheets.at(0);
    const Bowl& own = sheet.bowls.back();
    CHECK(in_grams(own.lines[3].exact) == 2);
    CHECK(in_grams(own.lines[4].exact) == 2);
    CHECK(in_grams(own.lines[0].exact) == Exact(31, 10));
}

TEST_CASE("blends within blends, the deepest first, ties by first use", "[sheet]") {
    Hand hand;
    IngredientId raw = hand.material("raw"), oil = hand.material("oil");
    IngredientId deep = hand.blend("deep", {{raw, pct(50)}, {oil, pct(50)}});
    IngredientId late = hand.blend("late", {{raw, pct(100)}});
    IngredientId early = hand.blend("early", {{deep, pct(50)}, {oil, pct(50)}});
    IngredientId middle = hand.blend("middle", {{early, pct(50)}, {late, pct(50)}});
    ShadeId quince = hand.shade("Quince", {{early, pct(20)}, {middle, pct(40)}, {deep, pct(40)}});
    hand.batch(quince, "trial", grams(10));
    const Sheet sheet = expand(hand.all, hand.names, {}).sheets.at(0);
    // deep: own → middle → early → deep is 3; early and late are 2, early is met first
    CHECK(bowl_names(hand.all, sheet) == Strings{"deep", "early", "late", "middle", "own"});
    // deep is asked for by the shade (4 g) and by early, of which 2 + 2 g are made: 2 g
    CHECK(sheet.bowls[0].asked == 600);
    CHECK(sheet.bowls[1].asked == 400);
    CHECK(rows(hand.all, sheet.bowls[0]) == Strings{"raw 3 300", "oil 3 300"});
}

TEST_CASE("shared blends within blends cost no more than their lines", "[sheet]") {
    // 2^40 paths lead down to the raw material
    Hand hand;
    IngredientId last = hand.material("raw");
    for (int i = 0; i < 40; ++i) {
        IngredientId left = hand.blend("l" + std::to_string(i), {{last, pct(100)}});
        IngredientId right = hand.blend("r" + std::to_string(i), {{last, pct(100)}});
        last = hand.blend("b" + std::to_string(i), {{left, pct(50)}, {right, pct(50)}});
    }
    ShadeId quince = hand.shade("Quince", {{last, pct(100)}});
    hand.batch(quince, "trial", grams(10));
    const Sheet sheet = expand(hand.all, hand.names, {}).sheets.at(0);
    CHECK(sheet.bowls.size() == 121);
    REQUIRE(sheet.materials.size() == 1);
    CHECK(in_grams(sheet.materials[0].exact) == 10);
}

TEST_CASE("onto what is made: the additions alone", "[onto]") {
    Orchard page;
    page.takes(page.damson, page.matte);
    Choice choice = with_finish("matte");
    choice.onto = grams(15);
    Sheets out = page.run(choice);
    CHECK(out.findings.empty());  // no batch is asked for, and none is missed
    REQUIRE(out.sheets.size() == 1);
    const Sheet& sheet = out.sheets[0];
    // 15 × 0.775 of kaolin, a quarter of that of thinner
    CHECK(rows(page.all, sheet.bowls.back()) ==
          Strings{"kaolin 93/8 1163", "light thinner 93/32 291"});
    CHECK(bowl_names(page.all, sheet) == Strings{"own"});
    CHECK(in_grams(sheet.total) == Exact(945, 32));  // 15 × 63/32
    CHECK(in_grams(*sheet.onto) == 15);
    CHECK(sheet.batch == nothing);
    CHECK(sheet.materials.size() == 2);

    Choice no_finish;
    no_finish.onto = grams(15);
    CHECK(codes(page.run(no_finish).findings) == Strings{"choice-none"});
}

TEST_CASE("onto: a blend and more of what is there", "[onto]") {
    Orchard page;
    page.takes(page.damson, page.finish("glow", {{page.mica, percent(10)}}));
    Choice choice = with_finish("glow");
    choice.onto = grams(9);
    const Sheet sheet = page.run(choice).sheets.at(0);
    // 1 g of the blend onto 9 g: 10 % of what comes out
    CHECK(in_grams(sheet.total) == 10);
    CHECK(bowl_names(page.all, sheet) == Strings{"Windfall mica", "own"});
    CHECK(rows(page.all, sheet.bowls[1]) == Strings{"Windfall mica 1 100"});
    CHECK(rows(page.all, sheet.bowls[0]) ==
          Strings{"copper mica 2/3 67", "red 7 lake 1/4 25", "red iron oxide 1/12 8"});
}

TEST_CASE("sizes of a batch", "[batch]") {
    Orchard page;
    Container tube;
    tube.name = "slim tube";
    tube.holds = grams(Exact(19, 5));
    page.all.containers.push_back(tube);
    tube.holds = millilitres(5);
    page.all.containers.push_back(tube);
    page.batch(page.damson, "a", ContainerCount{0, 48}).size.overage = percent(5);
    Batch& held = page.batch(page.damson, "b", grams(100));
    held.size.overage = percent(10);
    held.size.holdback = grams(3);
    Sheets out = page.run({});
    REQUIRE(out.sheets.size() == 2);
    CHECK(in_grams(out.sheets[0].total) == Exact(4788, 25));  // 48 × 3.8 × 1.05 = 191.52
    CHECK(in_grams(out.sheets[1].total) == 113);
    CHECK_FALSE(out.sheets[0].estimated);

    // by volume: the density of the mix
    page.batch(page.damson, "c", ContainerCount{1, 4});
    page.batch(page.damson, "d", grams(1)).size.holdback = millilitres(2);
    page.batch(page.damson, "e", millilitres(7));
    Sheets lacking = page.run({});
    CHECK(lacking.sheets.size() == 2);
    REQUIRE(codes(lacking.findings) == Strings{"density-missing"});
    CHECK(lacking.findings[0].message.find("soft base, copper mica, red 7 lake") !=
          std::string::npos);

    for (Ingredient& entry : page.all.ingredients) entry.density = grams_per_millilitre(2);
    Sheets dense = page.run({});
    CHECK(dense.findings.empty());
    REQUIRE(dense.sheets.size() == 5);
    CHECK(in_grams(dense.sheets[2].total) == 40);
    CHECK(dense.sheets[2].estimated);
    CHECK(in_grams(dense.sheets[3].total) == 5);
    CHECK(in_grams(dense.sheets[4].total) == 14);
}

TEST_CASE("steps and notes say what to weigh", "[words]") {
    Orchard page;
    page.takes(page.damson, page.matte);
    page.batch(page.damson, "trial", grams(6));
    auto words = [](const std::string& text) {
        return TextPiece{TextPiece::Kind::words, text, no_ingredient, {}};
    };
    auto hole = [](IngredientId what) {
        return TextPiece{TextPiece::Kind::ingredient, {}, what, {}};
    };
    page.all.shades[page.damson].versions[0].steps.push_back(
        page.text({words("Work "), hole(page.mica), words(" into "), hole(page.base), words(".")}));
    page.all.shades[page.damson].versions[0].notes.push_back(
        page.text({words("Holds "), hole(page.copper), words(" in all.")}));
    page.all.mixes[0].steps.push_back(page.text({words("Sift "), hole(page.lake), words(".")}));
    page.all.finishings[page.matte].steps.push_back(
        page.text({words("Add "), hole(page.kaolin), words(", not "), hole(page.lake)}));
    const Sheet sheet = page.run(with_finish("matte")).sheets.at(0);
    CHECK(sheet.bowls[0].steps_text == Strings{"Sift red 7 lake 0.16 g."});
    CHECK(sheet.bowls[1].steps_text ==
          Strings{"Work Windfall mica 0.64 g into soft base 2.36 g.",
                  "Add kaolin 2.36 g, not red 7 lake (in Windfall mica)"});
    CHECK(sheet.notes == Strings{"Holds copper mica (in Windfall mica) in all."});

    Choice onto = with_finish("matte");
    onto.onto = grams(15);
    CHECK(page.run(onto).sheets.at(0).bowls.back().steps_text ==
          Strings{"Add kaolin 11.63 g, not red 7 lake"});
}

// Each is made in the place of the one before: nothing of that one may shine through.
TEST_CASE("sheets that come one by one are those that come at once", "[sheet]") {
    Orchard page;
    const ShadeId plain = page.shade("Sloe", {{page.base, rest()}, {page.black, pct(2)}});
    for (ShadeId shade : {page.damson, plain}) {
        page.takes(shade, page.matte);
        page.takes(shade, page.satin);
        page.batch(shade, "trial", grams(6));
        page.batch(shade, "speck", grams(Exact(1, 10)));  // too small to weigh
    }
    const TextPiece words{TextPiece::Kind::words, "Sift.", no_ingredient, {}};
    page.all.shades[page.damson].versions[0].notes.push_back(page.text({words}));
    page.all.mixes[0].steps.push_back(page.text({words}));
    Choice choice;
    choice.all = true;

    const Sheets kept = page.run(choice);
    REQUIRE(kept.sheets.size() == 8);
    std::size_t at = 0, steps = 0, notes = 0, findings = 0;
    const Findings outside = expand_each(page.all, page.names, choice, [&](const Sheet& sheet) {
        const Sheet& same = kept.sheets.at(at++);
        CHECK(sheet.shade == same.shade);
        CHECK(sheet.batch == same.batch);
        CHECK(in_grams(sheet.total) == in_grams(same.total));
        CHECK(bowl_names(page.all, sheet) == bowl_names(page.all, same));
        CHECK(rows(page.all, sheet.bowls.back()) == rows(page.all, same.bowls.back()));
        CHECK(sheet.materials.size() ==
              (sheet.shade == plain ? 2u : 5u) + (sheet.finishing == page.matte ? 2u : 0u));
        CHECK(sheet.notes == (sheet.shade == plain ? Strings{} : Strings{"Sift."}));
        CHECK(sheet.findings.size() == same.findings.size());
        steps += sheet.bowls.front().steps_text.size();
        notes += sheet.notes.size();
        findings += sheet.findings.empty() ? 0 : 1;
    });
    CHECK(outside.size() == kept.findings.size());
    CHECK(at == 8);
    CHECK(steps == 4);
    CHECK(notes == 4);
    CHECK(findings == 4);  // the four of 0.1 g
}
