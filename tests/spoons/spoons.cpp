// Measured sheets: counts by hand, and on random pages what must be true of all of them.
#include <catch2/catch.hpp>

#include <random>

#include "interpreter/compile.hpp"
#include "interpreter/expand/measured.hpp"

using namespace levigate;

namespace {

constexpr std::uint64_t spoons_seed = 20261129;

std::vector<std::string> texts(const std::vector<Exact>& counts) {
    std::vector<std::string> out;
    for (const Exact& one : counts) out.push_back(one.fraction());
    return out;
}
using Strings = std::vector<std::string>;

Exact volume_of(const std::vector<Exact>& sizes, const std::vector<Exact>& counts) {
    Exact out;
    for (std::size_t i = 0; i < sizes.size(); ++i) out += sizes[i] * counts[i];
    return out;
}

struct MadeSheet {
    Compiled compiled;
    Spoons spoons;
    Sheet sheet;
    MeasuredSheet measured;
};

MadeSheet made(const std::string& page, const std::string& with) {
    MadeSheet out{compile(memory_world({{"a.shade", page}}), "a.shade"), {}, {}, {}};
    INFO(page);
    REQUIRE_FALSE(any_error(out.compiled.findings));
    auto read = read_spoons(out.compiled, with, "--with");
    REQUIRE(read.findings.empty());
    out.spoons = read.value;
    Choice choice;
    choice.reading = Reading{};
    Measurer measurer(out.compiled.formulary, out.compiled.names, out.spoons);
    int sheets = 0;
    expand_drawn(out.compiled.formulary, out.compiled.names, choice,
                 [&](Sheet& sheet, const Blueprint& blueprint) {
                     std::erase_if(sheet.findings, [](const Finding& one) {
                         return about_weighing(one.code);
                     });
                     out.measured = measurer.measure(sheet, blueprint);
                     out.sheet = sheet;
                     ++sheets;
                 });
    REQUIRE(sheets == 1);
    return out;
}

Strings codes(const Sheet& sheet) {
    Strings out;
    for (const Finding& one : sheet.findings) out.emplace_back(row_of(one.code).name);
    return out;
}

}  // namespace

TEST_CASE("counts of spoons by hand") {
    const std::vector<Exact> quarters{Exact(1, 4), Exact(1, 8)};
    CHECK(texts(counts_of(quarters, Exact(5, 8))) == Strings{"2", "1"});
    CHECK(texts(counts_of(quarters, Exact(11, 16))) == Strings{"3", "0"});  // a half up, and in one
    CHECK(texts(counts_of(quarters, Exact(1, 16))) == Strings{"0", "1"});
    CHECK(texts(counts_of(quarters, Exact(1, 17))) == Strings{"0", "0"});
    // 0.4 and 0.4 would be 0.8; of 1 and 0.4 what is nearest to 0.99 is 1, not 0.8 or 1.2.
    CHECK(texts(counts_of({1, Exact(2, 5)}, Exact(99, 100))) == Strings{"0", "2"});
    CHECK(texts(counts_of({1, Exact(2, 5)}, Exact(1))) == Strings{"1", "0"});
    // Three of 0.35 would be 1.05: more than the larger one, which is nearer.
    CHECK(texts(counts_of({1, Exact(7, 20)}, Exact(99, 100))) == Strings{"1", "0"});
    CHECK(texts(counts_of({2, 1, Exact(7, 20)}, Exact(199, 100))) == Strings{"1", "0", "0"});
    CHECK(counts_of({}, 3).empty());
}

TEST_CASE("counts are near, whole, and never fewer for more") {
    std::mt19937_64 random(spoons_seed);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    for (int round = 0; round < 3000; ++round) {
        std::vector<Exact> sizes{Exact(between(1, 900), 60)};
        for (int i = between(0, 3); i > 0; --i) {
            const Exact next = sizes.back() * Exact(between(1, 19), 20);
            sizes.push_back(next);
        }
        const Exact volume(between(0, 4000), 37), more = volume + Exact(between(1, 300), 100);
        const std::vector<Exact> counts = counts_of(sizes, volume);
        const Exact came = volume_of(sizes, counts);
        INFO("volume " << volume.fraction() << ", last " << sizes.back().fraction());
        CHECK((came - volume).abs() <= sizes.back() / 2);
        CHECK(came <= volume_of(sizes, counts_of(sizes, more)));
        Exact smaller;
        for (std::size_t i = sizes.size(); i-- > 0;) {
            CHECK(counts[i].is_integer());
            CHECK(counts[i].sign() >= 0);
            if (i + 1 < sizes.size()) CHECK(smaller < sizes[i]);  // else one of these were there
            smaller += counts[i] * sizes[i];
        }
    }
}

