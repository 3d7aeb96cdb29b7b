// Rules and lists just at their edges, each worked by hand. All regions named XX are invented.

#include <catch2/catch.hpp>

#include <algorithm>

#include "interpreter/rules/lips.hpp"
#include "tests/unit/rules/made.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

/// What is said of lips in region XX, or in the regions that the file names, one a line.
std::string lip_words(const std::string& file, bool of_xx = true) {
    Compiled compiled = compile(memory_world({{"a.shade", file}}), "a.shade", Library::with_rules);
    REQUIRE_FALSE(any_error(compiled.findings));
    std::vector<Called> asked;
    if (of_xx) asked.push_back({"XX", compiled.names.intern("XX")});
    LipJudge judge(compiled.formulary, compiled.names, asked);
    Choice choice;
    choice.all = true;
    each_product(compiled.formulary, compiled.names, choice,
                 [&](const Product& product) { judge.add(product); });
    std::string out;
    for (const Finding& finding : judge.findings())
        out += std::string(row_of(finding.code).name) + ": " + finding.message + "\n";
    return out;
}

bool among_words(const std::string& text, const std::string& words) {
    INFO(text);
    return text.find(words) != std::string::npos;
}

const std::string oils = "material oil\n label Ricinus Communis Seed Oil\n"
                         "material butter\n label Lanolin\nmaterial silica\n label Silica\n"
                         "material vanilla\n label Aroma\n contains vanillin 2 %\n";

}  // namespace

TEST_CASE("of all products over a limit the worst is told, wherever it stands", "[lips]") {
    const std::string said = lip_words("rule XX A\n covers CI 1\n lips at most 3 %\n"
                                       "material oil\nmaterial red\n colourant CI 1\n"
                                       "shade Plum\n rest oil\n 5 % red\n variants pale\n"
                                       "variant pale\n set 4 % red\n");
    CHECK(among_words(said, "A comes to 5 % of Plum, and XX lets at most 3 % on lips"));
    CHECK(among_words(said, "Too much is in: Plum and Plum / pale."));
}

TEST_CASE("two numbers of one rule on one material are one colour", "[lips]") {
    // 7.5 % × 40 % = 3 %, at the limit; as two colours it would be 6 %.
    const auto said = [](const std::string& amount) {
        return lip_words("rule XX A\n covers CI 1, CI 2\n lips at most 3 %\n counts colour\n"
                         "material oil\nmaterial red\n colourant CI 1, CI 2, strength 40 %\n"
                         "shade Plum\n rest oil\n " +
                         amount + " red\n");
    };
    CHECK(said("7.5 %").empty());
    CHECK(among_words(said("7.6 %"), "A comes to 3.04 % of Plum"));
}

TEST_CASE("a lake without a strength counts whole, and that is said", "[lips]") {
    const auto said = [](const std::string& strength) {
        return lip_words("rule XX A\n covers CI 1\n lips at most 3 %\n counts colour\n"
                         "material oil\nmaterial red\n colourant CI 1" +
                         strength + "\nshade Plum\n rest oil\n 5 % red\n");
    };
    const std::string words = "What has no `strength` counts as colour throughout.";
    CHECK(among_words(said(""), "A comes to 5 % of Plum"));
    CHECK(among_words(said(""), words));
    CHECK(among_words(said(", strength 80 %"), "A comes to 4 % of Plum"));
    CHECK_FALSE(among_words(said(", strength 80 %"), words));
}

