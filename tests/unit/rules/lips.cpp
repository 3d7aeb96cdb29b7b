// What is judged, worked by hand from the wording of the rule pages of the library (21 CFR 74.2333:
// 3 % total colour; Annex III 381: 14.62 % aluminium, mica by the ideal formula KAl3Si3O10(OH)2,
// 80.94 / 398.30 = 20.3 %) and from invented rules where the arithmetic alone matters.
#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/rules/lips.hpp"

using namespace levigate;

namespace {

/// "code code …" of a page's findings, resolving's first; only those named in `of`, if any.
std::string codes(const std::string& page, const std::string& market,
                  const std::vector<std::string>& of = {}) {
    Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade", Library::with_rules);
    LipJudge judge(compiled.formulary, compiled.names,
                   market.empty() ? std::vector<Called>{}
                                  : std::vector<Called>{{market, compiled.names.intern(market)}});
    Choice choice;
    choice.all = true;
    each_product(compiled.formulary, compiled.names, choice,
                 [&](const Product& product) { judge.add(product); });
    std::string out;
    const auto add = [&](const Findings& findings) {
        for (const Finding& finding : findings) {
            UNSCOPED_INFO(finding.message);
            const bool wanted = of.empty() || std::find(of.begin(), of.end(),
                                                        row_of(finding.code).name) != of.end();
            if (wanted) out += (out.empty() ? "" : " ") + std::string(row_of(finding.code).name);
        }
    };
    add(compiled.findings);
    add(judge.findings());
    return out;
}

/// A shade with so much of one material, described by its lines.
std::string with(const std::string& share, const std::string& lines) {
    return "material oil\nmaterial red\n" + lines + "shade Plum\n    rest oil\n    " + share +
           " red\n";
}

const std::vector<std::string> limit = {"lips-limit"};

}  // namespace

TEST_CASE("a limit on colour counts the lake by its strength and its part", "[lips]") {
    const std::string lot = "    certified lot 1\n";
    // 8 % × 37.5 % = 3 %: at the limit; a whole lake of 3.1 % without strength is over it
    CHECK(codes(with("8 %", "    colourant CI 17200, strength 37.5 %\n" + lot), "US") == "");
    CHECK(codes(with("8.1 %", "    colourant CI 17200, strength 37.5 %\n" + lot), "US") ==
          "lips-limit");
    CHECK(codes(with("3.1 %", "    colourant CI 17200\n" + lot), "US") == "lips-limit");
    // half of a dispersion is the lake: 6 % × 50 % = 3 %, and × 40 % colour = 1.2 %
    const std::string half = "    label Ricinus Communis Seed Oil 50 %, Red 33 Lake 50 %\n";
    CHECK(codes(with("6 %", half + "    colourant CI 17200\n" + lot), "US") == "");
    CHECK(codes(with("6.1 %", half + "    colourant CI 17200\n" + lot), "US") == "lips-limit");
    CHECK(codes(with("15 %", half + "    colourant CI 17200, strength 40 %\n" + lot), "US") == "");
}

TEST_CASE("shares that can't be are refused, and nothing is let pass by them", "[lips]") {
    CHECK(codes(with("4 %", "    colourant CI 17200, strength -40 %\n    certified lot 1\n"),
                "US") == "share-impossible lips-limit");
    CHECK(codes(with("4 %", "    colourant CI 17200, strength 0 %\n    certified lot 1\n"), "US") ==
          "share-impossible lips-limit");
    CHECK(codes(with("4 %", "    colourant CI 17200, strength 135 %\n    certified lot 1\n"),
                "US") == "share-impossible lips-limit");
    CHECK(
        codes(with("4 %", "    contains aluminium 200 %\n"), "EU").starts_with("share-impossible"));
    CHECK(codes("rule XX A\n    covers CI 1\n    lips at most 300 %\n", "XX") ==
          "share-impossible");
}

TEST_CASE("aluminium is added up over what counts", "[lips]") {
    // 72 % × 20.3 % = 14.616 %; 72.1 % × 20.3 % = 14.6363 %, and at most 14.62 % is let
    CHECK(codes(with("72 %", "    label Mica\n"), "EU", limit) == "");
    CHECK(codes(with("72.1 %", "    label Mica\n"), "EU", limit) == "lips-limit");
    // what the maker states goes before: 20 % × 72.1 % = 14.42 %
    CHECK(codes(with("72.1 %", "    label Mica\n    contains aluminium 20 %\n"), "EU", limit) ==
          "");
    // kaolin is left out by the annex
    CHECK(codes(with("99 %", "    label Kaolin\n"), "EU", limit) == "");
    // a part without a share counts as all of the material, and holds 20.3 % at most
    CHECK(codes(with("72 %", "    label Mica, Titanium Dioxide\n    colourant CI 77891\n"), "EU",
                limit) == "");
    CHECK(codes(with("72.1 %", "    label Mica, Titanium Dioxide\n    colourant CI 77891\n"), "EU",
                limit) == "lips-limit");
    // a lake's carrier may hold some: asked, not assumed
    CHECK(codes(with("2 %", "    role lake\n    colourant CI 15850\n"), "EU")
              .find("content-unstated") != std::string::npos);
    CHECK(codes(with("2 %", "    role lake\n    colourant CI 15850\n    contains aluminium 0 %\n"),
                "EU") == "");
}

