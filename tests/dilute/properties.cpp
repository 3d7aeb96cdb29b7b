// What must hold of any page with `dilute` lines, however its numbers come.
#include <catch2/catch.hpp>

#include "interpreter/formulary/dilute.hpp"
#include "interpreter/plan/plan.hpp"
#include "interpreter/query/tidied.hpp"
#include "tests/dilute/made.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

constexpr std::uint64_t pages = 400;
constexpr std::uint64_t seed = 20261129;

/// Steps of the least that can be weighed, as the pages write it: 20 steps where nothing is said.
Exact least_steps(const Reading& reading) {
    if (!reading.least) return Exact(20);
    const Exact steps = in_grams(*reading.least) / in_grams(reading.step);
    return steps.is_integer() ? steps : steps.floor() + 1;
}

void check_bowls(const Compiled& page, const Sheet& sheet) {
    const Formulary& all = page.formulary;
    for (const Bowl& bowl : sheet.bowls) {
        const Dilution* one = dilution_of(all, bowl.mix);
        if (!one) continue;
        REQUIRE(bowl.lines.size() == 2);
        CHECK(bowl.asked <= bowl.steps);
        for (const SheetLine& line : bowl.lines) CHECK(line.steps >= least_steps(sheet.reading));
        Exact need, used;
        for (const SheetLine& line : bowl.lines) need += in_grams(line.exact);
        for (const Bowl& user : sheet.bowls)
            for (const SheetLine& line : user.lines)
                if (line.what == bowl.mix) used += in_grams(line.exact);
        CHECK(need == used);
        CHECK(in_grams(bowl.lines[0].exact) == as_fraction(one->strength) * used);
    }
}

bool any_dilution(const Compiled& page, const Sheets& sheets) {
    for (const Sheet& sheet : sheets.sheets)
        for (const Bowl& bowl : sheet.bowls)
            if (dilution_of(page.formulary, bowl.mix)) return true;
    return false;
}

std::vector<std::pair<std::string, Exact>> products(const Compiled& page) {
    std::vector<std::pair<std::string, Exact>> out;
    Choice choice;
    choice.all = true;
    each_product(page.formulary, page.names, choice, [&](const Product& product) {
        out.emplace_back(title_of(page.formulary, product), Exact());
        for (const ProductMaterial& one : product.materials)
            out.emplace_back(page.formulary.name(one.what), as_fraction(one.share));
    });
    return out;
}

}  // namespace

TEST_CASE("with and without dilutions the same is in every bowl, exactly", "[dilute]") {
    std::size_t diluted = 0, plain_sheets = 0;
    for (std::uint64_t i = 0; i < pages; ++i) {
        const std::string text = random_page(seed + i);
        const Compiled with = compiled(text), without = compiled(without_dilutions(text));
        INFO("seed " << seed + i << "\n" << text);
        REQUIRE_FALSE(any_error(with.findings));
        REQUIRE_FALSE(any_error(without.findings));
        CHECK(products(with) == products(without));
        const Sheets here = all_sheets(with), there = all_sheets(without);
        REQUIRE(here.findings.empty());
        REQUIRE(here.sheets.size() == there.sheets.size());
        diluted += any_dilution(with, here);
        plain_sheets += there.sheets.size();
        CHECK_FALSE(any_dilution(without, there));
        for (std::size_t k = 0; k < here.sheets.size(); ++k) {
            const Sheet &a = here.sheets[k], &b = there.sheets[k];
            CHECK(a.total == b.total);
            CHECK(flattened(with, a) == flattened(without, b));
            REQUIRE(a.materials.size() == b.materials.size());
            for (std::size_t n = 0; n < a.materials.size(); ++n) {
                CHECK(with.formulary.name(a.materials[n].what) ==
                      without.formulary.name(b.materials[n].what));
                CHECK(a.materials[n].exact == b.materials[n].exact);
            }
            check_bowls(with, a);
        }
    }
    CHECK(diluted > pages / 2);  // else this test would look at nothing
    CHECK(plain_sheets > pages * 10);
}

