// Edits one after the other: what each leaves for the next. Shares in per cent, by hand.

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"

using namespace levigate;

namespace {

const std::string bench = "material oil\n role base\n density 0.9 g/mL\n"
                          "material wax\n role base\nmaterial mica\n role mica\n density 3 g/mL\n"
                          "material lake\n role lake\n density 1.5 g/mL\n"
                          "material clay\n role clay\n";

Compiled bench_page(const std::string& lines) {
    return compile(memory_world({{"a.shade", bench + lines}}), "a.shade");
}

/// "oil 70, mica 30" of the last shade; else the codes of what is wrong.
std::string formula_of(const std::string& lines) {
    const Compiled page = bench_page(lines);
    std::string out;
    for (const Finding& finding : page.findings)
        if (finding.severity == Severity::error)
            out += (out.empty() ? "" : " ") + std::string(row_of(finding.code).name);
    if (!out.empty()) return out;
    const Formula& formula = page.formulary.shades.back().versions[0].formula;
    for (std::size_t i = 0; i < formula.parts.size(); ++i)
        out += (i ? ", " : "") + page.formulary.name(formula.parts[i].what) + " " +
               in_percent(formula.shares[i]).exactly();
    return out;
}

const std::string quince = "shade Quince\n 60 % oil\n 30 % mica\n 10 % lake\n batch t 10 g\n"
                           "shade Plum like Quince\n";

}  // namespace

TEST_CASE("rebalance keeps what was set, added, scaled or swapped", "[edits]") {
    // What isn't kept shares the rest as 60 to 30, 60 to 10 or so.
    CHECK(formula_of(quince + " rebalance\n set 40 % lake\n") == "oil 40, mica 20, lake 40");
    CHECK(formula_of(quince + " rebalance\n add 50 % clay\n") ==
          "oil 30, mica 15, lake 5, clay 50");
    CHECK(formula_of(quince + " rebalance\n scale lake by 4\n") == "oil 40, mica 20, lake 40");
    CHECK(formula_of(quince + " rebalance\n set 40 % lake\n swap lake for clay\n") ==
          "oil 40, mica 20, clay 40");
    // Taken away, its name is free: what is swapped into it wasn't set. 60 and 10 share 100.
    CHECK(formula_of(quince + " rebalance\n set 30 % lake\n without lake\n without oil\n"
                              " add 50 % wax\n swap mica for lake\n") == "lake 50, wax 50");
    CHECK(formula_of(quince + " rebalance\n set 30 % lake\n without lake\n swap mica for lake\n"
                              " add 25 % clay\n") == "oil 50, lake 25, clay 25");
}

TEST_CASE("a swap is followed by what goes by the name", "[edits]") {
    // 10 g at 30 % let down to 10 %: 3 g in 30 g, so that 20 g of oil are enough.
    const std::string strong = "blend Strong\n 70 % wax\n 30 % lake\n"
                               "shade A\n 10 g Strong\n 2 g clay\n"
                               " enough oil to bring clay to 10 %\n batch t 10 g\n";
    // 2 g of clay, or of what takes its place, are 10 % of 20 g.
    CHECK(formula_of(strong) == "Strong 50, clay 10, oil 40");
    CHECK(formula_of(strong + "shade B like A\n swap clay for mica\n") ==
          "Strong 50, mica 10, oil 40");
    const std::string as_much = "shade A\n rest oil\n 10 % clay\n twice as much wax as clay\n"
                                " batch t 10 g\n";
    CHECK(formula_of(as_much + "shade B like A\n swap clay for mica\n") ==
          "oil 70, mica 10, wax 20");
}

