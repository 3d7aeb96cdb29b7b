// Resolving: rules that the language reference states, each on a small file.

#include "interpreter/compile.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "interpreter/expand/expand.hpp"

using namespace levigate;

namespace {

Compiled compiled(std::map<std::string, std::string> files) {
    return compile(memory_world(std::move(files)), "a.shade");
}

/// Exact grams of an ingredient in the shade's own bowl of the first sheet, as a fraction.
std::string grams_of(const Compiled& compiled, const std::string& shade, const std::string& name) {
    Choice choice;
    choice.shade = shade;
    const Sheets sheets = expand(compiled.formulary, compiled.names, choice);
    if (sheets.sheets.empty()) return "no sheet";
    for (const SheetLine& line : sheets.sheets[0].bowls.back().lines)
        if (compiled.formulary.name(line.what) == name) return in_grams(line.exact).fraction();
    return "no line";
}

const std::string materials = "material oil\n    role base\n    density 0.9 g/mL\n"
                              "material mica\n    role mica\n    bulk 0.3 g/mL\n"
                              "    density 3 g/mL\nmaterial lake\n    role lake\n";

}  // namespace

TEST_CASE("a child's let reaches the lines that it inherits") {
    const auto c = compiled(
        {{"a.shade", materials + "shade A\n    let {d} = 10 %\n    rest oil\n    {d} mica\n"
                                 "    batch t 10 g\nshade B like A\n    let {d} = 20 %\n"
                                 "shade C like B\n    set (2 × {d}) mica\n"}});
    CHECK(c.findings.empty());
    CHECK(grams_of(c, "A", "mica") == "1");
    CHECK(grams_of(c, "B", "mica") == "2");
    CHECK(grams_of(c, "C", "mica") == "4");
}

TEST_CASE("a powder by the spoon counts by its bulk, a liquid by its density") {
    // 10 mL × 0.3 g/mL = 3 g of mica beside 27 g of oil, so 3/30 of 10 g.
    const auto c = compiled(
        {{"a.shade", materials +
                         "shade A\n    27 g oil\n    10 mL mica\n    batch t 10 g\n"
                         "shade B\n    rest oil\n    1 mL per 10 g mica\n    batch t 10 g\n"}});
    CHECK(c.findings.empty());
    CHECK(grams_of(c, "A", "mica") == "1");
    CHECK(grams_of(c, "B", "mica") == "3/10");
}

TEST_CASE("a swap keeps the amount as it was written") {
    // 1 mL per 10 g of mica is 3 %; of oil, with 0.9 g/mL, it is 9 %.
    const auto c =
        compiled({{"a.shade",
                   materials + "shade A\n    rest lake\n    1 mL per 10 g mica\n    batch t 10 g\n"
                               "shade B like A\n    swap mica for oil\n"}});
    CHECK(c.findings.empty());
    CHECK(grams_of(c, "A", "mica") == "3/10");
    CHECK(grams_of(c, "B", "oil") == "9/10");
}

TEST_CASE("rebalance: what was set stands, the others shrink together") {
    // 20, 30 and 50 %; 20 becomes 40, so 30 and 50 share 60 as 3 to 5.
    const auto c =
        compiled({{"a.shade", materials + "shade A\n    20 % mica\n    30 % lake\n    50 % oil\n"
                                          "    batch t 100 g\nshade B like A\n    set 40 % mica\n"
                                          "    rebalance\n"}});
    CHECK(c.findings.empty());
    CHECK(grams_of(c, "B", "mica") == "40");
    CHECK(grams_of(c, "B", "lake") == "45/2");
    CHECK(grams_of(c, "B", "oil") == "75/2");
}

TEST_CASE("a person's block takes the place of the library's, and clashes with another person's") {
    const auto own =
        compiled({{"a.shade", materials + "unit tsp = 5 mL\ncontainer slim tube\n    holds 3 g\n"
                                          "shade A\n    rest oil\n    batch t 2 slim tubes\n"}});
    CHECK(own.findings.empty());
    CHECK(grams_of(own, "A", "oil") == "6");
    const auto twice =
        compiled({{"a.shade", "use \"b.shade\"\nmaterial oil\n"}, {"b.shade", "material Oil\n"}});
    REQUIRE(twice.findings.size() == 1);
    CHECK(twice.findings[0].code == Code::block_twice);
    CHECK(twice.findings[0].notes.size() == 1);
}

