// What is told of a sealed blend, and the digest. The bands are ranges of 29 CFR
// 1910.1200(i)(1)(iv) as amended in 2024 (memory); sums by hand; the digest by sha256sum.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/rules/lips.hpp"
#include "interpreter/share/digest.hpp"
#include "interpreter/share/seal.hpp"

using namespace levigate;
using namespace levigate::sharing;

namespace {

Extent range(const Exact& least, const Exact& most) { return {percent(least), percent(most)}; }

bool same(const Extent& a, const Extent& b) { return a.least == b.least && a.most == b.most; }

Compiled page(const std::string& text) {
    return compile(memory_world({{"a.shade", text}}), "a.shade", Library::with_rules);
}

Seal sealed(const std::string& text) {
    const Compiled compiled = page(text);
    REQUIRE_FALSE(any_error(compiled.findings));
    const Formulary& formulary = compiled.formulary;
    for (IngredientId id = 0; id < formulary.ingredients.size(); ++id)
        if (formulary.ingredients[id].sealed) {
            auto made = seal(formulary, compiled.names, id);
            CHECK(made.findings.empty());
            return made.value;
        }
    return {};
}

}  // namespace

TEST_CASE("a range is made of the bands that hold both ends") {
    // Of 3 materials 2 to 30 % of each is Mica, so that no sum is the same for all formulas.
    const auto told = [](int parts, const std::string& line) {
        const Seal one = sealed("material oil\n    label Lanolin\n"
                                "material wax\n    label Cera Alba\n"
                                "blend base\n    " + line + "\n    " + std::to_string(parts) +
                                " parts oil\n    " + std::to_string(1000 - parts) +
                                " parts wax\nshade S\n    1 part base\n    batch t 6 g\n");
        return one.label[1].range;
    };
    CHECK(same(told(3, "sealed within 0.1 %"), range(Exact(1, 10), 1)));
    CHECK(same(told(3, "sealed within 1 %"), range(0, 1)));
    CHECK(same(told(3, "sealed"), range(0, 5)));
    CHECK(same(told(3, "sealed within 20 %"), range(0, 30)));
    CHECK(same(told(49, "sealed"), range(0, 5)));
    CHECK(same(told(50, "sealed"), range(5, 10)));  // a band holds its lower end
    CHECK(same(told(99, "sealed"), range(5, 10)));
    CHECK(same(told(100, "sealed"), range(10, 30)));
    CHECK(same(told(650, "sealed"), range(60, 80)));
    CHECK(same(told(850, "sealed"), range(80, 100)));
    CHECK(same(told(850, "sealed within 50 %"), range(0, 100)));
}

TEST_CASE("what hangs on no amount is told outright") {
    const Seal one = sealed("material oil\n    label Lanolin 40 %, Cera Alba 60 %\n"
                            "blend base\n    sealed\n    3 parts oil\n"
                            "shade S\n    1 part base\n    batch t 6 g\n");
    REQUIRE(one.label.size() == 2);
    CHECK(same(one.label[0].range, range(60, 60)));
    CHECK(same(one.label[1].range, range(40, 40)));
}

TEST_CASE("names of one ingredient add up, and come by the alphabet") {
    // 3 of 4 are wax mix, of which 60 % is wax: 45 %; and 1 of 4 is wax alone: 70 % in all.
    const Seal seal = sealed("material wax mix\n    label Cera Alba 60 %, Candelilla Cera\n"
                             "material wax\n    label Cera Alba\n"
                             "blend inner\n    1 part wax\n    3 parts wax mix\n"
                             "blend base\n    sealed\n    1 part inner\n"
                             "shade S\n    1 part base\n    batch t 6 g\n");
    REQUIRE(seal.label.size() == 2);
    CHECK(seal.label[1].name.name == "Cera Alba");
    CHECK(same(seal.label[1].truth, range(70, 70)));
    CHECK(same(seal.label[0].truth, range(30, 30)));
}

TEST_CASE("what a sealed blend holds nothing of is not told") {
    // Neither by its name nor by its number, its hazard, its strength or its missing label.
    const Seal seal = sealed("material wax\n    label Cera Alba\n"
                             "material red\n    label Red 7 Lake\n"
                             "    colourant CI 15850:1, strength 40 %\n    hazard powder\n"
                             "material dust\n"
                             "blend base\n    sealed\n    1 part wax\n    0 % red\n    0 % dust\n"
                             "shade S\n    1 part base\n    batch t 6 g\n");
    REQUIRE(seal.label.size() == 1);
    CHECK(seal.label[0].name.name == "Cera Alba");
    CHECK(seal.indices.empty());
    CHECK_FALSE(seal.powder);
    CHECK_FALSE(seal.strength.has_value());
}

