// What is found on sheets and on the way to them.

#include <catch2/catch.hpp>

#include "interpreter/expand/expand.hpp"
#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;
using Strings = std::vector<std::string>;

namespace {

struct Page : Hand {
    IngredientId base = material("soft base", "base", Exact(9, 10));
    IngredientId lake = material("red 7 lake", "lake", Exact(17, 10));
    IngredientId mica = material("copper mica", "mica");
    IngredientId clay = material("kaolin", "clay");
    IngredientId blend_id = blend("Windfall mica", {{mica, pct(60)}, {lake, pct(40)}}, "mica");
    ShadeId quince = shade("Quince", {{base, rest()}, {blend_id, pct(20)}, {lake, pct(2)}});
    FinishingId matte = finish("matte", {{clay, percent(10)}});

    Sheets run(const Choice& choice = {}) { return expand(all, names, choice); }
    Findings check() { return check_all(all, names, {}).findings; }
    Span line(std::size_t i) { return all.shades[quince].versions[0].formula.parts[i].span; }

    Expectation& expect(Expectation::Measure measure, Expectation::Compare compare, Quantity low) {
        Expectation out;
        out.measure = measure;
        out.compare = compare;
        out.low = low;
        out.span = span();
        all.shades[quince].expects.push_back(out);
        return all.shades[quince].expects.back();
    }
};

using Measure = Expectation::Measure;
using Compare = Expectation::Compare;
Quantity share_of_100(const Exact& x) { return {Kind::share, x / 100, 0}; }

bool says(const Finding& finding, const std::string& words) {
    INFO(finding.message);
    return finding.message.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a line that rounds to nothing is an error, and the sheet is shown", "[weigh]") {
    Page page;
    page.batch(page.quince, "trial", grams(Exact(1, 5)));
    Sheets out = page.run();
    REQUIRE(out.sheets.size() == 1);
    // 2 % of 0.2 g is 0.004 g
    REQUIRE(codes(out.sheets[0].findings) == Strings{"weigh-nothing"});
    const Finding& finding = out.sheets[0].findings[0];
    CHECK(finding.span == page.line(2));
    CHECK(says(finding, "Quince, trial: red 7 lake is 0.004 g, which reads 0.00 g"));
    CHECK(codes(page.check()) == Strings{"weigh-nothing"});
}

TEST_CASE("least weight and capacity", "[weigh]") {
    Page page;
    page.batch(page.quince, "trial", grams(2));
    BalanceId small = page.balance("small", Exact(1, 100), 2);
    page.all.balances[small].least = grams(Exact(1, 20));
    page.all.balances[small].up_to = grams(Exact(3, 2));
    page.all.only_balance = small;
    Sheets out = page.run();
    // 1.56, 0.40 and 0.04 g; the blend 0.24 and 0.16
    REQUIRE(codes(out.sheets.at(0).findings) == Strings{"weigh-least", "weigh-capacity"});
    CHECK(out.sheets[0].findings[0].span == page.line(2));
    CHECK(out.sheets[0].findings[0].severity == Severity::warning);
    CHECK(out.sheets[0].findings[1].span == page.all.shades[page.quince].batches[0].size.span);
    // exactly the least, and exactly the capacity, are fine
    page.all.balances[small].least = grams(Exact(1, 25));
    page.all.balances[small].up_to = grams(2);
    CHECK(page.run().sheets.at(0).findings.empty());
}

TEST_CASE("two balances without a choice", "[weigh]") {
    Page page;
    page.batch(page.quince, "trial", grams(2));
    page.batch(page.quince, "full", grams(20));
    page.all.own_balances = {page.balance("one", Exact(1, 100), 2),
                             page.balance("two", Exact(1, 10), 1)};
    Sheets out = page.run();
    CHECK(out.sheets.empty());
    REQUIRE(codes(out.findings) == Strings{"balance-choice"});
    CHECK(out.findings[0].span == page.all.shades[page.quince].span);
    CHECK(out.findings[0].notes.size() == 2);
    CHECK(codes(page.check()) == Strings{"balance-choice"});
    Choice choice;
    choice.reading = Reading{};
    CHECK(page.run(choice).sheets.size() == 2);
}

TEST_CASE("expected shares, by name at any depth and by role", "[expect]") {
    Page page;
    page.batch(page.quince, "trial", grams(10));
    page.batch(page.quince, "full", grams(100));
    // as made: lake 2 + 40 % of 20 = 10 %; under matte 9 %
    page.expect(Measure::ingredient, Compare::at_most, share_of_100(9)).ingredient = page.lake;
    Sheets made = page.run();
    REQUIRE(made.sheets.size() == 2);
    REQUIRE(codes(made.sheets[0].findings) == Strings{"expect-failed"});
    CHECK(says(made.sheets[0].findings[0],
               "red 7 lake comes to 10 % in Quince, and at most 9 % is expected"));
    CHECK(codes(made.sheets[1].findings) == Strings{"expect-failed"});
    CHECK(codes(page.check()) == Strings{"expect-failed"});  // once, not once a batch
    // With a finish that the shade names, the bulk as made is no more what is judged.
    page.takes(page.quince, page.matte);
    CHECK(page.run().sheets.at(0).findings.empty());
    Choice matte;
    matte.finish = "matte";
    CHECK(page.run(matte).sheets.at(0).findings.empty());
    CHECK(page.check().empty());  // the shade names matte, and no other finish

    // Windfall mica is a mica itself and counts whole: 18 % under matte
    page.expect(Measure::role, Compare::under, share_of_100(18)).role = page.role("mica");
    Findings found = page.check();  // once, not once a batch
    REQUIRE(codes(found) == Strings{"expect-failed"});
    CHECK(says(found[0], "The mica comes to 18 % in Quince / matte, and less than 18 %"));
}

TEST_CASE("every comparison, at its edge", "[expect]") {
    Page page;
    page.batch(page.quince, "trial", grams(10));
    auto verdict = [&](Compare compare, const Exact& low, const Exact& high = 0) {
        page.all.shades[page.quince].expects.clear();
        Expectation& one = page.expect(Measure::ingredient, compare, share_of_100(low));
        one.ingredient = page.lake;  // 10 %
        one.high = share_of_100(high);
        return page.check().empty();
    };
    const Exact more(100001, 10000), less(99999, 10000);
    CHECK(verdict(Compare::at_most, 10));
    CHECK_FALSE(verdict(Compare::at_most, less));
    CHECK(verdict(Compare::at_least, 10));
    CHECK_FALSE(verdict(Compare::at_least, more));
    CHECK_FALSE(verdict(Compare::under, 10));
    CHECK(verdict(Compare::under, more));
    CHECK_FALSE(verdict(Compare::over, 10));
    CHECK(verdict(Compare::over, less));
    CHECK(verdict(Compare::is, 10));
    CHECK_FALSE(verdict(Compare::is, more));
    CHECK(verdict(Compare::between, 10, 12));
    CHECK(verdict(Compare::between, 8, 10));
    CHECK_FALSE(verdict(Compare::between, more, 12));
}

TEST_CASE("expected density and whole", "[expect]") {
    Page page;
    page.batch(page.quince, "trial", grams(10));
    page.batch(page.quince, "full", grams(100));
    page.expect(Measure::density, Compare::at_most, {Kind::density, 1, 0});
    Findings unknown = page.check();
    REQUIRE(codes(unknown) == Strings{"expect-unknown"});
    CHECK(unknown[0].severity == Severity::warning);
    CHECK(says(unknown[0], "copper mica has no density"));

    for (Ingredient& entry : page.all.ingredients)
        entry.density = grams_per_millilitre(Exact(3, 2));
    Findings dense = page.check();
    REQUIRE(codes(dense) == Strings{"expect-failed"});
    CHECK(says(dense[0], "The density comes to 1.5 g/mL in Quince, and at most 1 g/mL"));

    page.all.shades[page.quince].expects.clear();
    page.expect(Measure::whole, Compare::at_least, {Kind::mass, 50, 0});
    Findings whole = page.check();
    REQUIRE(codes(whole) == Strings{"expect-failed"});
    CHECK(says(whole[0], "The whole comes to 10 g in Quince, trial, and at least 50 g"));
}

TEST_CASE("a shade without a batch is judged on its shares", "[expect]") {
    Page page;
    page.expect(Measure::ingredient, Compare::at_most, share_of_100(9)).ingredient = page.lake;
    CHECK(codes(page.check()) == Strings{"shade-without-batch", "expect-failed"});
}

TEST_CASE("a finish that can't be stops its own sheets only", "[finish]") {
    Page page;
    page.batch(page.quince, "trial", grams(10));
    page.batch(page.quince, "full", grams(100));
    page.variant(page.quince, "sheer", {{page.base, pct(100)}});
    page.takes(page.quince,
               page.finish("heavy", {{page.clay, percent(60)}, {page.mica, percent(40)}}));
    page.takes(page.quince, page.matte);
    Choice all;
    all.all = true;
    Sheets out = page.run(all);
    CHECK(out.sheets.size() == 4);  // matte, as written and sheer, two batches
    REQUIRE(codes(out.findings) == Strings{"finish-over"});
    CHECK(says(out.findings[0], "comes to 100 %"));
    CHECK(codes(page.check()) == Strings{"finish-over"});
}

TEST_CASE("finishes that look at what is not there", "[finish]") {
    Page page;
    page.batch(page.quince, "trial", grams(10));
    auto found = [&](const Ref& what) {
        page.all.shades[page.quince].finishes.clear();
        page.takes(page.quince, page.finish("odd", {{page.clay, AsMuch{1, what}}}));
        return codes(page.check());
    };
    CHECK(found(the(page.role("wax"))) == Strings{"role-empty"});
    // the bulk is seen from above: what stands inside a blend is no line of it
    CHECK(found(ref(page.mica)) == Strings{"reference-unknown"});
    CHECK(found(ref(page.clay)) == Strings{"relative-loop"});
    CHECK(found(ref(page.lake)).empty());
}

TEST_CASE("batches of nothing", "[batch]") {
    Page page;
    page.batch(page.quince, "none", grams(0));
    page.batch(page.quince, "less", grams(-1)).size.holdback = grams(5);
    page.takes(page.quince, page.matte);
    Choice all;
    all.all = true;
    CHECK(codes(page.run(all).findings) == Strings{"batch-nothing", "batch-nothing"});
    Choice make;
    make.make = page.size(grams(0));
    CHECK(codes(page.run(make).findings) == Strings{"batch-nothing"});
    page.all.shades[page.quince].batches[0].size.broken = true;  // said before
    CHECK(codes(page.run(all).findings) == Strings{"batch-nothing"});
}
