// Which sheets come out, and in which order.

#include <catch2/catch.hpp>

#include "interpreter/expand/expand.hpp"
#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;
using Strings = std::vector<std::string>;

namespace {

/// Two shades of one's own and one from another file.
struct ThreeShades : Hand {
    IngredientId base = material("soft base", "base");
    IngredientId clay = material("kaolin", "clay");
    FinishingId satin = finish("satin", {});
    FinishingId matte = finish("matte", {{clay, percent(10)}});
    ShadeId quince = shade("Quince", {{base, pct(100)}});
    ShadeId other = shade("Elder", {{base, pct(100)}});
    ShadeId damson = shade("Damson", {{base, pct(100)}});

    ThreeShades() {
        all.shades[other].own = false;
        variant(quince, "sheer", {{base, pct(100)}});
        variant(quince, "deep", {{base, pct(100)}});
        takes(quince, satin);
        takes(quince, matte);
        batch(quince, "trial", grams(6));
        batch(quince, "full", grams(60));
        batch(damson, "trial", grams(6));
        batch(other, "trial", grams(6));
    }

    Strings sheets(const Choice& choice, Findings* found = nullptr) {
        Sheets out = expand(all, names, choice);
        Strings titles;
        for (const Sheet& sheet : out.sheets) {
            const Shade& of = all.shades[sheet.shade];
            std::string title = of.name + "/" + of.versions[sheet.version].variant + "/";
            if (sheet.finishing != nothing)
                title += all.finishes[all.finishings[sheet.finishing].finish].name;
            title += "/";
            if (sheet.batch != nothing) title += of.batches[sheet.batch].name;
            titles.push_back(title);
        }
        if (found)
            *found = out.findings;
        else
            CHECK(out.findings.empty());
        return titles;
    }
};

}  // namespace

TEST_CASE("unnamed choices: as written, as made, each batch", "[select]") {
    ThreeShades page;
    CHECK(page.sheets({}) == Strings{"Quince///trial", "Quince///full", "Damson///trial"});
}

TEST_CASE("all: variants, then finishes, then batches", "[select]") {
    ThreeShades page;
    Choice choice;
    choice.all = true;
    CHECK(page.sheets(choice) ==
          Strings{"Quince//satin/trial", "Quince//satin/full", "Quince//matte/trial",
                  "Quince//matte/full", "Quince/sheer/satin/trial", "Quince/sheer/satin/full",
                  "Quince/sheer/matte/trial", "Quince/sheer/matte/full", "Quince/deep/satin/trial",
                  "Quince/deep/satin/full", "Quince/deep/matte/trial", "Quince/deep/matte/full",
                  "Damson///trial"});
    choice.finish = "Matte";  // case is no matter
    choice.batch = "full";
    CHECK(page.sheets(choice) ==
          Strings{"Quince//matte/full", "Quince/sheer/matte/full", "Quince/deep/matte/full"});
}

TEST_CASE("choices by name", "[select]") {
    ThreeShades page;
    Choice choice;
    choice.shade = "  damson ";
    CHECK(page.sheets(choice) == Strings{"Damson///trial"});
    choice = {};
    choice.variant = "deep";
    CHECK(page.sheets(choice) == Strings{"Quince/deep//trial", "Quince/deep//full"});
    choice.finish = "matte";
    choice.batch = "trial";
    CHECK(page.sheets(choice) == Strings{"Quince/deep/matte/trial"});
    choice = {};
    choice.make = page.size(grams(9));
    CHECK(page.sheets(choice) == Strings{"Quince///", "Damson///"});
}

TEST_CASE("choices that name nothing", "[select]") {
    ThreeShades page;
    Findings findings;
    Choice choice;
    choice.shade = "Quinse";
    CHECK(page.sheets(choice, &findings).empty());
    REQUIRE(codes(findings) == Strings{"choice-none"});
    CHECK(remedy(findings[0]) == "Quince");

    choice.shade = "Elder";  // stands in another file
    CHECK(page.sheets(choice, &findings).empty());
    REQUIRE(codes(findings) == Strings{"choice-none"});
    CHECK(remedy(findings[0]) == "Known here: Quince and Damson.");

    choice.shade = "Damson";
    choice.finish = "matte";
    CHECK(page.sheets(choice, &findings).empty());
    CHECK(codes(findings) == Strings{"choice-none"});

    choice = {};
    choice.batch = "fill";
    CHECK(page.sheets(choice, &findings).empty());
    REQUIRE(codes(findings) == Strings{"choice-none"});
    CHECK(remedy(findings[0]) == "full");
}

TEST_CASE("a shade without a batch gets an advice", "[select]") {
    ThreeShades page;
    page.all.shades[page.damson].batches.clear();
    Findings findings;
    CHECK(page.sheets({}, &findings) == Strings{"Quince///trial", "Quince///full"});
    REQUIRE(codes(findings) == Strings{"shade-without-batch"});
    CHECK(findings[0].severity == Severity::advice);
    CHECK(findings[0].span == page.all.shades[page.damson].span);
    Choice choice;
    choice.make = page.size(grams(9));
    CHECK(page.sheets(choice).size() == 2);
}

TEST_CASE("what was broken before is left out in silence", "[select]") {
    ThreeShades page;
    page.all.shades[page.quince].versions[1].broken = true;
    page.all.shades[page.quince].finishes[0].finishing = nothing;
    page.all.shades[page.damson].broken = true;
    Choice choice;
    choice.all = true;
    choice.batch = "trial";
    CHECK(page.sheets(choice) == Strings{"Quince//matte/trial", "Quince/deep/matte/trial"});
}