TEST_CASE("twice as much takes twice as much of everything, exactly", "[dilute]") {
    for (std::uint64_t i = 0; i < pages / 8; ++i) {
        const Compiled page = compiled(random_page(seed + i));
        std::vector<std::map<std::string, Exact>> exact;
        for (const int size : {7, 14}) {
            Choice choice;
            choice.shade = "Quince";
            choice.make = BatchSize{grams(size), {}, {}, {}, false};
            const Sheets sheets = expand(page.formulary, page.names, choice);
            REQUIRE(sheets.sheets.size() == 1);
            std::map<std::string, Exact>& lines = exact.emplace_back();
            const Sheet& sheet = sheets.sheets[0];
            for (const Bowl& bowl : sheet.bowls)
                for (const SheetLine& line : bowl.lines)
                    lines[std::to_string(bowl.mix) + page.formulary.name(line.what)] +=
                        in_grams(line.exact);
        }
        REQUIRE(exact[0].size() == exact[1].size());
        for (const auto& [what, grams] : exact[0]) CHECK(grams * 2 == exact[1][what]);
    }
}

TEST_CASE("tidied, a page says the same, and tidied again it stays", "[dilute]") {
    for (std::uint64_t i = 0; i < pages / 8; ++i) {
        const std::string text = random_page(seed + i);
        const TidiedFile once = tidied(memory_world({{"a.shade", text}}), "a.shade");
        INFO(text << once.tidied.text);
        REQUIRE(once.tidied.findings.empty());
        const TidiedFile twice = tidied(memory_world({{"a.shade", once.tidied.text}}), "a.shade");
        CHECK(twice.tidied.text == once.tidied.text);
        const Compiled before = compiled(text), after = compiled(once.tidied.text);
        const Sheets was = all_sheets(before), is = all_sheets(after);
        REQUIRE(was.sheets.size() == is.sheets.size());
        for (std::size_t k = 0; k < was.sheets.size(); ++k) {
            REQUIRE(was.sheets[k].bowls.size() == is.sheets[k].bowls.size());
            for (std::size_t n = 0; n < was.sheets[k].bowls.size(); ++n)
                CHECK(was.sheets[k].bowls[n].steps == is.sheets[k].bowls[n].steps);
        }
    }
}

TEST_CASE("on a plan a dilution is one bowl, and its portions are what is asked", "[dilute]") {
    std::size_t shared = 0;
    for (std::uint64_t i = 0; i < pages / 8; ++i) {
        const std::string text = random_page(seed + i) +
                                 "plan all\n    make full of Quince\n    make trial of Quince\n"
                                 "    make full of Damson\n";
        const Compiled page = compiled(text);
        INFO(text);
        REQUIRE_FALSE(any_error(page.findings));
        const Planned plan =
            make_plan(page.formulary, page.names, page.formulary.plans.at(0), std::nullopt);
        std::map<IngredientId, int> seen;
        for (const PlanBowl& bowl : plan.bowls) {
            if (!dilution_of(page.formulary, bowl.bowl.mix)) continue;
            CHECK(++seen[bowl.bowl.mix] == 1);
            Exact portions;
            for (const Portion& portion : bowl.portions) portions += portion.steps;
            CHECK(portions == bowl.bowl.asked);
            for (const SheetLine& line : bowl.bowl.lines)
                CHECK(line.steps >= least_steps(plan.reading));
            shared += bowl.portions.size() > 1;
        }
    }
    CHECK(shared > 0);
}

TEST_CASE("what a finding says to write instead is enough", "[dilute]") {
    int mended = 0;
    for (int size = 1; size <= 9; size += 2)
        for (int base = 1; base <= 25; base += 3)
            for (int strength = 1; strength <= 60; strength += 7) {
                const std::string written =
                    "dilute red lake to " + std::to_string(strength) + " % in oil";
                const auto page = [&](const std::string& line) {
                    return "material wax\nmaterial oil\nmaterial red lake\nshade Quince\n"
                           "    rest wax\n    " +
                           std::to_string(base) + " % oil\n    " + std::to_string(size) +
                           " % red lake\n    " + line + "\n    batch trial 10 g\n";
                };
                const Compiled first = compiled(page(written));
                // n % diluted to q % take n × (100 − q) ÷ q % of base
                const bool enough = size * (100 - strength) <= base * strength;
                CHECK(any_error(first.findings) != enough);
                if (enough) continue;
                REQUIRE(first.findings.size() == 1);
                CHECK(first.findings[0].code == Code::dilute_short);
                INFO(page(remedy(first.findings[0])));
                const Compiled second = compiled(page(remedy(first.findings[0])));
                CHECK(second.findings.empty());
                CHECK(all_sheets(second).sheets.size() == 1);
                ++mended;
            }
    CHECK(mended > 100);
}