// All worked by hand beside the example in grammar/LANGUAGE.md, "Spoons and drops".
TEST_CASE("a blend and a base by scoops and drops") {
    const MadeSheet page = made("unit small scoop = 0.25 mL\n"
                           "material soft base\n density 0.9 g/mL\n"
                           "material copper mica\n bulk 0.3 g/mL\n hazard powder\n"
                           "material red lake\n role lake\n bulk 0.4 g/mL\n hazard powder\n"
                           "blend Windfall mica\n 3 parts copper mica\n 1 part red lake\n"
                           "shade Quince\n rest soft base\n 20 % Windfall mica\n batch t 5 g\n"
                           " expect the lake at most 5 %\n",
                           "drop, 5 mL, small scoop");
    REQUIRE(page.measured.bowls.size() == 2);
    const MeasuredBowl& blend = page.measured.bowls[0];
    const MeasuredBowl& own = page.measured.bowls[1];
    CHECK(spoon_words(page.spoons, own.lines[0].counts) == "17 small scoops + 4 drops");
    CHECK(own.lines[0].grams == Exact(4005, 1000));
    CHECK(*own.lines[0].off == Exact(1, 800));
    CHECK(spoon_words(page.spoons, own.lines[1].counts) == "13 small scoops");
    CHECK(*own.lines[1].off == Exact(1, 25));
    CHECK(blend.asked == Exact(26, 25));
    CHECK(spoon_words(page.spoons, blend.lines[0].counts) == "10 small scoops");
    CHECK(spoon_words(page.spoons, blend.lines[1].counts) == "3 small scoops");
    // 0.3 g of the lake, where a quarter of the 1.05 g that are made is 0.2625 g.
    CHECK(*blend.lines[0].off == Exact(-1, 21));
    CHECK(*blend.lines[1].off == Exact(1, 7));
    REQUIRE(codes(page.sheet) == Strings{"measure-expect"});
    // 0.3/1.05 of 1.04 in 5.045
    CHECK(page.sheet.findings[0].message.find("about 5.8898 %") != std::string::npos);
}

TEST_CASE("drops are for what pours, and for what is written in drops") {
    const std::string page = "unit pipette = 20 drops\nunit pea = 0.05 mL\n"
                             "material oil\n density 0.9 g/mL\n"
                             "material mica\n bulk 0.3 g/mL\n"
                             "shade S\n 9 g oil\n 1 g mica\n batch t 10 g\n";
    CHECK(codes(made(page, "drop, pipette").sheet) == Strings{"measure-nothing"});
    const MadeSheet peas = made(page, "drop, pea");  // one size: what is named first stays
    CHECK(codes(peas.sheet) == Strings{"measure-nothing"});
    const MadeSheet both = made(page, "pipette, 0.04 mL");
    CHECK(codes(both.sheet).empty());
    CHECK(spoon_words(both.spoons, both.measured.bowls[0].lines[0].counts) == "10 pipettes");
    CHECK(spoon_words(both.spoons, both.measured.bowls[0].lines[1].counts) == "83 × 0.04 mL");
    CHECK(both.spoons[0].in_drops);
    CHECK_FALSE(both.spoons[1].in_drops);
}

TEST_CASE("what can't be measured is said, and not guessed") {
    const MadeSheet unknown = made("material oil\nmaterial mica\n bulk 0.3 g/mL\n"
                              "shade S\n 9 g oil\n 1 g mica\n batch t 10 g\n",
                              "1/4 tsp");
    CHECK(codes(unknown.sheet) == Strings{"density-missing"});
    CHECK(unknown.measured.bowls[0].lines[0].counts.empty());
    CHECK_FALSE(unknown.measured.bowls[0].lines[0].off);
    CHECK_FALSE(unknown.measured.bowls[0].known);
    // 0.05 g is 1/6 mL, and half of a quarter of a teaspoon more than 0.6 mL.
    CHECK(codes(made("material oil\n density 1 g/mL\nmaterial mica\n bulk 0.3 g/mL\n"
                     "shade S\n rest oil\n 0.5 % mica\n batch t 10 g\n",
                     "1/4 tsp")
                    .sheet) == Strings{"measure-nothing"});
    CHECK(codes(made("material oil\n density 1 g/mL\nmaterial mica\n density 3 g/mL\n"
                     " hazard powder\nshade S\n rest oil\n 50 % mica\n batch t 10 g\n",
                     "1/4 tsp")
                    .sheet) == Strings{"bulk-missing"});
}

