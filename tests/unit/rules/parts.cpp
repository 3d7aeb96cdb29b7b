// Labels as makers and suppliers write them: shares, `(and)`, nano forms, lakes. Rules and sources
// as in declaration.cpp. Nano: Annexes III to VI of Regulation (EC) 1223/2009 don't cover nano
// forms unless the entry says so (preamble point 3, memory); Annex IV names carbon black (nano)
// alone, up to 10 % (126a). Lakes: colour, metal and the word Lake (21 CFR 82.51(b)).

#include <catch2/catch.hpp>

#include "tests/unit/rules/made.hpp"

using namespace levigate::testing;

namespace {

/// A shade of 10 % of one material, and of lanolin and castor oil.
std::string with_odd(const std::string& lines, const std::string& amount = "10 %") {
    return "material oil\nlabel Ricinus Communis Seed Oil\nmaterial odd\n" + lines +
           "\nshade Quince\nrest oil\n" + amount + " odd\n";
}

std::string codes(const Boxed& from) {
    std::string out;
    for (const levigate::Finding& finding : from.compiled.findings)
        out += (out.empty() ? "" : " ") + std::string(row_of(finding.code).name);
    for (const levigate::BoxLabel& label : from.labels.labels)
        for (const levigate::Finding& finding : label.findings)
            out += (out.empty() ? "" : " ") + std::string(row_of(finding.code).name);
    return out;
}

std::string percent(const Boxed& from, const std::string& name) {
    for (const levigate::Listed& one : from.labels.labels.at(0).list)
        if (one.name.name == name) return (as_fraction(one.most) * 100).fraction();
    return "not there";
}

}  // namespace

TEST_CASE("a share is read in every way in which the language writes one") {
    // 35 % of 10 % is 3.5 %.
    for (const char* share : {"35 %", "35%", "35 percent", "350000 ppm", "35 in 100", "70/2 %"}) {
        CAPTURE(share);
        const Boxed from = made(with_odd("label Mica 65 %, Silica " + std::string(share)), "EU");
        CHECK(list(from) == "Ricinus Communis Seed Oil, Mica, Silica");
        CHECK(percent(from, "Silica") == "7/2");
    }
    const Boxed held = made(with_odd("label Aroma\ncontains vanillin 20000 ppm"), "EU");
    CHECK(list(held) == "Ricinus Communis Seed Oil, Aroma, Vanillin");
    // The last part is a colourant that the US keeps from lips; its share hides it no more.
    CHECK(codes(made(
              with_odd("label Mica 60 %, Titanium Dioxide 35 %, Ferric Ferrocyanide 5 percent"),
              "US")) == "lips-not-allowed");
}

TEST_CASE("a number that may be a share is not swallowed by the name") {
    for (const char* label :
         {"Mica 1/3, Silica 2/3", "Mica ½, Silica", "Mica 0.6, Silica", "Mica 1 1/2 (and) Silica",
          "Mica 3 parts, Silica 1 part", "Mica 60 per cent, Silica", "Mica 60 pct",
          "Mica(and)Silica", "Mica (and)Silica", "\"Mica\" 1/3, Silica"}) {
        CAPTURE(label);
        const Boxed from = made(with_odd("label " + std::string(label)), "EU");
        CHECK(codes(from) == "line-malformed");
        CHECK(list(from).empty());
    }
    for (const char* name : {"Red 7", "PEG-8", "CI 77891", "Polyglyceryl-3 Diisostearate",
                             "PEG/PPG-18/4 Copolymer", "\"Blend 1/3\""}) {
        CAPTURE(name);
        CHECK(codes(made(with_odd("label " + std::string(name) + " 60 %, Silica 40 %"), "US"))
                  .find("line-malformed") == std::string::npos);
    }
}

TEST_CASE("suppliers' (and) parts names like a comma") {
    const Boxed from =
        made(with_odd("label Mica 60 % (and) Silica 30 % (AND) Tin Oxide 10 %\ncolourant CI 77019"),
             "EU");
    CHECK(list(from) == "Ricinus Communis Seed Oil, Mica, Silica, Tin Oxide");
    // No shares: which stands first can't be told.
    CHECK(list(made(with_odd("label Mica (and) Silica"), "EU")) == "label-undecided");
    CHECK(codes(made(with_odd("label Mica (and) Titanium Dioxide (and) Ferric Ferrocyanide"),
                     "US")) == "lips-not-allowed");
    CHECK(codes(made(with_odd("label Mica (and)"), "EU")) == "line-malformed");
}