TEST_CASE("files: read once, found beside the one that uses them, never outside, no ring") {
    const auto once = compiled({{"a.shade", "use \"b.shade\"\nuse \"sub/c.shade\"\n"
                                            "shade A\n    rest oil\n    batch t 1 g\n"},
                                {"b.shade", "use \"sub/c.shade\"\n"},
                                {"sub/c.shade", "use \"d.shade\"\n"},
                                {"sub/d.shade", "material oil\n"}});
    CHECK(once.findings.empty());
    const auto ring =
        compiled({{"a.shade", "use \"b.shade\"\n"}, {"b.shade", "use \"a.shade\"\n"}});
    REQUIRE(ring.findings.size() == 1);
    CHECK(ring.findings[0].code == Code::use_loop);
    const auto out = compiled({{"a.shade", "use \"../b.shade\"\n"}});
    REQUIRE(out.findings.size() == 1);
    CHECK(out.findings[0].code == Code::use_outside);
}

TEST_CASE("an unknown name is said once, with the near one") {
    const auto c = compiled({{"a.shade", materials + "shade A\n    rest oyl\n    batch t 1 g\n"
                                                     "shade B\n    rest oyl\n    batch t 1 g\n"}});
    REQUIRE(c.findings.size() == 1);
    CHECK(remedy(c.findings[0]) == "oil");
}

TEST_CASE("a family's members: every combination, names from what the holes hold") {
    const auto c =
        compiled({{"a.shade",
                   materials + "shade A\n    let {d} = 10 %\n    let {tone} = mica\n    rest oil\n"
                               "    {d} {tone}\n    batch t 10 g\n"
                               "family F\n    from A\n    vary {d} over 5 %, 1/2 %\n"
                               "    vary {tone} over mica, lake\n    name F {d} {tone}\n"}});
    CHECK(c.findings.empty());
    REQUIRE(c.formulary.shades.size() == 5);
    CHECK(c.formulary.shades[1].name == "F 5 % mica");
    CHECK(c.formulary.shades[2].name == "F 5 % lake");
    CHECK(c.formulary.shades[4].name == "F 1/2 % lake");
    CHECK(grams_of(c, "F 5 % lake", "lake") == "1/2");
}

TEST_CASE("between two shades every line goes the same way") {
    const auto c = compiled(
        {{"a.shade", materials + "shade A\n    rest oil\n    10 % mica\n    batch t 100 g\n"
                                 "shade B\n    rest oil\n    20 % lake\n    batch t 100 g\n"
                                 "family F\n    between A and B in 5 steps\n    name F {step}\n"}});
    CHECK(c.findings.empty());
    CHECK(grams_of(c, "F 1", "mica") == "10");
    CHECK(grams_of(c, "F 2", "mica") == "15/2");
    CHECK(grams_of(c, "F 2", "lake") == "5");
    CHECK(grams_of(c, "F 3", "oil") == "85");
    CHECK(grams_of(c, "F 5", "lake") == "20");
    CHECK(grams_of(c, "F 5", "mica") == "no line");
}

TEST_CASE("what is broken never goes without a finding") {
    auto c = compiled({{"a.shade", materials + "shade A\n    rest oil\n    batch t 10 g\n"
                                               "    finishes satin\n"}});
    REQUIRE(c.findings.empty());
    never_in_silence(c.formulary, c.findings);
    CHECK(c.findings.empty());
    const auto said_of = [&](auto damage) {
        Formulary broken = c.formulary;
        damage(broken.shades[0], broken);
        Findings findings{
            {.code = Code::lot_past, .message = "", .span = {}}};
        never_in_silence(broken, findings);
        REQUIRE(findings.size() == 2);
        CHECK(findings[1].severity == Severity::error);
        CHECK(findings[1].span == broken.shades[0].span);
        never_in_silence(broken, findings);  // there is an error now
        return findings.size() == 2 ? row_of(findings[1].code).name : "";
    };
    CHECK(said_of([](Shade& s, Formulary&) { s.versions[0].broken = true; }) ==
          "shade-unexplained");
    CHECK(said_of([](Shade& s, Formulary&) { s.batches[0].size.broken = true; }) ==
          "shade-unexplained");
    CHECK(said_of([](Shade& s, Formulary& f) {
              f.finishings[s.finishes[0].finishing].broken = true;
          }) == "shade-unexplained");
    CHECK(said_of([](Shade& s, Formulary&) { s.finishes[0].finishing = nothing; }) ==
          "shade-unexplained");
}
