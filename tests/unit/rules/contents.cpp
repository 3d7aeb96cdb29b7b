// Net contents. 1 oz = 28.349523125 g and 1 US fl oz = 29.5735295625 mL exactly (NIST; the figures
// of
// ../shared/facts, check_values.md). Always rounded down. EU: no statement under 5 g or 5 mL
// (Regulation (EC) 1223/2009, Article 19(1)(b); exactly 5 is not under 5).

#include <catch2/catch.hpp>

#include "tests/unit/rules/made.hpp"

using namespace levigate;
using namespace levigate::testing;

TEST_CASE("ounces are rounded down to two places") {
    const auto ounces = [](Exact g) { return ounces_text(grams(g)); };
    CHECK(ounces({35, 10}) == "0.12 oz");    // 3.5 / 28.349… = 0.12345…
    CHECK(ounces({425, 100}) == "0.14 oz");  // 0.1499…: to the nearest it would say too much
    CHECK(ounces(5) == "0.17 oz");           // 0.1763…
    CHECK(ounces(10) == "0.35 oz");          // 0.3527…
    CHECK(ounces({28'349'523'125, 1'000'000'000}) == "1 oz");
    CHECK(ounces({28'349'523'124, 1'000'000'000}) == "0.99 oz");
    // 16 oz = 1 lb; no ounces are over.
    CHECK(ounces({16 * 28'349'523'125LL, 1'000'000'000}) == "16 oz (1 lb)");
    CHECK(ounces(500) == "17.63 oz (1 lb 1.63 oz)");  // 17.6369…; 16 oz = 1 lb
    CHECK(ounces({2, 10}) == "0.007 oz");             // 0.00705…: two places would read nothing
}

TEST_CASE("fluid ounces too") {
    const auto fluid = [](Exact mL) { return fluid_ounces_text(millilitres(mL)); };
    CHECK(fluid(4) == "0.13 fl oz");         // 4 / 29.5735… = 0.13525…
    CHECK(fluid({45, 10}) == "0.15 fl oz");  // 0.15216…
    CHECK(fluid({295'735'295'625, 10'000'000'000}) == "1 fl oz");
    CHECK(fluid({295'735'295'624, 10'000'000'000}) == "0.99 fl oz");
}

TEST_CASE("metric figures have three digits, rounded down") {
    CHECK(grams_text(grams({35, 10})) == "3.5 g");
    CHECK(grams_text(grams({4259, 1000})) == "4.25 g");
    CHECK(grams_text(grams({1279, 100})) == "12.7 g");
    CHECK(grams_text(grams({1139, 10})) == "113 g");
    CHECK(millilitres_text(millilitres({45, 10})) == "4.5 mL");
}

namespace {

Boxed filled(const std::string& holds, const std::string& market, const std::string& density = {}) {
    return made("material oil\nlabel Ricinus Communis Seed Oil\n" + density +
                    "container pot\nholds " + holds +
                    "\nshade Quince\nrest oil\nbatch full 12 pots, overage 5 %\n"
                    "batch trial 6 g\n",
                market);
}

}  // namespace

TEST_CASE(
    "what one container holds is stated, whatever the overage; a batch by weight states none") {
    const auto contents = filled("3.5 g", "US").labels.labels.at(0).contents;
    REQUIRE(contents.size() == 1);
    CHECK(contents[0].batch == "full");
    CHECK(in_grams(*contents[0].mass) == Exact(7, 2));
    CHECK(contents[0].needed);
}

TEST_CASE("a region says in which system contents are written") {
    // Both are wanted in the US (Fair Packaging and Labeling Act, 1992), grams alone do in the EU.
    const auto text = [](const std::string& holds, const std::string& market) {
        return filled(holds, market).labels.labels.at(0).contents.at(0).text;
    };
    CHECK(text("3.5 g", "US") == "Net Wt 0.12 oz (3.5 g)");
    CHECK(text("3.5 g", "EU") == "3.5 g");
    CHECK(text("4 mL", "US") == "0.13 fl oz (4 mL)");
    CHECK(text("4 mL", "EU") == "4 mL");
}

TEST_CASE("in the EU packs under 5 g need state nothing, packs of exactly 5 g must") {
    const auto needed = [](const std::string& holds, const std::string& density = {}) {
        return filled(holds, "EU", density).labels.labels.at(0).contents.at(0).needed;
    };
    CHECK_FALSE(needed("3.5 g"));
    CHECK_FALSE(needed("4.999999 g"));
    CHECK(needed("5 g"));
    CHECK(needed("5 mL"));
    CHECK_FALSE(needed("4.9 mL", "density 0.96 g/mL\n"));
    // 4.9 mL × 1.1 g/mL = 5.39 g: it is sold by weight, so the weight counts too.
    CHECK(needed("4.9 mL", "density 1.1 g/mL\n"));
}

TEST_CASE("the weight of what a container of millilitres holds needs a density") {
    // 4 mL × 0.96 g/mL = 3.84 g; / 28.349… = 0.1354… oz
    const auto known = filled("4 mL", "US", "density 0.96 g/mL\n").labels.labels.at(0);
    CHECK(in_grams(*known.contents.at(0).mass) == Exact(384, 100));
    CHECK(ounces_text(*known.contents[0].mass) == "0.13 oz");
    CHECK(known.warnings.empty());
    const auto lacking = filled("4 mL", "US").labels.labels.at(0);
    CHECK_FALSE(lacking.contents.at(0).mass);
    REQUIRE(lacking.warnings.size() == 1);
    CHECK(lacking.warnings[0].find("oil") != std::string::npos);
}
