// Ingredient lists, each worked by hand from the wording of the rules:
//   US   21 CFR 701.3(a), text of 1996-04-01 (govinfo): every ingredient by name, in descending
//   order
//        of predominance; flavour may stand as flavour. The other order, behind 701.3(f), from
//        second-hand pages (../shared/facts, lip_colourants_us.md section 3): above 1 % descending,
//        at 1 % or less in any order, then colour additives in any order. "May contain" for colours
//        that only some shades of a line hold: topic of FDA's guide, wording from memory.
//   EU   Regulation (EC) 1223/2009, Article 19(1)(g), after ../shared/facts, lip_colourants_eu.md
//        section 2: falling weight; below 1 % in any order; colourants last, by CI number; all
//        colourants of a range behind +/-; `(nano)` behind nano ingredients; substances of Annex
//        III above their share by name beside an aroma.
// Within the minor group and among colourants any order is right; ours is by weight, and by name.

#include <catch2/catch.hpp>

#include "tests/unit/rules/made.hpp"

using namespace levigate::testing;

namespace {

const std::string shelf = R"(
material oil
    role base
    label Ricinus Communis Seed Oil
material butter
    label Lanolin
material silica
    label Silica
material talcum
    label Boron Nitride
material wax mix
    label Cera Alba 70 %, ricinus  communis SEED oil 30 %
material pearl
    label Mica 60 %, Titanium Dioxide 40 %
    colourant CI 77891
material white
    label CI 77891
    colourant CI 77891
material red oxide
    label Iron Oxides
    colourant CI 77491
material black oxide
    label Iron Oxides
    colourant CI 77499
material red lake
    label Red 7 Lake
    colourant CI 15850:1
material carmine red
    label Carmine
    colourant CI 75470
material vanilla
    role flavour
    label Aroma
    contains vanillin 2 %
material pure vanillin
    label Vanillin
)";

}  // namespace

TEST_CASE("a composite is split, and one name from two materials is one ingredient") {
    // 30 % wax mix: 21 % Cera Alba, 9 % castor oil. 25 % + 9 % = 34 % castor oil, which without the
    // wax mix's part would stand third. 10 % pearl: 6 % Mica, 4 % titanium dioxide; with 2 % of its
    // own 6 %. The spelling is that of the material of which there is most, blanks single.
    // Mica is a colour additive in the US (21 CFR 73.2496) and none in Annex IV.
    const std::string file = shelf + "shade Quince\n33 % butter\n30 % wax mix\n25 % oil\n"
                                     "10 % pearl\n2 % white\n";
    CHECK(list(made(file, "EU")) ==
          "ricinus communis SEED oil, Lanolin, Cera Alba, Mica, CI 77891");
    CHECK(list(made(file, "US")) == "ricinus communis SEED oil, Lanolin, Cera Alba, Mica, "
                                    "Titanium Dioxide");
    const Boxed eu = made(file, "EU");
    CHECK(as_fraction(eu.labels.labels[0].list[0].most) == levigate::Exact(34, 100));
    CHECK(as_fraction(eu.labels.labels[0].list[4].most) == levigate::Exact(6, 100));
    CHECK(eu.labels.labels[0].list[0].from.size() == 2);
}

TEST_CASE("exactly 1 % is small in the US and is not in the EU") {
    const std::string at = shelf + "shade Quince\nrest oil\n1 % silica\n0.5 % butter\n";
    CHECK(group(made(at, "US"), "Silica") == "minor");  // "1 % or less"
    CHECK(group(made(at, "EU"), "Silica") == "main");   // "below 1 %"
    // One part in a million on either side.
    const std::string over = shelf + "shade Quince\nrest oil\n1.0001 % silica\n";
    CHECK(group(made(over, "US"), "Silica") == "main");
    const std::string under = shelf + "shade Quince\nrest oil\n0.9999 % silica\n";
    CHECK(group(made(under, "EU"), "Silica") == "minor");
}

TEST_CASE("equal shares stand by name, whatever the order of the lines") {
    const std::string a = shelf + "shade Quince\nrest oil\n1 % silica\n1 % talcum\n";
    const std::string b = shelf + "shade Quince\n1 % talcum\n1 % silica\nrest oil\n";
    for (const char* market : {"US", "EU"}) {
        CHECK(list(made(a, market)) == "Ricinus Communis Seed Oil, Boron Nitride, Silica");
        CHECK(list(made(b, market)) == list(made(a, market)));
    }
}

