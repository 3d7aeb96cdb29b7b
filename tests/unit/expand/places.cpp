// Which bowl comes first, what a list of materials says, and what a balance is asked. By hand.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/expand/weighable.hpp"

using namespace levigate;

namespace {

struct PageSheet {
    Compiled page;
    Sheet sheet;
};

PageSheet sheet_of(const std::string& text) {
    PageSheet out{compile(memory_world({{"a.shade", text}}), "a.shade"), {}};
    REQUIRE_FALSE(any_error(out.page.findings));
    out.sheet = expand(out.page.formulary, out.page.names, {}).sheets.at(0);
    return out;
}

}  // namespace

TEST_CASE("a blend is made before all that it goes into, however deep they are", "[bowls]") {
    // D goes into Q, Q into P, P into X; and D into Y as well, which is made of it alone.
    const auto made = sheet_of("material oil\nblend D\n 1 part oil\nblend Q\n 1 part D\n"
                               "blend P\n 1 part Q\nblend X\n 1 part P\nblend Y\n 1 part D\n"
                               "shade S\n 50 % Y\n 50 % X\n batch t 10 g\n");
    std::string order;
    for (const Bowl& bowl : made.sheet.bowls)
        if (bowl.mix != no_ingredient) order += made.page.formulary.name(bowl.mix) + " ";
    CHECK(order == "D Q P Y X ");
    CHECK(made.sheet.bowls[0].asked == 1000);  // 5 g for each of the two
}

TEST_CASE("a list of materials is rounded half up too", "[bowls]") {
    // Two thirds of 10 g are 6.666… g, a third is 3.333… g.
    const auto made =
        sheet_of("material oil\nmaterial wax\nshade S\n 2 parts oil\n 1 part wax\n batch t 10 g\n");
    REQUIRE(made.sheet.materials.size() == 2);
    CHECK(made.sheet.materials[0].steps == 667);
    CHECK(made.sheet.materials[1].steps == 333);
}

TEST_CASE("a balance that states no least weight has a capacity all the same", "[weigh]") {
    const auto codes = [](const std::string& batch) {
        const auto made = sheet_of("material oil\nbalance small\n reads 0.01 g\n up to 1.5 g\n"
                                   "shade S\n 1 part oil\n batch t " +
                                   batch + "\n");
        std::string out;
        for (const Finding& finding : made.sheet.findings)
            out += std::string(row_of(finding.code).name) + " ";
        return out;
    };
    CHECK(codes("1.5 g") == "");
    CHECK(codes("1.51 g") == "weigh-capacity ");
}

TEST_CASE("a small line is let down with the base, even if another line is larger", "[weigh]") {
    const std::string lines = "material mica\nmaterial red\nshade S\n 60 % mica\n 39.99 % oil\n"
                              " 0.01 % red\n batch t 10 g\n";
    const auto diluent = [&](const std::string& oil) {
        const auto made = sheet_of(oil + lines);
        REQUIRE(made.sheet.remedies.size() == 1);
        const std::uint32_t at = made.sheet.remedies[0].diluent;
        return made.page.formulary.name(made.sheet.bowls.back().lines.at(at).what);
    };
    CHECK(diluent("material oil\n role base\n") == "oil");
    CHECK(diluent("material oil\n role oil\n") == "mica");
}

TEST_CASE("by USP 41 a repeatability below 0.41 steps counts as 0.41 steps", "[weigh]") {
    // 2000 × 0.41 × 0.01 g = 8.2 g; with 0.005 g, more than 0.0041 g, 2000 × 0.005 g = 10 g.
    const auto least = [](const std::optional<Mass>& repeatability) {
        return in_grams(least_by_usp41(grams(Exact(1, 100)), repeatability));
    };
    CHECK(least({}) == Exact(82, 10));
    CHECK(least(grams(Exact(4, 1000))) == Exact(82, 10));
    CHECK(least(grams(Exact(5, 1000))) == 10);
}
