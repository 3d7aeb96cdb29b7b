// Two things that makers of lip colour go by. Both are common practice: no source is at hand.
//   * A matte finish takes as much clay, by weight, as the bowl holds base.
//   * Bowls with the same weight of base get the same weight of thinner.
// Tried with the library's matte and with the Orchard's (examples/), on random shades.

#include <catch2/catch.hpp>
#include <filesystem>

#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <random>
#include <set>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "tests/support/text.hpp"

using namespace levigate;

namespace {

std::uint64_t seed() {
    static const std::uint64_t chosen = [] {
        const char* text = std::getenv("LEVIGATE_SEED");
        const bool given = text != nullptr && *text != '\0';
        const std::uint64_t number =
            given ? std::strtoull(text, nullptr, 10) : std::random_device{}();
        std::cout << "LEVIGATE_SEED=" << number << "\n";
        return number;
    }();
    return chosen;
}

std::string example(const std::string& name) {
    const std::filesystem::path folder(LEVIGATE_ROOT);
    return testing::read_file(folder / "examples" / name).value_or("");
}

/// A page with one shade, Probe. It holds base in some of four ways: as the Orchard's own, as
/// another material, inside a blend of no role, and as a blend that is base as a whole.
std::string random_page(std::mt19937_64& random, bool orchard) {
    auto number = [&](int low, int high) {
        return std::to_string(low + static_cast<int>(random() % static_cast<unsigned>(high - low)));
    };
    std::string page = orchard ? "use \"orchard.shade\"\n\n"
                               : "material soft base\n    role base\n\n"
                                 "material copper mica\n    role mica\n\n";
    page += "material heavy base\n    role base\n\n"
            "blend creamy\n    " +
            number(1, 9) + " parts  soft base\n    " + number(1, 9) +
            " parts  copper mica\n\n"
            "blend waxy\n    role base\n    " +
            number(1, 9) + " parts  heavy base\n    " + number(1, 9) +
            " parts  copper mica\n\n"
            "shade Probe\n";
    const std::vector<std::string> bases{"soft base", "heavy base", "creamy", "waxy"};
    const std::size_t first = random() % bases.size();
    for (std::size_t i = 0; i < bases.size(); ++i)
        if (i == first || random() % 2 == 0)
            page += "    " + number(1, 40) + " parts  " + bases[i] + "\n";
    page += "    " + number(1, 40) + " parts  copper mica\n    finishes matte\n    batch trial  " +
            number(1, 500) + " g\n";
    return page;
}

/// Grams on a matte sheet of Probe.
struct Matte {
    Exact base, clay, thinner;
};

std::optional<Matte> matte(const std::string& page, bool orchard,
                           const std::optional<Exact>& make) {
    std::map<std::string, std::string> files{{"a.shade", page}};
    if (orchard) files["orchard.shade"] = example("orchard.shade");
    if (orchard) files["shelf.shade"] = example("shelf.shade");
    const Compiled compiled = compile(memory_world(files), "a.shade");
    Choice choice;
    choice.finish = "matte";
    if (make) {
        BatchSize size;
        size.amount = grams(*make);
        choice.make = size;
    }
    const Sheets sheets = expand(compiled.formulary, compiled.names, choice);
    for (const Finding& finding : compiled.findings) UNSCOPED_INFO(finding.message);
    for (const Finding& finding : sheets.findings) UNSCOPED_INFO(finding.message);
    if (sheets.sheets.size() != 1) return std::nullopt;
    Matte found;
    for (const SheetLine& line : sheets.sheets[0].bowls.back().lines) {
        const std::string& name = compiled.formulary.name(line.what);
        const Exact& weight = in_grams(line.exact);
        if (name == "soft base" || name == "heavy base" || name == "waxy") found.base += weight;
        if (name == "kaolin") found.clay += weight;
        if (name == "light thinner") found.thinner += weight;
    }
    // Of creamy, which has no role of its own, the soft base in it is base. Soft base of the own
    // bowl's line was counted above already.
    for (const Bowl& bowl : sheets.sheets[0].bowls)
        for (const SheetLine& line : bowl.lines)
            if (bowl.mix != no_ingredient && compiled.formulary.name(bowl.mix) == "creamy" &&
                compiled.formulary.name(line.what) == "soft base")
                found.base += in_grams(line.exact);
    return found;
}

}  // namespace

TEST_CASE("a matte finish takes as much clay by weight as the bowl holds base") {
    std::mt19937_64 random(seed());
    for (int i = 0; i < 200; ++i) {
        const bool orchard = i % 2 == 1;
        const std::string page = random_page(random, orchard);
        INFO((orchard ? "the Orchard's matte\n" : "the library's matte\n") << page);
        const auto found = matte(page, orchard, {});
        REQUIRE(found.has_value());
        CHECK(found->base > Exact());
        CHECK(found->clay.fraction() == found->base.fraction());
    }
}

TEST_CASE("bowls with the same weight of base get the same weight of thinner") {
    std::mt19937_64 random(seed());
    std::set<std::string> thinners;
    const Exact base = Exact(25, 2);  // grams of it in every bowl
    for (int i = 0; i < 100; ++i) {
        const std::string page = random_page(random, true);
        INFO(page);
        const auto once = matte(page, true, Exact(100));
        REQUIRE(once.has_value());
        const auto same = matte(page, true, 100 * base / once->base);
        REQUIRE(same.has_value());
        REQUIRE(same->base == base);
        CHECK(same->thinner > Exact());
        thinners.insert(same->thinner.fraction());
    }
    CHECK(thinners.size() == 1);
}