TEST_CASE("colourants stand last, whatever their weight") {
    // 30 % of red oxide is more than the 0.5 % silica before it.
    const std::string file = shelf + "shade Quince\nrest oil\n30 % red oxide\n0.5 % silica\n"
                                     "5 % black oxide\n3 % red lake\n";
    // The US list has one name for the iron oxides (21 CFR 73.2250); the EU goes by number, and
    // Annex IV 27 lists the salts of CI 15850 with it.
    CHECK(list(made(file, "US")) == "Ricinus Communis Seed Oil, Silica, Iron Oxides, Red 7 Lake");
    CHECK(list(made(file, "EU")) ==
          "Ricinus Communis Seed Oil, Silica, CI 15850, CI 77491, CI 77499");
}

TEST_CASE("a finish moves an ingredient below 1 %") {
    // Satin: silica 1.2 %, above 1 % in both. Matte adds 60 of clay to 100 of bulk (as much as the
    // base): silica is 1.2 / 160 = 0.75 %, oil and clay 60 / 160 = 37.5 % each, butter 38.8 / 160 =
    // 24.25 %. The tie stands by name.
    const std::string file = shelf + "shade Quince\n60 % oil\n38.8 % butter\n1.2 % silica\n"
                                     "finishes satin, matte\n";
    levigate::Choice choice;
    choice.finish = "satin";
    for (const char* market : {"US", "EU"}) {
        choice.finish = "satin";
        const Boxed satin = made(file, market, false, choice);
        CHECK(list(satin) == "Ricinus Communis Seed Oil, Lanolin, Silica");
        CHECK(group(satin, "Silica") == "main");
        choice.finish = "matte";
        const Boxed matte = made(file, market, false, choice);
        CHECK(list(matte) == "Kaolin, Ricinus Communis Seed Oil, Lanolin, Silica");
        CHECK(group(matte, "Silica") == "minor");
        CHECK(as_fraction(matte.labels.labels[0].list[3].most) == levigate::Exact(3, 400));
    }
}

TEST_CASE("carmine is named by its word in the US, by number in the EU") {
    const std::string file = shelf + "shade Quince\nrest oil\n4 % carmine red\n";
    const Boxed us = made(file, "US");
    CHECK(list(us) == "Ricinus Communis Seed Oil, Carmine");
    CHECK(list(made(file, "EU")) == "Ricinus Communis Seed Oil, CI 75470");
    bool told = false;
    for (const std::string& words : us.labels.labels[0].conditions)
        told = told || words.find("21 CFR 73.2087") != std::string::npos;
    CHECK(told);
}

TEST_CASE("a nano colourant carries the word") {
    const std::string file = shelf + "material fine black\nlabel CI 77266 (nano)\n"
                                     "colourant CI 77266 (nano)\n"
                                     "shade Quince\nrest oil\n1 % fine black\n";
    CHECK(list(made(file, "EU")) == "Ricinus Communis Seed Oil, CI 77266 (nano)");
}

TEST_CASE("what an aroma holds too much of stands beside it") {
    // Vanillin, above 0.001 % (Annex III 346). 0.05 % × 2 % = 0.001 %: at the bound, not above.
    const auto with = [](const std::string& lines) {
        return shelf + "shade Quince\nrest oil\n" + lines;
    };
    CHECK(list(made(with("0.05 % vanilla\n"), "EU")) == "Ricinus Communis Seed Oil, Aroma");
    // 0.0501 % × 2 % = 0.001002 %.
    const Boxed above = made(with("0.0501 % vanilla\n"), "EU");
    CHECK(list(above) == "Ricinus Communis Seed Oil, Aroma, Vanillin");
    CHECK(group(above, "Vanillin") == "named");
    CHECK(as_fraction(above.labels.labels[0].list[2].most) == levigate::Exact(1002, 100000000));
    // The US has no such list in our pages.
    CHECK(list(made(with("5 % vanilla\n"), "US")) == "Ricinus Communis Seed Oil, Aroma");
    // Named already, under its own name: once, with what the aroma brings. 0.3 % + 2 % of 10 % =
    // 0.5 %, which puts it before 0.4 % of silica; by itself it would stand behind.
    CHECK(list(made(with("10 % vanilla\n0.3 % pure vanillin\n0.4 % silica\n"), "EU")) ==
          "Ricinus Communis Seed Oil, Aroma, Vanillin, Silica");
}