TEST_CASE("an amount by volume goes with its edits", "[edits]") {
    // 1 mL of mica in 10 g are 3 g, of lake 1.5 g; half a millilitre half as much.
    const std::string poured = "shade A\n rest oil\n 1 mL per 10 g mica\n batch t 10 g\n"
                               "shade B like A\n";
    CHECK(formula_of(poured) == "oil 70, mica 30");
    CHECK(formula_of(poured + " scale mica by 1/2\n") == "oil 85, mica 15");
    CHECK(formula_of(poured + " scale mica by 1/2\n swap mica for lake\n") == "oil 92.5, lake 7.5");
    CHECK(formula_of(poured + " set 4 % mica\n") == "oil 96, mica 4");
    CHECK(formula_of(poured + " set 4 % mica\n swap mica for lake\n") == "oil 96, lake 4");
    // Once rebalanced it is a share: 70 to 30 beside 50 %, whatever it is swapped for then.
    const std::string shares = "shade A\n 70 % oil\n 1 mL per 10 g mica\n batch t 10 g\n"
                               "shade B like A\n rebalance\n add 50 % clay\n";
    CHECK(formula_of(shares) == "oil 35, mica 15, clay 50");
    CHECK(formula_of(shares + "shade C like B\n swap mica for lake\n") ==
          "oil 35, lake 15, clay 50");
}

TEST_CASE("roles are scaled one by one, and what follows a scaled line once", "[edits]") {
    CHECK(formula_of("shade A\n rest oil\n 10 % mica\n 10 % lake\n batch t 10 g\nshade B like A\n"
                     " scale the mica by 1/2\n scale the lake by 2\n") ==
          "oil 75, mica 5, lake 20");
    CHECK(formula_of("shade A\n rest oil\n 10 % mica\n batch t 10 g\nshade B like A\n"
                     " scale the mica by 1/2\n scale the mica by 1/2\n") == "edit-twice");
    // Wax is as much as the oil, and a base too: halved with it, not twice.
    CHECK(formula_of("shade A\n rest mica\n 20 % oil\n as much wax as oil\n batch t 10 g\n"
                     "shade B like A\n scale the base by 1/2\n") == "mica 80, oil 10, wax 10");
}

TEST_CASE("dilutions go with the lines that they speak of", "[edits]") {
    const std::string diluted = "shade A\n rest oil\n 20 % wax\n 1 % lake\n"
                                " dilute lake to 10 % in oil\n batch t 100 g\nshade B like A\n";
    const auto bowls = [&](const std::string& edits) {
        const Compiled page = bench_page(diluted + edits);
        if (any_error(page.findings)) return std::string(row_of(page.findings[0].code).name);
        Choice choice;
        choice.shade = "B";
        const Sheets made = expand(page.formulary, page.names, choice);
        std::string out;
        for (const Bowl& bowl : made.sheets.at(0).bowls)
            if (bowl.mix != no_ingredient)
                out += (out.empty() ? "" : "; ") + page.formulary.name(bowl.mix);
        return out;
    };
    CHECK(bowls("") == "lake 10 % in oil");
    CHECK(bowls(" dilute lake to 5 % in wax\n") == "lake 5 % in wax");
    CHECK(bowls(" swap lake for clay\n") == "clay 10 % in oil");
    CHECK(bowls(" swap oil for mica\n") == "lake 10 % in mica");
    CHECK(bowls(" without lake\n") == "");
    CHECK(bowls(" fresh dilutions\n") == "");
    CHECK(bowls(" fresh dilutions\n dilute lake to 5 % in wax\n") == "lake 5 % in wax");
}

TEST_CASE("a family between two shades", "[families]") {
    // Half way: 70 and 40, 30 and 0, 0 and 60. The rest is one on the way, so that a variant finds
    // a line that takes up its change, where it is the rest in both; in one alone it is a share.
    const auto middle = [](const std::string& oil_of_b) {
        const Compiled page = bench_page("shade A\n rest oil\n 30 % mica\n batch t 10 g\n"
                                         "shade B\n " +
                                         oil_of_b +
                                         " oil\n 60 % lake\n batch t 10 g\nfamily F\n"
                                         " between A and B in 3 steps\n name F {step}\n");
        CHECK(page.findings.empty());
        const Formula& formula = page.formulary.shades.at(3).versions[0].formula;
        std::string out = page.formulary.shades[3].name + ":";
        for (std::size_t i = 0; i < formula.parts.size(); ++i)
            out += (std::holds_alternative<Rest>(formula.parts[i].amount) ? " rest " : " ") +
                   in_percent(formula.shares[i]).exactly();
        return out;
    };
    CHECK(middle("40 %") == "F 2: 55 15 30");
    CHECK(middle("rest") == "F 2: rest 55 15 30");
}