TEST_CASE("a list writes a colourant as its region does, each word once", "[label]") {
    const auto in_xx = [](const std::string& way, const std::string& rule,
                          const std::string& material) {
        const Boxed from = made("region XX\n colourants by " + way +
                                   "\n condition Ask in the shop.\n condition Ask in the shop.\n" +
                                   "rule XX A\n lips yes\n" + rule + oils + "material odd\n" +
                                   material + "shade Plum\n rest oil\n 5 % odd\n",
                               "XX");
        const auto& conditions = from.labels.labels.at(0).conditions;
        CHECK(std::count(conditions.begin(), conditions.end(), "Ask in the shop.") == 1);
        return list(from);
    };
    const std::string seed = "Ricinus Communis Seed Oil, ";
    CHECK(in_xx("name", " covers CI 1\n label Ruby Lake\n",
                " label Sunset Lake\n colourant CI 1\n") == seed + "Ruby Lake");
    CHECK(in_xx("name", " covers CI 1\n label Ruby\n", " label Sunset Lake\n colourant CI 1\n") ==
          seed + "Ruby Lake");
    // By number: of the numbers that a rule covers the one that the maker wrote.
    CHECK(in_xx("number", " covers CI 1, CI 2\n", " label Sunset\n colourant CI 2\n") ==
          seed + "CI 2");
    CHECK(in_xx("number", " covers CI 1, CI 2\n label CI 1\n",
                " label Sunset\n colourant CI 2\n") == seed + "CI 1");
}

TEST_CASE("parts of which nobody knows how much they are, are all of it at most", "[lips]") {
    // 30 % of a material of two reds: up to 30 % of the whole, and not 60 %.
    const auto said = [](const std::string& amount) {
        return lip_words("rule XX Reds\n covers Ochre, Sienna\n lips at most 30 %\n"
                         "material oil\nmaterial red\n label Ochre, Sienna\n"
                         "shade Plum\n rest oil\n " +
                         amount + " red\n");
    };
    CHECK(said("30 %").empty());
    CHECK(among_words(said("30.1 %"), "lips-limit"));
}

TEST_CASE("what a rule excepts is let, by the name of a part or of the material", "[lips]") {
    const auto said = [](const std::string& rule, const std::string& label) {
        return lip_words("rule XX A\n covers CI 1\n lips no\n" + rule +
                         "material oil\nmaterial pot red\n colourant CI 1\n" + label +
                         "shade Plum\n rest oil\n 1 % pot red\n");
    };
    CHECK(among_words(said("", ""), "lips-not-allowed"));
    CHECK(said(" except pot red\n", "").empty());
    CHECK(among_words(said("", " label Coated Red\n"), "lips-not-allowed"));
    CHECK(said(" except Coated Red\n", " label Coated Red\n").empty());
}

TEST_CASE("a name that goes on behind a colour's is another thing, save its lakes", "[label]") {
    const auto of_label = [](const std::string& label) {
        const Boxed from = made(oils + "material odd\n label " + label +
                                   "\nshade Plum\n rest oil\n 5 % butter\n 10 % odd\n",
                               "US");
        return list(from);
    };
    // Colourants stand last, what only sounds like one stands by its weight.
    CHECK(of_label("Carmine") == "Ricinus Communis Seed Oil, Lanolin, Carmine");
    CHECK(of_label("Carmine Bush Oil") == "Ricinus Communis Seed Oil, Carmine Bush Oil, Lanolin");
    CHECK(of_label("D&C Red 7 Calcium Lake") ==
          "Ricinus Communis Seed Oil, Lanolin, D&C Red 7 Calcium Lake");
    CHECK(of_label("D&C Red No. 7 Calcium Lake") ==
          "Ricinus Communis Seed Oil, Lanolin, Red 7 Lake");
}

TEST_CASE("what a part is known to hold need not be asked for", "[lips]") {
    const auto said = [](const std::string& label) {
        return lip_words("rule XX Aluminium\n covers aluminium\n in Mica 20 %\n lips at most 50 %\n"
                         " ask of lake\nmaterial oil\nmaterial red\n role lake\n label " +
                         label + "\nshade Plum\n rest oil\n 10 % red\n");
    };
    CHECK(said("Mica").empty());
    CHECK(among_words(said("Silica"), "content-unstated"));
}