TEST_CASE("of two colours what is told holds for both") {
    // Hazards of all that is in it, at any depth; a strength only if all have it.
    const std::string red = "material red\n    label Red 7 Lake\n    certified lot 1\n"
                            "    colourant CI 15850:1, strength 40 %\n";
    const std::string black = "material black\n    label CI 77499\n    colourant CI 77499\n"
                              "    hazard powder\n";
    const std::string blends = "material oil\n    label Ricinus Communis Seed Oil\n"
                               "blend inner\n    1 part red\n    1 part black\n"
                               "blend base\n    sealed\n    1 part oil\n    1 part inner\n"
                               "shade S\n    1 part base\n    batch t 6 g\n";
    for (const std::string& page : {red + black + blends, black + red + blends}) {
        const Seal one = sealed(page);
        CHECK(one.powder);
        CHECK_FALSE(one.strength.has_value());
    }
}

TEST_CASE("what several rules know of a content is told from the least to the most") {
    // Half of the blend is mica: 20 % of that by one rule and 30 % by the other, 10 % to 15 %.
    const Seal one = sealed("rule XX Foo\n    covers foo\n    in Mica 20 %\n"
                            "    lips at most 50 %\n    ask of lake\n"
                            "rule YY Foo\n    covers foo\n    in Mica 30 %\n"
                            "    lips at most 50 %\n"
                            "material mica\n    label Mica\nmaterial oil\n    label Lanolin\n"
                            "blend colour\n    sealed\n    role lake\n    1 part mica\n"
                            "    1 part oil\nshade S\n    1 part colour\n    batch t 6 g\n");
    std::string seen;
    for (const Told& told : one.contains)
        if (told.name.name == "foo") {
            seen = told.name.name;
            CHECK(same(told.truth, range(10, 15)));
        }
    CHECK(seen == "foo");
}

TEST_CASE("a material without a label that has two numbers may be all of either") {
    const Seal two = sealed("material oil\n    label Ricinus Communis Seed Oil\n"
                            "material rust\n    colourant CI 77491, CI 77499\n"
                            "blend base\n    sealed\n    3 parts oil\n    1 part rust\n"
                            "shade S\n    1 part base\n    batch t 6 g\n");
    REQUIRE(two.label.size() == 3);
    for (const Told& told : two.label)
        CHECK(same(told.truth, told.indices.empty() ? range(75, 75) : range(0, 25)));
}

TEST_CASE("what a rule asks about and a material doesn't say may be all of that material") {
    const Seal seal = sealed("rule XX Aluminium\n    covers aluminium\n    lips at most 1 %\n"
                             "    ask of lake\n"
                             "material red\n    role lake\n    label Red 7 Lake\n"
                             "    colourant CI 15850:1\n"
                             "material white\n    label Silica\n    contains aluminium 10 %\n"
                             "blend colour\n    sealed\n    1 part red\n    3 parts white\n"
                             "shade S\n    1 part colour\n    batch t 6 g\n");
    REQUIRE(seal.contains.size() >= 1);
    CHECK(seal.contains[0].name.name == "aluminium");
    // 10 % of 75 % is known; of the lake's 25 % nothing is.
    CHECK(same(seal.contains[0].truth, range(Exact(15, 2), Exact(65, 2))));
}

TEST_CASE("rules count a range at its upper end, and say so") {
    const Compiled compiled =
        page("market XX\nrule XX Red\n    covers CI 17200\n    lips at most 3 %\n"
             "material red\n    label CI 17200 10 % to 40 %, Mica\n    colourant CI 17200\n"
             "material base\nshade S\n    10 % red\n    rest base\n    batch t 6 g\n");
    REQUIRE_FALSE(any_error(compiled.findings));
    LipJudge judge(compiled.formulary, compiled.names, {});
    each_product(compiled.formulary, compiled.names, {},
                 [&](const Product& product) { judge.add(product); });
    std::string limit;
    for (const Finding& finding : judge.findings())
        if (finding.code == Code::lips_limit) limit = finding.message;
    // 10 % of the whole, of which at most 40 % is red: 4 %.
    CHECK(limit.find("comes to up to 4 %") != std::string::npos);
    CHECK(limit.find("10 % red × up to 40 %") != std::string::npos);
}

TEST_CASE("the digest is SHA-256 over lines without their blanks") {
    // printf 'edition One\nnumber 3\n' | sha256sum
    const std::string digest =
        "sha256 07bd8c2858d3c104760896fb76d47cc9f5f7c5ccd1cdb5b39e1ab7d22a9134ca";
    CHECK(edition_digest("edition One\n    number 3\n") == digest);
    CHECK(edition_digest("edition  One\r\n\r\nnumber\t3") == digest);
    CHECK(edition_digest("> edition One\n>  number 3 \n>\n") == digest);
    CHECK(edition_digest("edition One\n  digest  sha256 00\n  number 3\n") == digest);
    CHECK(edition_digest("edition One\n    number 4\n") != digest);
    // What mail and chats put in place of quotes and dashes.
    CHECK(edition_digest("note \u201Ctwo\u201D \u2013 \u2019one\u2019\n") ==
          edition_digest("note \"two\" - 'one'\n"));
    CHECK(edition_digest("edition One number 3\n") != digest);
}