TEST_CASE("measures that are none are refused") {
    Compiled compiled = compile(memory_world({{"a.shade", "material oil\n"}}), "a.shade");
    for (const char* text :
         {"", "2 g", "tps", "1/4 tsp,", "0 mL", "3", "1 mL, overage 5 %", "1 mL + 1 mL", "5 %"}) {
        INFO(text);
        CHECK(any_error(read_spoons(compiled, text, "--with").findings));
    }
    CHECK(any_error(read_spoons(compiled, std::string(30, ','), "--with").findings));
    const auto read = read_spoons(compiled, "drop, ¼ tsp ,1/8 tsp, 0.25 tsp", "--with");
    CHECK(read.findings.empty());
    REQUIRE(read.value.size() == 3);
    CHECK(spoon_name(read.value[0]) == "1/4 tsp");
    CHECK(spoon_name(read.value[2]) == "drop");
}

TEST_CASE("random pages: each line comes to its counts, and a blend is never too little") {
    std::mt19937_64 random(spoons_seed);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    for (int round = 0; round < 200; ++round) {
        std::string page;
        std::vector<Exact> densities;
        for (int i = 0; i < 4; ++i) {
            const int tenths = between(2, 30);
            const bool powder = i % 2 == 1;
            densities.emplace_back(tenths, 10);
            page += "material m" + std::to_string(i) + (powder ? "\n bulk " : "\n density ") +
                    densities.back().fraction() + " g/mL\n";
        }
        const auto parts = [&] { return std::to_string(between(1, 40)) + " parts "; };
        page += "blend A\n " + parts() + "m0\n " + parts() + "m1\n";
        page += "blend B\n " + parts() + "A\n " + parts() + "m2\n " + parts() + "m3\n";
        page += "shade S\n " + parts() + "m0\n " + parts() + "A\n " + parts() + "B\n batch t " +
                std::to_string(between(2, 200)) + " g\n";
        const MadeSheet out = made(page, "5 mL, 1/4 tsp, 0.3 mL, drop");
        INFO(page);
        const Formulary& formulary = out.compiled.formulary;
        for (std::size_t k = 0; k < out.sheet.bowls.size(); ++k) {
            const Bowl& bowl = out.sheet.bowls[k];
            const MeasuredBowl& measured = out.measured.bowls[k];
            REQUIRE(measured.known);
            Exact asked, sum;
            for (std::size_t users = 0; users < out.sheet.bowls.size(); ++users)
                for (std::size_t i = 0; i < out.sheet.bowls[users].lines.size(); ++i)
                    if (bowl.mix != no_ingredient &&
                        out.sheet.bowls[users].lines[i].what == bowl.mix)
                        asked += out.measured.bowls[users].lines[i].grams;
            CHECK(measured.asked == asked);
            for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
                const IngredientId what = bowl.lines[i].what;
                const std::string& name = formulary.name(what);
                const MeasuredLine& line = measured.lines[i];
                sum += line.grams;
                if (name[0] != 'm') continue;
                const auto number = static_cast<std::size_t>(name[1] - '0');
                Exact volume, smallest;
                for (std::size_t s = 0; s < out.spoons.size(); ++s) {
                    volume += line.counts[s] * in_millilitres(out.spoons[s].volume);
                    if (number % 2 == 1 && out.spoons[s].in_drops) CHECK(line.counts[s].is_zero());
                    if (number % 2 == 0 || !out.spoons[s].in_drops)
                        smallest = in_millilitres(out.spoons[s].volume);
                }
                CHECK(line.grams == volume * densities[number]);
                const Exact due = in_grams(bowl.lines[i].exact);
                // A blend's line is held against its part of what the bowl gives.
                Exact whole;
                for (const SheetLine& each : bowl.lines) whole += in_grams(each.exact);
                const Exact part = bowl.mix == no_ingredient ? due : due / whole * measured.grams;
                CHECK(*line.off == (line.grams - part) / part);
                if (bowl.mix == no_ingredient)
                    CHECK((line.grams - due).abs() <= smallest * densities[number] / 2);
            }
            CHECK(sum == measured.grams);
            if (bowl.mix != no_ingredient) CHECK(sum >= asked);
        }
    }
}