TEST_CASE("a shade's own market goes before the file's", "[lips]") {
    const std::string file = "market XX\nregion XX\n colourants by name\nregion YY\n"
                             " colourants by name\nrule XX A\n covers CI 1\n lips no\n"
                             "rule YY A\n covers CI 1\n lips yes\n" +
                             oils +
                             "material red\n label Red\n colourant CI 1\n"
                             "shade Plum\n rest oil\n 5 % red\n";
    CHECK(among_words(lip_words(file, false), "lips-not-allowed"));
    CHECK(lip_words(file + " market YY\n", false).empty());
    const auto regions = [](const std::string& page) {
        Compiled compiled =
            compile(memory_world({{"a.shade", page}}), "a.shade", Library::with_rules);
        Labeller labeller(compiled.formulary, compiled.names, {{}, false, no_name});
        each_product(compiled.formulary, compiled.names, {},
                     [&](const Product& product) { labeller.add(product); });
        std::string out;
        const BoxLabels made = labeller.make();
        for (const BoxLabel& label : made.labels) out += label.region->name.name + " ";
        return out;
    };
    CHECK(regions(file) == "XX ");
    CHECK(regions(file + " market YY\n") == "YY ");
}

TEST_CASE("a share that may be just at the bound may be just above it", "[label]") {
    // 0.1 % × 1 % = 0.001 %, where vanillin needs no name yet (Annex III 346); × 2 % = 0.002 %.
    const Boxed from = made("material oil\n label Ricinus Communis Seed Oil\n"
                           "material scent\n label Aroma\n contains vanillin 1 % to 2 %\n"
                           "shade Plum\n rest oil\n 0.1 % scent\n",
                           "EU");
    CHECK(list(from) == "Ricinus Communis Seed Oil, Aroma, Vanillin");
    const auto& warnings = from.labels.labels.at(0).warnings;
    std::string all;
    for (const std::string& words : warnings) all += words + "\n";
    CHECK(among_words(all, "must be named above 0.001 %, and is named here"));
}

TEST_CASE("of two that can be as much the one that is surely so stands first", "[label]") {
    // Silica 10 %; lanolin 5 % to 10 %, and talc what is left of it, 0 % to 5 %.
    const Boxed from = made(oils + "material odd\n label Lanolin 50 % to 100 %, Talc\n"
                                  "shade Plum\n rest oil\n 10 % silica\n 10 % odd\n",
                           "EU");
    CHECK(list(from) == "Ricinus Communis Seed Oil, Silica, Lanolin, Talc");
}

TEST_CASE("a range tells the least and the most of all its shades", "[label]") {
    const auto extent = [](const Boxed& from, const std::string& name) -> std::string {
        for (const Listed& one : from.labels.labels.at(0).list)
            if (one.name.name == name)
                return in_percent(one.least).exactly() + " to " + in_percent(one.most).exactly();
        return "not there";
    };
    const std::string red = "material red\n label Red 7 Lake\n colourant CI 15850:1\n";
    const Boxed from = made(oils + red +
                               "shade Plum\n rest oil\n 8 % butter\n 3 % red\n"
                               "shade Sloe\n rest oil\n 4 % butter\n",
                           "US", true);
    CHECK(list(from) == "Ricinus Communis Seed Oil, Lanolin. May contain: Red 7 Lake");
    CHECK(extent(from, "Lanolin") == "4 to 8");
    CHECK(extent(from, "Red 7 Lake") == "0 to 3");
}

TEST_CASE("equal shares in one shade leave the order to the others", "[label]") {
    const Boxed from = made(oils + "shade Plum\n rest oil\n 5 % butter\n 5 % silica\n"
                                  "shade Sloe\n rest oil\n 3 % butter\n 7 % silica\n",
                           "EU", true);
    CHECK(list(from) == "Ricinus Communis Seed Oil, Silica, Lanolin");
}

TEST_CASE("what is only named sets no two shades apart", "[label]") {
    // Vanillin must be named in Sloe alone: 0.6 % × 2 % is above 0.001 %, 0.04 % × 2 % isn't.
    // Quince has no aroma, so that it has a list of its own; the two others share theirs.
    const Boxed from = made(oils + "shade Quince\n rest oil\n"
                                  "shade Plum\n rest oil\n 0.04 % vanilla\n"
                                  "shade Sloe\n rest oil\n 0.6 % vanilla\n",
                           "EU", true);
    CHECK(list(from) == "Ricinus Communis Seed Oil\nRicinus Communis Seed Oil, Aroma, Vanillin");
}
