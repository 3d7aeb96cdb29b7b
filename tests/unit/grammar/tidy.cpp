// The canonical form of single lines. What is expected stands in the language's design: its page of
// examples, and its rules for fields, signs and numbers.

#include <catch2/catch.hpp>

#include "grammar/read.hpp"
#include "grammar/tidy.hpp"

namespace {

using namespace levigate;

/// Knows two measures of the tests' own, and g, mL and drops.
std::size_t measure_split(std::string_view words) {
    for (const std::string_view measure :
         {"small scoops", "drops per", "slim tubes", "drops", "parts", "part", "mL", "oz", "g"})
        if (words.starts_with(measure) &&
            (words.size() == measure.size() || words.substr(measure.size(), 1) != "s"))
            return measure.size();
    return 0;
}

/// The first line of a block of this heading.
std::string in_block(const std::string& heading, const std::string& line) {
    Sources sources;
    Names names;
    const SourceId id = sources.add({"test", heading + "\n" + line + "\n"});
    const auto file = read(sources, id, names);
    INFO((file.findings.empty() ? std::string() : file.findings[0].message));
    REQUIRE(file.findings.empty());
    REQUIRE(file.value.lines.size() == 1);
    return tidy_line(sources[id].text, file.value, file.value.lines[0], measure_split);
}
std::string in_shade(const std::string& line) { return in_block("shade Quince", line); }

std::string heading(const std::string& line) {
    Sources sources;
    Names names;
    const SourceId id = sources.add({"test", line + "\n"});
    const auto file = read(sources, id, names);
    REQUIRE(file.findings.empty());
    REQUIRE(file.value.blocks.size() == 1);
    return tidy_heading(sources[id].text, file.value, file.value.blocks[0]);
}

}  // namespace

TEST_CASE("a line is the same again once it is in canonical form") {
    for (const char* line :
         {"rest        soft base",
          "{depth}     Windfall mica",
          "8 parts     copper mica",
          "set  21 %   Windfall mica",
          "add  1.5 %  black iron oxide",
          "without     vanilla flavour",
          "swap        Windfall mica for Dusk mica",
          "scale       the mica by 1/2",
          "add  as much kaolin as the base",
          "add  1/4 × as much light thinner as the base",
          "batch       trial  6 g",
          "batch       full  48 slim tubes, overage 5 %",
          "expect      the lake at most 8 %",
          "let {depth} = 18 %",
          "fresh       steps",
          "fresh       dilutions",
          "dilute      red 7 lake to 10 % in soft base",
          "private dilute  {tone} to 1 in 20 in \"Salt to Taste\"",
          "step        Work {Windfall mica} into {soft base} until no streak is left.",
          "private note  The supplier changes the copper in spring.",
          "half as much kaolin as the base",
          "enough water to bring the dye to 5 %",
          "(2 × 3 % + {depth})  Dusk mica",
          "weigh on    bench balance",
          "variants    sheer, deep"})
        CHECK(in_shade(line) == line);
    CHECK(in_block("material x", "swatch      Lab 38 -61 32 at 5 % in soft base") ==
          "swatch      Lab 38 -61 32 at 5 % in soft base");
    CHECK(in_block("material x", "density     1.7 g/mL") == "density     1.7 g/mL");
    CHECK(in_block("material x", "price       14.20 USD per 30 g") ==
          "price       14.20 USD per 30 g");
    CHECK(in_block("material x", "label       Mica 60 %, Titanium Dioxide 40 %") ==
          "label       Mica 60 %, Titanium Dioxide 40 %");
    CHECK(in_block("family x", "vary        {depth} over 4 %, 8 %") ==
          "vary        {depth} over 4 %, 8 %");
    CHECK(in_block("family x", "row         Quince Pale | 4 % | copper mica") ==
          "row         Quince Pale | 4 % | copper mica");
    CHECK(in_block("plan x", "make        full of Quince / satin") ==
          "make        full of Quince / satin");
    CHECK(in_block("plan x", "make        24 slim tubes of Damson / matte") ==
          "make        24 slim tubes of Damson / matte");
    CHECK(in_block("plan x", "on          2026-12-01") == "on          2026-12-01");
    CHECK(in_block("shelf", "have        120 g copper mica, lot 24-117, best before 2027-03") ==
          "have        120 g copper mica, lot 24-117, best before 2027-03");
    CHECK(in_block("shelf", "have 48   slim tubes ,Best Before 2027-03-31") ==
          "have        48 slim tubes, best before 2027-03-31");
}

