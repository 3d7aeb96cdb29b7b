// What `changes` tells of costs, against sums made here from the figures that were written.
#include "interpreter/changes/changes.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <random>

using namespace levigate;

namespace {

/// Prices in whole units for 100 g, a share in per cent, a count of pots of 5 g.
struct Figures {
    int base, mica, pot, percent, pots;
    bool mica_priced, pot_priced;
};

std::string page(const Figures& of) {
    std::string out =
        fmt::format("material base\n price {} USD per 100 g\nmaterial mica\n", of.base);
    if (of.mica_priced) out += fmt::format(" price {} EUR per 100 g\n", of.mica);
    out += "container pot\n holds 5 g\n";
    if (of.pot_priced) out += fmt::format(" price {} USD per 100 pieces\n", of.pot);
    return out + fmt::format("shade Quince\n rest base\n {} % mica\n batch full {} pots\n",
                             of.percent, of.pots);
}

Exact usd(const Figures& of) {
    const Exact grams(of.pots * 5);
    Exact out = grams * Exact(100 - of.percent, 100) * Exact(of.base, 100);
    if (of.pot_priced) out += Exact(of.pots) * Exact(of.pot, 100);
    return out;
}

Exact eur(const Figures& of) {
    return of.mica_priced ? Exact(of.pots * 5) * Exact(of.percent, 100) * Exact(of.mica, 100)
                          : Exact();
}

void check_seen(const std::optional<CostSeen>& seen, const Figures& of) {
    REQUIRE(seen);
    CHECK(seen->sum.of(currency_tag("USD")) == usd(of));
    CHECK(seen->sum.of(currency_tag("EUR")) == eur(of));
    CHECK(seen->each.of(currency_tag("USD")) * Exact(of.pots) == usd(of));
    CHECK(seen->complete() == (of.mica_priced && of.pot_priced));
    CHECK(seen->container == "pot");
}

Changes changes_of(const Figures& was, const Figures& is) {
    State before, now;
    add_file(before, memory_world({{"a.shade", page(was)}}), "a.shade", "a.shade");
    add_file(now, memory_world({{"a.shade", page(is)}}), "a.shade", "a.shade");
    return compare(before, now, {});
}

std::string words(const Figures& of) {
    Purse all, each;
    all.add({currency_tag("USD"), usd(of)});
    if (of.mica_priced) all.add({currency_tag("EUR"), eur(of)});
    each = all.times(Exact(1, of.pots));
    const bool complete = of.mica_priced && of.pot_priced;
    return sum_words(all, complete) + sum_words(each, complete);
}

}  // namespace

TEST_CASE("costs before and now are those of the prices", "[changes]") {
    std::mt19937 random(20261129);
    const auto any = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    int told = 0;
    for (int turn = 0; turn < 60; ++turn) {
        const Figures was{any(1, 9),  any(1, 9),     any(1, 90),   any(1, 40),
                          any(1, 30), any(0, 3) > 0, any(0, 3) > 0};
        Figures is = was;
        if (any(0, 1)) is.base = any(1, 9);
        if (any(0, 1)) is.pot = any(1, 90), is.pot_priced = any(0, 3) > 0;
        if (any(0, 1)) is.mica = any(1, 9), is.mica_priced = any(0, 3) > 0;
        if (any(0, 3) == 0) is.percent = any(1, 40);
        INFO(page(was) << "---\n" << page(is));
        const Changes changes = changes_of(was, is);
        const bool other = words(was) != words(is);
        std::size_t costs = 0;
        for (const ShadeEffect& shade : changes.shades) costs += shade.costs.size();
        CHECK(costs == (other ? 1 : 0));
        for (const ShadeEffect& shade : changes.shades)
            for (const CostEffect& one : shade.costs) {
                ++told;
                CHECK_FALSE(shade.causes.empty());
                check_seen(one.before, was);
                check_seen(one.now, is);
            }
    }
    CHECK(told > 20);
}
