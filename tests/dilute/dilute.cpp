// Dilutions by hand: figures beside each case are worked out on paper.
#include "interpreter/formulary/dilute.hpp"

#include <catch2/catch.hpp>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/render/html_card.hpp"
#include "tests/dilute/made.hpp"

using namespace levigate;
using namespace levigate::testing;
using Strings = std::vector<std::string>;

namespace {

const std::string head = "material soft base\nmaterial castor oil\nmaterial red lake\n"
                         "material blue lake\n";

/// "red lake 3/100 20": name, exact grams, steps.
Strings rows(const Compiled& page, const Bowl& bowl) {
    Strings out;
    for (const SheetLine& line : bowl.lines)
        out.push_back(page.formulary.name(line.what) + " " + in_grams(line.exact).fraction() + " " +
                      line.steps.fraction());
    return out;
}

Strings codes(const Compiled& page) {
    Strings out;
    for (const Finding& finding : page.findings) out.emplace_back(row_of(finding.code).name);
    return out;
}

}  // namespace

TEST_CASE("0.5 % of 6 g, diluted to 10 %", "[dilute]") {
    const Compiled page = compiled(head + "shade Quince\n    rest soft base\n    0.5 % red lake\n"
                                          "    dilute red lake to 10 % in soft base\n"
                                          "    batch trial 6 g\n    step Stir in {red lake}.\n");
    REQUIRE(page.findings.empty());
    const Sheets out = all_sheets(page);
    REQUIRE(out.sheets.size() == 1);
    const Sheet& sheet = out.sheets[0];
    CHECK(sheet.findings.empty());
    REQUIRE(sheet.bowls.size() == 2);
    // 0.03 g of the lake and 0.27 g of base; 20 steps of 0.01 g of the lake make 2 g
    CHECK(page.formulary.name(sheet.bowls[0].mix) == "red lake 10 % in soft base");
    CHECK(rows(page, sheet.bowls[0]) == Strings{"red lake 3/100 20", "soft base 27/100 180"});
    CHECK(sheet.bowls[0].asked == 30);
    // of 5.97 g of base 0.27 g come with it
    CHECK(rows(page, sheet.bowls[1]) ==
          Strings{"soft base 57/10 570", "red lake 10 % in soft base 3/10 30"});
    CHECK(sheet.bowls[1].steps_text ==
          Strings{"Stir in red lake 0.03 g (0.30 g of red lake 10 % in soft base)."});
}

TEST_CASE("a dilution is as large as it takes, and no step less", "[dilute]") {
    // 20 steps are the least that is weighed. At 3 % they are in 666.7 steps: 6.66 g would hold
    // 0.1998 g of the lake, so that 6.67 g are made. At 4 % they are in 500 steps exactly.
    const auto made = [](const std::string& strength) {
        const Compiled page = compiled(head +
                                       "shade Quince\n    rest soft base\n    0.5 % red lake\n"
                                       "    dilute red lake to " +
                                       strength + " in soft base\n    batch trial 6 g\n");
        REQUIRE(page.findings.empty());
        return all_sheets(page).sheets.at(0).bowls.at(0).steps;
    };
    CHECK(made("3 %") == 667);
    CHECK(made("4 %") == 500);
}

TEST_CASE("a base that is used up has no line any more", "[dilute]") {
    // 1 % at 10 % takes 9 %, all that there is of the oil
    const Compiled page = compiled(head + "shade Quince\n    rest soft base\n    9 % castor oil\n"
                                          "    1 % red lake\n"
                                          "    dilute red lake to 10 % in castor oil\n"
                                          "    batch trial 100 g\n");
    const Sheets out = all_sheets(page);
    REQUIRE(out.sheets.size() == 1);
    CHECK(rows(page, out.sheets[0].bowls.back()) ==
          Strings{"soft base 90 9000", "red lake 10 % in castor oil 10 1000"});
}

TEST_CASE("two dilutions in one base take their bases together", "[dilute]") {
    // 1 % at 10 % takes 9 % of base, 2 % at 20 % takes 8 %
    const std::string shade = "    1 % red lake\n    2 % blue lake\n"
                              "    dilute red lake to 10 % in castor oil\n"
                              "    dilute blue lake to 20 % in castor oil\n"
                              "    batch trial 100 g\n";
    const Compiled enough =
        compiled(head + "shade Quince\n    rest soft base\n    17 % castor oil\n" + shade);
    CHECK(enough.findings.empty());
    const Compiled less =
        compiled(head + "shade Quince\n    rest soft base\n    16 % castor oil\n" + shade);
    CHECK(codes(less) == Strings{"dilute-short"});
    // 7 % are left for the second: 2 / (2 + 7) = 22.2… %, said as a round number above
    CHECK(remedy(less.findings.at(0)) == "dilute blue lake to 23 % in castor oil");
    CHECK(all_sheets(less).sheets.empty());
}

TEST_CASE("a dilution in a blend is weighed where the blend is", "[dilute]") {
    const Compiled page =
        compiled(head + "blend tint\n    9 parts soft base\n    1 part red lake\n"
                        "    dilute red lake to 50 % in soft base\n"
                        "shade Quince\n    rest castor oil\n    20 % tint\n    batch trial 10 g\n");
    const Sheets out = all_sheets(page);
    REQUIRE(out.sheets.size() == 1);
    const Sheet& sheet = out.sheets[0];
    REQUIRE(sheet.bowls.size() == 3);
    // 2 g of tint hold 0.2 g of the lake: 0.4 g of its dilution and 1.6 g of base
    CHECK(rows(page, sheet.bowls[0]) == Strings{"red lake 1/5 20", "soft base 1/5 20"});
    CHECK(rows(page, sheet.bowls[1]) ==
          Strings{"soft base 8/5 160", "red lake 50 % in soft base 2/5 40"});
}