TEST_CASE("what is unknown is not let pass", "[lips]") {
    CHECK(codes(with("1 %", "    colourant CI 99999\n"), "US") == "lips-unknown");
    CHECK(codes(with("1 %", "    colourant CI 99999\n"), "ZZ") == "market-unknown");
    CHECK(codes(with("1 %", "    label Red 30 Lake\n"), "EU") == "colourant-unnumbered");
    CHECK(codes(with("1 %", "    label Ultramarine Blue\n"), "US") == "lips-not-allowed");
    // nobody says where: what is an error in any region is one, and no more is said
    CHECK(codes(with("1 %", "    colourant CI 77007\n"), "") == "lips-not-allowed");
    CHECK(codes(with("1 %", "    colourant CI 73360\n"), "") == "");
    CHECK(codes(with("1 %", "    colourant CI 73360\n"), "US") == "lot-uncertified");
}

TEST_CASE("one slip in a rule is one finding", "[lips]") {
    const std::string page = "market XX\nrule XX A\n    covers CI 1\n    lips at most 3 g\n";
    CHECK(codes(page + with("5 %", "    colourant CI 1\n"), "XX") == "quantity-kind");
    const std::string self = "rule XX A\n    covers CI 1\n    except CI 1\n    lips at most 3 %\n";
    CHECK(codes(self + with("5 %", "    colourant CI 1\n"), "XX") == "rule-contradiction");
    CHECK(codes("rule XX A\n    covers CI 1\n    lips perhaps\n" +
                    with("5 %", "    colourant CI 1\n"),
                "XX") == "line-malformed");
}

TEST_CASE("pearls are asked about, and a forbidden part is found in them", "[lips]") {
    const std::vector<std::string> of = {"lips-ask", "lips-not-allowed"};
    CHECK(codes(with("5 %", "    label Mica 60 %, Titanium Dioxide 40 %\n    colourant CI 77891\n"),
                "US", of) == "lips-ask");
    CHECK(codes(with("5 %", "    label Mica 60 %, CI 77510 40 %\n    colourant CI 77510\n"), "US",
                of) == "lips-not-allowed lips-ask");
    // no carrier, no pearl
    CHECK(codes(with("5 %", "    label Ricinus Communis Seed Oil 60 %, Titanium Dioxide 40 %\n"
                            "    colourant CI 77891\n"),
                "US", of) == "");
}

TEST_CASE("what only a variant or a finish brings is told with its name", "[lips]") {
    Compiled compiled = compile(
        memory_world({{"a.shade", "market US\nmaterial oil\nmaterial sea\n    colourant CI 77007\n"
                                  "shade Plum\n    rest oil\n    finishes satin, wet\n"
                                  "finish wet\n    add 1 % sea\n"}}),
        "a.shade", Library::with_rules);
    LipJudge judge(compiled.formulary, compiled.names, {});
    Choice choice;
    choice.all = true;
    each_product(compiled.formulary, compiled.names, choice,
                 [&](const Product& product) { judge.add(product); });
    const Findings findings = judge.findings();
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].message.find("It is in: Plum / wet.") != std::string::npos);
}

// However a sheet of a supplier writes it, it is the same thing.
TEST_CASE("a part is known by its name, its number, or both", "[lips]") {
    // 80 % × 20.3 % = 16.24 % aluminium, over 14.62 %
    for (const char* label : {"Mica", "CI 77019", "Mica (CI 77019)", "CI 77019 (Mica)", "Sericite"})
        CHECK(codes(with("80 %", "    label " + std::string(label) + "\n"), "EU", limit) ==
              "lips-limit");
    // 90 % × 16.7 % = 15.03 %
    CHECK(codes(with("90 %", "    label CI 77007\n    colourant CI 77007\n"), "EU", limit) ==
          "lips-limit");
    CHECK(codes(with("5 %", "    label Calcium Aluminum Borosilicate\n"), "EU") ==
          "content-unstated");
    // a number in the label is judged without a `colourant` line too
    CHECK(codes(with("1 %", "    label CI 77510\n"), "US") == "lips-not-allowed");
    CHECK(codes(with("1 %", "    label CI 99999\n"), "US") == "lips-unknown");
    CHECK(codes(with("1 %", "    label CI 77019 70 %, CI 77891 30 %\n"), "US", {"lips-ask"}) ==
          "lips-ask");
    // a salt's alias speaks of its own number alone
    CHECK(codes(with("1 %", "    label CI 45410\n    colourant CI 45410\n"), "EU") == "");
    CHECK(codes(with("1 %", "    colourant CI 45410:1\n"), "EU") == "rule-unconfirmed");
}

TEST_CASE("all products over a limit are named, and by how little", "[lips]") {
    Compiled compiled = compile(
        memory_world({{"a.shade", "market XX\nrule XX A\n    covers CI 1\n    lips at most 3 %\n"
                                  "material oil\nmaterial red\n    colourant CI 1\n"
                                  "shade Plum\n    rest oil\n    2 % red\n"
                                  "    variants deep, deeper\n"
                                  "variant deep\n    set 3.00000001 % red\n"
                                  "variant deeper\n    set 4 % red\n"}}),
        "a.shade", Library::with_rules);
    LipJudge judge(compiled.formulary, compiled.names, {});
    Choice choice;
    choice.all = true;
    std::vector<std::string> said;
    each_product(compiled.formulary, compiled.names, choice, [&](const Product& product) {
        judge.add(product);
        for (const Finding& finding : judge.findings()) said.push_back(finding.message);
    });
    REQUIRE(said.size() == 2);
    CHECK(said[0].starts_with("A comes to 3.00000001 % of Plum / deep, and XX lets at most 3 %"));
    CHECK(said[1].starts_with("A comes to 4 % of Plum / deeper"));
    CHECK(said[1].ends_with("Too much is in: Plum / deep and Plum / deeper."));
}