TEST_CASE("an aroma of which nothing is known gives a warning where something must be named") {
    const auto warnings = [](const std::string& lines, const std::string& market) {
        return made(shelf + lines + "shade Quince\nrest oil\n1 % scent\n", market)
            .labels.labels.at(0)
            .warnings;
    };
    const auto asked = warnings("material scent\nlabel Aroma\n", "EU");
    REQUIRE(asked.size() == 1);
    CHECK(asked[0].find("scent") != std::string::npos);
    CHECK(warnings("material scent\nlabel Aroma\ncontains vanillin 0 %\n", "EU").empty());
    CHECK(warnings("material scent\nlabel Flavor\n", "US").empty());
    // An oil under its own name, known by its role; a substance that is named by itself.
    CHECK(warnings("material scent\nrole flavour\nlabel Mentha Piperita Oil\n", "EU").size() == 1);
    CHECK(warnings("material scent\nrole flavour\nlabel Menthol\n", "EU").empty());
    // By its role, where a rule asks for that.
    const std::string rule = "rule EU Cedrol\ncovers Cedrol\nnamed above 0.001 %\nask of balm\n";
    const auto role = warnings(rule + "material scent\nrole balm\nlabel Myroxylon\n", "EU");
    REQUIRE(role.size() == 1);
    CHECK(role[0].find("Cedrol") != std::string::npos);
}

TEST_CASE("what is listed comes to the whole") {
    // Every part of every material is in the list once: the shares add up to 1, save those that are
    // named a second time, beside the aroma that holds them.
    const std::string file = shelf + "shade Quince\nrest oil\n7 % wax mix\n11 % pearl\n"
                                     "3 % red oxide\n1/3 % red lake\n2 % vanilla\n1/7 % silica\n";
    for (const char* market : {"US", "EU"}) {
        levigate::Share sum;
        const Boxed from = made(file, market);
        for (const levigate::Listed& one : from.labels.labels.at(0).list)
            if (one.group != levigate::Listed::Group::named) sum += one.most;
        CHECK(as_fraction(sum) == levigate::Exact(1));
    }
}

TEST_CASE("a limit or a wish to be named makes no colourant") {
    // BHT: Annex III 325. Caramel: Annex IV 146, without a number. A stearate is a colourant in
    // Annex IV 150, and in a lip colour mostly none: it goes by what the maker writes.
    const std::string file = shelf + "material keeper\nlabel BHT\nmaterial sugar\nlabel Caramel\n"
                                     "material soap\nlabel Zinc Stearate\n"
                                     "shade Quince\nrest oil\n0.1 % keeper\n2 % sugar\n3 % soap\n";
    CHECK(list(made(file, "EU")) == "Ricinus Communis Seed Oil, Zinc Stearate, BHT, Caramel");
}

TEST_CASE("no list comes of what has no name, and all that lack one are named") {
    const Boxed none = made(shelf + "material grit\nmaterial dust\nblend powders\n1 part grit\n"
                                   "1 part dust\nshade Quince\nrest oil\n10 % powders\n",
                           "EU");
    CHECK(list(none) == "label-missing");
    const std::string& words = none.labels.findings.at(0).message;
    CHECK(words.find("grit and dust") != std::string::npos);
    CHECK(words.find("Quince") != std::string::npos);
    // Nothing of it is in the shade.
    CHECK(list(made(shelf + "material grit\nshade Quince\nrest oil\n0 % grit\n", "EU")) ==
          "Ricinus Communis Seed Oil");
}

TEST_CASE("a label that doesn't say what is in a material is refused") {
    const auto with = [](const std::string& label, const std::string& amount) {
        return shelf + "material odd\n" + label + "\nshade Quince\nrest oil\n" + amount +
               " odd\n20 % butter\n";
    };
    CHECK(list(made(with("label Mica 60 %, Silica 35 %", "10 %"), "EU")) == "label-shares");
    CHECK(list(made(with("label Mica 60 %, Silica 45 %", "10 %"), "EU")) == "label-shares");
    CHECK(list(made(with("label Mica 60 %, Silica 40 %, Talc", "10 %"), "EU")) == "label-shares");
    // One open share is what the others leave: 6 % and 4 %.
    CHECK(list(made(with("label Silica 40 %, Talc", "10 %"), "EU")) ==
          "Ricinus Communis Seed Oil, Lanolin, Talc, Silica");
    // Two: nothing tells which of them is more.
    CHECK(list(made(with("label Silica, Talc", "10 %"), "EU")) == "label-undecided");
    // Both are below 1 % whatever they are: any order is allowed.
    const Boxed small = made(with("label Silica, Talc", "0.9 %"), "EU");
    CHECK(list(small) == "Ricinus Communis Seed Oil, Lanolin, Silica, Talc");
    CHECK(small.labels.labels[0].warnings.size() == 2);
    // In the US 1 % may stand in any order too, in the EU not.
    CHECK(list(made(with("label Silica, Talc", "1 %"), "EU")) == "label-undecided");
    // A number that belongs to no part: one of the two is a colourant, and nothing tells which.
    CHECK(list(made(with("label Silica 60 %, Something 40 %\ncolourant CI 15850", "10 %"), "EU")) ==
          "label-undecided");
    // Colourants may stand in any order, so their shares don't matter.
    CHECK(list(made(with("label Iron Oxides\ncolourant CI 77499, CI 77491", "10 %"), "EU")) ==
          "Ricinus Communis Seed Oil, Lanolin, CI 77491, CI 77499");
}

