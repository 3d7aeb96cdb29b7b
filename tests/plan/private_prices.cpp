// A bench page may lie about in the workshop: no private price is on it, nor what comes of one.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <random>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/plan/plan.hpp"
#include "interpreter/render/html_card.hpp"
#include "interpreter/render/plan_sheet.hpp"

using namespace levigate;

namespace {

constexpr int price_rounds = 300;
constexpr std::uint64_t price_seed = 20261130;

struct Priced {
    std::string page;
    std::vector<std::string> names, prices;  // of each priced thing
    std::vector<bool> is_private;
    bool any_private() const {
        return std::find(is_private.begin(), is_private.end(), true) != is_private.end();
    }
};

/// Nothing is on the shelf, so all is to be bought; no shade keeps within the cost that it expects.
Priced priced(std::mt19937_64& random) {
    const auto between = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    Priced out;
    const auto price = [&](std::string name, const std::string& per) {
        const std::string amount = fmt::format("{}.{}", between(1000, 9999), between(11, 99));
        const bool hidden = between(0, 1) == 1;
        out.page += fmt::format(" {}price {} USD per {}\n", hidden ? "private " : "", amount, per);
        out.names.push_back(std::move(name));
        out.prices.push_back(amount);
        out.is_private.push_back(hidden);
    };
    const int materials = between(2, 4);
    for (int i = 0; i < materials; ++i) {
        out.page += fmt::format("material m{}\n", i);
        price(fmt::format("m{}", i), fmt::format("{} g", between(5, 60)));
    }
    out.page += "container pot\n holds 5 g\n";
    price("pot", fmt::format("{} pieces", between(2, 20)));
    out.page += "shade S\n";
    for (int i = 0; i < materials; ++i)
        out.page += fmt::format(" {} parts m{}\n", between(1, 9), i);
    out.page += fmt::format(" batch full {} pots\n batch trial 6 g\n", between(3, 30));
    out.page += " expect cost at most 0.01 USD\n expect cost per pot at most 0.01 USD\n";
    out.page += "plan P\n make full of S\n";
    return out;
}

bool holds(const std::string& page, const std::string& words) {
    return page.find(words) != page.npos;
}

std::string page_of(const Compiled& compiled, const Planned& plan) {
    BenchPage page(compiled.formulary);
    page.append(plan);
    return page.page("P");
}

std::string page_of(const Compiled& compiled) {
    BenchPage page(compiled.formulary);
    Choice choice;
    expand_each(compiled.formulary, compiled.names, choice,
                [&](Sheet& sheet) { page.append(sheet); });
    return page.page("S");
}

}  // namespace

TEST_CASE("no bench page shows a private price, and a plan's shows the others") {
    std::mt19937_64 random(price_seed);
    int hidden = 0, shown = 0, judged = 0;
    for (int round = 0; round < price_rounds; ++round) {
        const Priced due = priced(random);
        INFO("seed " << price_seed << ", round " << round << "\n" << due.page);
        const Compiled compiled = compile(memory_world({{"a.shade", due.page}}), "a.shade");
        REQUIRE_FALSE(any_error(compiled.findings));
        const Planned plan = make_plan(compiled.formulary, compiled.names,
                                       compiled.formulary.plans[0], std::nullopt);
        const std::string of_plan = page_of(compiled, plan), of_sheets = page_of(compiled);
        REQUIRE(plan.supplies.size() == due.names.size());
        for (const Supply& one : plan.supplies) {
            const std::string& name = name_of(compiled.formulary, one.need);
            const auto at = static_cast<std::size_t>(
                std::find(due.names.begin(), due.names.end(), name) - due.names.begin());
            const std::string cost = supply_cost(one);
            REQUIRE(holds(cost, " USD"));
            CHECK(holds(of_plan, "buy " + supply_to_buy(plan, one)));
            (due.is_private[at] ? hidden : shown) += 1;
            CHECK(holds(of_plan, cost) == !due.is_private[at]);
            if (!due.is_private[at]) continue;
            for (const std::string* page : {&of_plan, &of_sheets})
                CHECK_FALSE(holds(*page, due.prices[at]));
        }
        // What all of it costs is said where no part of it is private.
        for (const std::string* page : {&of_plan, &of_sheets})
            CHECK(holds(*page, "expect-failed") == !due.any_private());
        judged += due.any_private() ? 0 : 1;
    }
    CHECK(hidden > price_rounds);
    CHECK(shown > price_rounds);
    CHECK(judged > 10);
}