TEST_CASE("a family between two shades dilutes where there is something to dilute in",
          "[families]") {
    // 1 % at 10 % takes 9 % of wax: of 20 % and of 10 %. In the last there is no wax, and no slip.
    const Compiled page = bench_page("shade A\n rest oil\n 20 % wax\n 1 % lake\n"
                                     " dilute lake to 10 % in wax\n batch t 100 g\n"
                                     "shade B\n rest oil\n 1 % lake\n batch t 100 g\n"
                                     "family F\n between A and B in 3 steps\n name F {step}\n");
    CHECK(page.findings.empty());
    std::string bowls;
    for (const Sheet& sheet : expand(page.formulary, page.names, {}).sheets)
        bowls += page.formulary.shades[sheet.shade].name + " " +
                 std::to_string(sheet.bowls.size()) + "; ";
    CHECK(bowls == "A 2; B 1; F 1 2; F 2 2; F 3 1; ");
}

TEST_CASE("nothing is made of what two blocks are called", "[edits]") {
    const auto sheets = [](const std::string& second) {
        const Compiled page = bench_page("material red\n" + second +
                                         "shade A\n rest oil\n 5 % lake\n batch t 10 g\n"
                                         "shade B like A\n swap lake for red\n");
        std::string out;
        for (const Sheet& sheet : expand(page.formulary, page.names, {}).sheets)
            out += page.formulary.shades[sheet.shade].name + " ";
        return out;
    };
    CHECK(sheets("") == "A B ");
    CHECK(sheets("material red\n role lake\n") == "A ");
}

TEST_CASE("members come in the order of their values, the last turning fastest", "[families]") {
    const Compiled page = bench_page("shade A\n let {a} = 1 %\n let {b} = 2 %\n rest oil\n"
                                     " {a} mica\n {b} lake\n batch t 10 g\nfamily F\n from A\n"
                                     " vary {a} over 3 %, 4 %\n vary {b} over 5 %, 6 %\n"
                                     " name F {a} {b}\n");
    CHECK(page.findings.empty());
    std::string names;
    for (const Shade& shade : page.formulary.shades)
        if (shade.member) names += shade.name + "; ";
    CHECK(names == "F 3 % 5 %; F 3 % 6 %; F 4 % 5 %; F 4 % 6 %; ");
}

TEST_CASE("a row has a cell for each column, no more and no less", "[families]") {
    const auto row = [](const std::string& cells) {
        const Compiled page = bench_page("shade A\n let {a} = 1 %\n rest oil\n {a} mica\n"
                                         " batch t 10 g\nfamily F\n from A\n"
                                         " columns name | {a}\n row " +
                                         cells + "\n");
        return page.findings.empty() ? std::string("fine")
                                     : std::string(row_of(page.findings[0].code).name);
    };
    CHECK(row("Fig | 3 %") == "fine");
    CHECK(row("Fig") == "family-malformed");
    CHECK(row("Fig | 3 % | 4 %") == "family-malformed");
}

TEST_CASE("limits let pass what is just at them", "[limits]") {
    // 2000 lines of a formula, 1000 members of a family.
    const auto lines = [](int count) {
        std::string page, shade = "shade S\n";
        for (int i = 0; i < count; ++i) {
            page += fmt::format("material m{}\n", i);
            shade += fmt::format(" 1 part m{}\n", i);
        }
        const Compiled made = compile(memory_world({{"a.shade", page + shade}}), "a.shade");
        return made.findings.empty() ? std::string("fine")
                                     : std::string(row_of(made.findings[0].code).name);
    };
    CHECK(lines(2000) == "fine");
    CHECK(lines(2001) == "formula-too-long");
    const auto members = [](int count) {
        std::string values;
        for (int i = 1; i <= count; ++i) values += fmt::format("{}{} ppm", i > 1 ? ", " : "", i);
        const Compiled made = bench_page("shade A\n let {a} = 1 %\n rest oil\n {a} mica\n"
                                         "family F\n from A\n vary {a} over " +
                                         values + "\n name F {a}\n");
        return made.findings.empty() ? std::string("fine")
                                     : std::string(row_of(made.findings[0].code).name);
    };
    CHECK(members(1000) == "fine");
    CHECK(members(1001) == "family-malformed");
}