TEST_CASE("the field is twelve wide, and two blanks stand behind what is longer") {
    CHECK(in_shade("2 drops per 10 g      vanilla flavour") == "2 drops per 10 g  vanilla flavour");
    CHECK(in_shade("8 parts copper mica") == "8 parts     copper mica");
    CHECK(in_shade("2 small scoops   copper mica") == "2 small scoops  copper mica");
    CHECK(in_shade("set 18.25 % x") == "set  18.25 %  x");
}

TEST_CASE("where a measure is unknown, the maker's blanks part it from the name") {
    CHECK(in_shade("2 fat pinches   copper mica") == "2 fat pinches  copper mica");
    CHECK(in_shade("2 pinches copper mica") == "2 pinches   copper mica");
    CHECK(in_shade("12 pinches copper mica") == "12 pinches  copper mica");
    CHECK(in_shade("1 bigspoons  red mica") == "1 bigspoons  red mica");
}

TEST_CASE("numbers and signs have one spelling, and what is a name keeps its own") {
    CHECK(in_shade("½ part Red 7 Lake") == "1/2 part    Red 7 Lake");
    CHECK(in_shade("2½ parts x") == "2 1/2 parts x");
    CHECK(in_shade("2 ½ parts x") == "2 1/2 parts x");
    CHECK(in_shade(".5% x") == "0.5 %       x");
    CHECK(in_shade("0.50 % x") == "0.50 %      x");
    CHECK(in_shade("1.5g x") == "1.5 g       x");
    CHECK(in_shade("(2*3%+{ depth }) x") == "(2 × 3 % + {depth})  x");
    CHECK(in_shade("(6%–−1%) x") == "(6 % - -1 %)  x");
    CHECK(in_shade("(6 %÷2) x") == "(6 % / 2)   x");
    CHECK(in_shade("REST   “Salt for Two”") == "rest        \"Salt for Two\"");
    CHECK(in_shade("3 %\u00A0 Rose’s\t Kiss") == "3 %         Rose's Kiss");
    CHECK(in_block("material x", "Density 1.7 g / mL") == "density     1.7 g/mL");
    CHECK(in_block("material x", "swatch lab 38 −61 32") == "swatch      Lab 38 -61 32");
    CHECK(in_block("material x", "label Mica (and) Silica") == "label       Mica, Silica");
    CHECK(in_block("plan x", "MAKE full Of  Quince  /  satin") ==
          "make        full of Quince / satin");
}

TEST_CASE("literal text keeps what it says") {
    CHECK(in_shade("step Work  { Windfall  mica } in, “slowly” – {75°C}.") ==
          "step        Work {Windfall mica} in, “slowly” – {75 °C}.");
    CHECK(in_block("family x", "name “Quince, {depth}” – { depth }") ==
          "name        \"Quince, {depth}\" – {depth}");
}

TEST_CASE("a list that is broken stays so, and its comments are not part of the line") {
    CHECK(in_shade("variants sheer,\n # the rest\r\n   deep,   # why\n\tpale") ==
          "variants    sheer,\n                deep,\n                pale");
}

TEST_CASE("headings") {
    CHECK(heading("SHADE  Damson   Like Quince") == "shade Damson like Quince");
    CHECK(heading("unit scoop=.15mL") == "unit scoop = 0.15 mL");
    CHECK(heading("rate EUR=1.08 USD ,2026-10-01") == "rate EUR = 1.08 USD, 2026-10-01");
    CHECK(heading("Shelf") == "shelf");
    CHECK(heading("use “two  blanks.shade”") == "use \"two  blanks.shade\"");
    CHECK(heading("market US,EU") == "market US, EU");
    CHECK(heading("rule US  Red 33") == "rule US Red 33");
    CHECK(heading("region EU") == "region EU");
    CHECK(heading("language  1") == "language 1");
}