TEST_CASE("a blend can be diluted, and is then made for the dilution's bowl", "[dilute]") {
    const Compiled page =
        compiled(head + "blend tint\n    1 part blue lake\n    1 part red lake\n"
                        "shade Quince\n    rest soft base\n    0.2 % tint\n"
                        "    dilute tint to 5 % in soft base\n    batch trial 10 g\n");
    const Sheets out = all_sheets(page);
    REQUIRE(out.sheets.size() == 1);
    const Sheet& sheet = out.sheets[0];
    REQUIRE(sheet.bowls.size() == 3);
    CHECK(page.formulary.name(sheet.bowls[0].mix) == "tint");
    // 0.02 g of tint are needed; 0.2 g of it go into 4 g of the dilution
    CHECK(rows(page, sheet.bowls[0]) == Strings{"blue lake 1/100 10", "red lake 1/100 10"});
    CHECK(rows(page, sheet.bowls[1]) == Strings{"tint 1/50 20", "soft base 19/50 380"});
    CHECK(sheet.bowls[1].asked == 40);
}

TEST_CASE("edits reach dilutions", "[dilute]") {
    const std::string quince = head + "shade Quince\n    rest soft base\n    1 % red lake\n"
                                      "    dilute red lake to 10 % in soft base\n"
                                      "    batch trial 10 g\n";
    const auto bowls = [](const std::string& text) {
        const Compiled page = compiled(text);
        INFO(text);
        REQUIRE(page.findings.empty());
        Strings names;
        const Sheets sheets = all_sheets(page);
        for (const Bowl& bowl : sheets.sheets.at(1).bowls)
            if (bowl.mix != no_ingredient) names.push_back(page.formulary.name(bowl.mix));
        return names;
    };
    CHECK(bowls(quince + "shade Damson like Quince\n    set 2 % red lake\n") ==
          Strings{"red lake 10 % in soft base"});
    CHECK(bowls(quince + "shade Damson like Quince\n    swap red lake for blue lake\n") ==
          Strings{"blue lake 10 % in soft base"});
    CHECK(bowls(quince + "shade Damson like Quince\n    swap soft base for castor oil\n") ==
          Strings{"red lake 10 % in castor oil"});
    CHECK(bowls(quince + "shade Damson like Quince\n    dilute red lake to 5 % in soft base\n") ==
          Strings{"red lake 5 % in soft base"});
    CHECK(bowls(quince + "shade Damson like Quince\n    fresh dilutions\n").empty());
    CHECK(bowls(quince + "shade Damson like Quince\n    without red lake\n").empty());
}

TEST_CASE("a finish may add what there is no base for", "[dilute]") {
    // in the bulk 1 % takes all of 9 %; 0.1 % more would take 0.9 %
    const Compiled page =
        compiled(head + "shade Quince\n    rest soft base\n    9 % castor oil\n    1 % red lake\n"
                        "    dilute red lake to 10 % in castor oil\n    finishes deep\n"
                        "    batch trial 10 g\nfinish deep\n    add 0.1 % red lake\n");
    CHECK(page.findings.empty());
    const Sheets as_made = expand(page.formulary, page.names, {});
    CHECK(as_made.findings.empty());
    CHECK(as_made.sheets.size() == 1);
    const Sheets finished = all_sheets(page);  // the finish that it names
    CHECK(finished.sheets.empty());
    REQUIRE(finished.findings.size() == 1);
    CHECK(finished.findings[0].code == Code::dilute_short);
    Choice plain;
    plain.all = true;
    plain.dilutions = false;
    CHECK(expand(page.formulary, page.names, plain).sheets.size() == 1);
}

TEST_CASE("what goes wrong in a parent is not said of its child", "[dilute]") {
    const Compiled page =
        compiled(head + "shade Quince\n    rest castor oil\n    5 % soft base\n    1 % red lake\n"
                        "    dilute red lake to 10 % in soft base\n    variants sheer\n"
                        "    batch trial 10 g\nshade Damson like Quince\n    set 6 % soft base\n"
                        "variant sheer\n    set 4 % soft base\n");
    CHECK(codes(page) == Strings{"dilute-short"});
    CHECK(all_sheets(page).sheets.empty());
}

TEST_CASE("the least of a balance that states none is 20 steps", "[dilute]") {
    Reading reading;
    CHECK(in_grams(scale_of(reading).least) == Exact(1, 5));
    reading.least = grams(Exact(3, 100));
    CHECK(in_grams(scale_of(reading).least) == Exact(3, 100));
}

TEST_CASE("a bench page tells what each batch takes of a dilution, and what is kept", "[dilute]") {
    const Compiled page = compiled(head + "shade Quince\n    rest soft base\n    0.5 % red lake\n"
                                          "    dilute red lake to 10 % in soft base\n"
                                          "    batch trial 6 g\n    batch full 60 g\n");
    BenchPage bench(page.formulary);
    const Sheets sheets = all_sheets(page);
    for (const Sheet& sheet : sheets.sheets) bench.append(sheet);
    const std::string html = bench.page("Quince");
    CHECK(html.find("<h3><span class=\"number\">Bowl 1:</span> red lake 10 % in soft base</h3>") !=
          std::string::npos);
    CHECK(html.find(
              "<p class=\"kept in-1\">trial: Take 0.30 g of it. Keep the other 1.70 g, labelled "
              "&quot;red lake 10 % in soft base&quot; and with the date.</p>") !=
          std::string::npos);
    CHECK(html.find("full: Take") == std::string::npos);  // 3 g are asked for, and 3 g are made
}
