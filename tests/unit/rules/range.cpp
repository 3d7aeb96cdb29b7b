// One list for a range of shades; rules and sources as in declaration.cpp.

#include <catch2/catch.hpp>

#include "tests/unit/rules/made.hpp"

using namespace levigate::testing;

namespace {

const std::string materials_of_range = R"(
material oil
    label Ricinus Communis Seed Oil
material butter
    label Lanolin
material silica
    label Silica
material vanilla
    label Aroma
    contains vanillin 2 %
material red oxide
    label Iron Oxides
    colourant CI 77491
material red lake
    label Red 7 Lake
    colourant CI 15850:1
material carmine red
    label Carmine
    colourant CI 75470
shade Quince
    rest oil
    20 % butter
    0.5 % silica
    3 % red oxide
    2 % red lake
)";

}  // namespace

TEST_CASE("a colourant of some shades only stands behind the words for a range") {
    const std::string file =
        materials_of_range + "shade Damson like Quince\nswap red lake for carmine red\n";
    CHECK(list(made(file, "US", true)) ==
          "Ricinus Communis Seed Oil, Lanolin, Silica, Iron Oxides. "
          "May contain: Carmine, Red 7 Lake");
    CHECK(list(made(file, "EU", true)) == "Ricinus Communis Seed Oil, Lanolin, Silica, CI 77491 "
                                          "[+/- CI 15850, CI 75470]");
    // Without --range each has its own, and no such words.
    CHECK(list(made(file, "EU")) ==
          "Ricinus Communis Seed Oil, Lanolin, Silica, CI 15850, CI 77491\n"
          "Ricinus Communis Seed Oil, Lanolin, Silica, CI 75470, CI 77491");
}

TEST_CASE("a family is a range") {
    levigate::Choice choice;
    choice.family = "ladder";
    const std::string file = materials_of_range +
                             "shade Plum\nlet {depth} = 4 %\nrest oil\n{depth} red lake\n"
                             "family Ladder\nfrom Plum\nvary {depth} over 4 %, 8 %\n"
                             "name Plum {depth}\n";
    const Boxed from = made(file, "US", true, choice);
    CHECK(list(from) == "Ricinus Communis Seed Oil, Red 7 Lake");
    CHECK(from.labels.labels.at(0).shades == std::vector<std::string>{"Plum 4 %", "Plum 8 %"});
    // 4 % and 8 %: no one figure.
    CHECK(as_fraction(from.labels.labels[0].list[1].least) == levigate::Exact(4, 100));
    CHECK(as_fraction(from.labels.labels[0].list[1].most) == levigate::Exact(8, 100));
}

TEST_CASE("other ingredients that differ in kind get lists of their own, and a warning") {
    const Boxed kind =
        made(materials_of_range + "shade Damson like Quince\nadd 1 % vanilla\n", "EU", true);
    CHECK(list(kind) == "Ricinus Communis Seed Oil, Lanolin, Silica, CI 15850, CI 77491\n"
                        "Ricinus Communis Seed Oil, Lanolin, Aroma, Silica, Vanillin, CI 15850, "
                        "CI 77491");
    REQUIRE(kind.labels.labels.at(0).warnings.size() == 1);
    CHECK(kind.labels.labels[0].warnings[0].find("Aroma is in Damson and not in Quince") !=
          std::string::npos);
}

TEST_CASE("other ingredients that differ in order too") {
    // Quince: oil 74.5 %, butter 20 %. Damson: oil 24.5 %, butter 70 %.
    const Boxed order =
        made(materials_of_range + "shade Damson like Quince\nset 70 % butter\n", "EU", true);
    CHECK(list(order) == "Ricinus Communis Seed Oil, Lanolin, Silica, CI 15850, CI 77491\n"
                         "Lanolin, Ricinus Communis Seed Oil, Silica, CI 15850, CI 77491");
    REQUIRE(order.labels.labels.at(0).warnings.size() == 1);
    CHECK(
        order.labels.labels[0].warnings[0].find(
            "Ricinus Communis Seed Oil stands before Lanolin in Quince and behind it in Damson") !=
        std::string::npos);
}

TEST_CASE("an order that is free in one shade bends to the other") {
    // Quince: silica 0.5 %, aroma 0.6 %: any order. Damson: silica 2 %, aroma 0.6 %: silica first.
    const std::string file = materials_of_range + "shade Damson like Quince\nadd 0.6 % vanilla\n"
                                                  "shade Sloe like Damson\nset 2 % silica\n";
    levigate::Choice choice;
    const Boxed all = made(file, "EU", true);
    // Quince lacks the aroma; the two others share a list, and all three are told why.
    CHECK(list(all) == "Ricinus Communis Seed Oil, Lanolin, Silica, CI 15850, CI 77491\n"
                       "Ricinus Communis Seed Oil, Lanolin, Silica, Aroma, Vanillin, CI 15850, "
                       "CI 77491");
    CHECK(all.labels.labels.at(1).shades == std::vector<std::string>{"Damson", "Sloe"});
    CHECK(all.labels.labels[0].warnings == all.labels.labels[1].warnings);
    const std::string two = materials_of_range.substr(0, materials_of_range.find("shade Quince")) +
                            "shade Damson\nrest oil\n0.5 % silica\n0.6 % vanilla\n"
                            "shade Sloe\nrest oil\n2 % silica\n0.6 % vanilla\n";
    CHECK(list(made(two, "EU", true)) == "Ricinus Communis Seed Oil, Silica, Aroma, Vanillin");
}

TEST_CASE("what must be named in one shade may be named in all") {
    // Damson: 0.04 % × 2 % = 0.0008 %, not above 0.001 %; Sloe: 0.6 % × 2 % = 0.012 %.
    const std::string two = materials_of_range.substr(0, materials_of_range.find("shade Quince")) +
                            "shade Damson\nrest oil\n0.04 % vanilla\n"
                            "shade Sloe\nrest oil\n0.6 % vanilla\n";
    CHECK(list(made(two, "EU", true)) == "Ricinus Communis Seed Oil, Aroma, Vanillin");
}

TEST_CASE("a range that holds a shade without a list has none") {
    CHECK(list(made(materials_of_range + "material grit\nshade Damson like Quince\nadd 1 % grit\n",
                    "EU", true)) == "label-missing");
}