TEST_CASE("a nano form is judged and listed as one") {
    const auto codes_of = [](const std::string& lines, const char* amount) {
        return codes(made(with_odd(lines, amount), "EU"));
    };
    const std::string black = "label Carbon Black (nano)\ncolourant CI 77266";
    CHECK(list(made(with_odd(black), "EU")) == "Ricinus Communis Seed Oil, CI 77266 (nano)");
    CHECK(codes_of(black, "10 %").empty());
    CHECK(codes_of(black, "10.0001 %") == "lips-limit");
    // Zinc oxide is listed, and nano grains of it are not.
    const std::string zinc = "label Zinc Oxide (nano)\ncolourant CI 77947";
    CHECK(codes_of(zinc, "1 %") == "lips-unknown");
    CHECK(codes_of("label Zinc Oxide\ncolourant CI 77947", "1 %").empty());
    // Without its number it may be a colourant all the same; silica is none anywhere.
    CHECK(list(made(with_odd("label Zinc Oxide (nano)"), "EU")) == "label-undecided");
    CHECK(list(made(with_odd("label Silica (nano)"), "EU")) ==
          "Ricinus Communis Seed Oil, Silica (nano)");
    // One of two parts: the number belongs to the part that some rule calls so.
    CHECK(codes_of("label Mica 60 %, Titanium Dioxide (nano) 40 %\ncolourant CI 77891", "5 %") ==
          "lips-unknown");
    const std::string two = "label Titanium Dioxide (nano) 60 %, Titanium Dioxide 40 %\n";
    CHECK(list(made(with_odd(two + "colourant CI 77891"), "EU")) == "label-undecided");
    CHECK(codes(made(with_odd("label Mica [nano]"), "EU")) == "line-malformed");
}

TEST_CASE("a list by name keeps the word Lake") {
    const auto us = [](const std::string& label, const std::string& number) {
        const std::string all =
            list(made(with_odd("label " + label + "\ncolourant " + number), "US"));
        return all.substr(std::string("Ricinus Communis Seed Oil, ").size());
    };
    CHECK(us("Yellow 10 Aluminum Lake", "CI 47005") == "Yellow 10 Aluminum Lake");
    CHECK(us("D&C Yellow 10 Lake", "CI 47005") == "D&C Yellow 10 Lake");
    CHECK(us("FD&C Blue No. 1 Aluminum Lake", "CI 42090:2") == "Blue 1 Lake");
    CHECK(us("Lithol Rubine Lake", "CI 15850:1") == "Red 7 Lake");
    CHECK(us("D&C Yellow No. 10", "CI 47005") == "Yellow 10");
    CHECK(us("CI 15850:1", "CI 15850:1") == "Red 7");
    // Known by such a name where there is no number: Red 31 is not for lips (21 CFR 74.2331).
    for (const char* label : {"Red 31", "Red 31 Lake", "D&C Red 31 Calcium Lake", "D&C Red No. 31"})
        CHECK(codes(made(with_odd("label " + std::string(label)), "US")) == "lips-not-allowed");
    CHECK(codes(made(with_odd("label Red 310"), "US")).empty());
}

TEST_CASE("a part of nothing is not listed") {
    CHECK(list(made(with_odd("label Water 100 %, Salt 0 %"), "EU")) ==
          "Ricinus Communis Seed Oil, Water");
    // It is there if the share is small.
    CHECK(list(made(with_odd("label Water 99.9999 %, Salt 1 ppm"), "EU")) ==
          "Ricinus Communis Seed Oil, Water, Salt");
}

TEST_CASE("one cause of a missing list, one message") {
    for (const char* label : {"1,2-Hexanediol", "Cyclo-1,2-Diol", "N,N-Dimethylglycine",
                              "Mica; Silica", "Cera Alba."}) {
        CAPTURE(label);
        const Boxed from = made(with_odd("label " + std::string(label)), "EU");
        CHECK(codes(from) == "line-malformed");
        CHECK(list(from).empty());
    }
    CHECK(list(made(with_odd("label \"1,2-Hexanediol\""), "EU")) ==
          "Ricinus Communis Seed Oil, 1,2-Hexanediol");
    const Boxed none = made(with_odd("label Mica 100 %, Silica"), "EU");
    REQUIRE(list(none) == "label-shares");
    REQUIRE(none.compiled.findings.size() == 1);
    CHECK(none.compiled.findings[0].message.find("nothing is left for Silica") !=
          std::string::npos);
}

TEST_CASE("what check wants asked stands among a list's warnings") {
    // A pearl in the US: FDA's letter of 2007-02-05 takes coated mica for a colour of its own.
    const std::string pearl = "role pearl\nlabel Mica 60 %, Titanium Dioxide 40 %\n"
                              "colourant CI 77019, CI 77891";
    const auto warnings = made(with_odd(pearl), "US").labels.labels.at(0).warnings;
    REQUIRE(warnings.size() == 1);
    CHECK(warnings[0].find("2007-02-05") != std::string::npos);
}

TEST_CASE("a region that is damaged or there twice makes no list") {
    const auto in = [](const std::string& region) {
        return made(region + "rule XX Reds\ncovers CI 77491\nlips yes\n" + with_odd("label Silica"),
                    "XX");
    };
    CHECK(list(in("region XX\ncolourants by name\n")) == "Ricinus Communis Seed Oil, Silica");
    const Boxed twice = in("region XX\ncolourants by name\nregion XX\ncolourants by name\n");
    CHECK(list(twice).empty());
    CHECK(codes(twice) == "block-twice");
    for (const char* line : {"colourants by colour", "minor below 3 g", "contents from 5 %"}) {
        CAPTURE(line);
        const Boxed damaged = in("region XX\n" + std::string(line) + "\n");
        CHECK(list(damaged).empty());
        CHECK(damaged.compiled.findings.size() == 1);
    }
    // A region that no rule is for.
    const Boxed bare = made("region YY\ncolourants by name\n" + with_odd("label Silica"), "YY");
    REQUIRE(list(bare) == "market-unknown");
    CHECK(bare.labels.findings[0].message.find("No rules are known") != std::string::npos);
    CHECK(remedy(bare.labels.findings[0]).find("region") == std::string::npos);
}