TEST_CASE("of several colours in one part each may be all of it, or nothing") {
    // 10 % of the whole are iron oxides of two numbers. How much is which nobody says: each is from
    // nothing to 10 %. By one number it is 10 %.
    const auto extents = [](const std::string& numbers) {
        const Boxed from = made(shelf + "material rust\nlabel Iron Oxides\ncolourant " + numbers +
                                   "\nshade Quince\nrest oil\n10 % rust\n",
                               "EU");
        std::string out;
        for (const levigate::Listed& one : from.labels.labels.at(0).list)
            if (one.colours())
                out += one.name.name + " " + in_percent(one.least).exactly() + " to " +
                       in_percent(one.most).exactly() + "\n";
        return out;
    };
    CHECK(extents("CI 77499, CI 77491") == "CI 77491 0 to 10\nCI 77499 0 to 10\n");
    CHECK(extents("CI 77491") == "CI 77491 10 to 10\n");
}

TEST_CASE("a colourant that has no number is not listed as something else") {
    const std::string file = shelf + "material lake\nlabel Red 7 Lake\nmaterial zinc\n"
                                     "label Zinc Oxide\nshade Quince\nrest oil\n";
    // By name it is known in the US; by number the EU can't list it.
    CHECK(list(made(file + "2 % lake\n", "US")) == "Ricinus Communis Seed Oil, Red 7 Lake");
    CHECK(list(made(file + "2 % lake\n", "EU")) == "label-undecided");
    // What doesn't colour is called so by the maker.
    const std::string own =
        "rule EU Zinc oxide that doesn't colour\ncovers Zinc Oxide\nlips filler\n";
    CHECK(list(made(file + "2 % zinc\n", "EU")) == "label-undecided");
    CHECK(list(made(file + "2 % zinc\n" + own, "EU")) == "Ricinus Communis Seed Oil, Zinc Oxide");
    // Kaolin and mica are no colourants in the EU without their number.
    CHECK(list(made("material m\nlabel Mica\nshade Quince\nrest m\n10 % kaolin\n", "EU")) ==
          "Mica, Kaolin");
}

TEST_CASE("a region without a way to write lists gets none") {
    CHECK(list(made(shelf + "shade Quince\nrest oil\n", "XX")) == "market-unknown");
    // One of your own does, without a change to the program.
    const std::string own =
        "region XX\ntitle Elsewhere\ncolourants by name\nrange (or: {colourants})\n"
        "minor at most 5 %\nrule XX Reds\ncovers CI 77491\nlabel Ochre\nlips yes\n";
    CHECK(list(made(shelf + own + "shade Quince\nrest oil\n5 % red oxide\n", "XX")) ==
          "Ricinus Communis Seed Oil, Ochre");
}

// 21 CFR 701.3 and Art. 19(1)(g): colourants behind all else. What no rule knows is an error of
// `check`, and no ordinary ingredient for that.
TEST_CASE("a colourant that no rule knows stands among the colourants", "[label]") {
    const Boxed from = made("material oil\n    label Ricinus Communis Seed Oil\n"
                           "material wax\n    label Cera Alba\n"
                           "material odd\n    label CI 1234567\n    colourant CI 1234567\n"
                           "material dye\n    label Odd Dye\n    colourant CI 7654321\n"
                           "shade Plum\n    rest oil\n    1 % wax\n    3 % odd\n    2 % dye\n",
                           "EU");
    CHECK(list(from) == "Ricinus Communis Seed Oil, Cera Alba, CI 1234567, Odd Dye");
    CHECK(group(from, "CI 1234567") == "colourant");
    CHECK(group(from, "Odd Dye") == "colourant");
}
