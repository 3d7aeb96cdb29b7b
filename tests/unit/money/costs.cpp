// Sums of money, prices, rates. Expected figures are reckoned by hand beside each.
#include "interpreter/money/costs.hpp"

#include <catch2/catch.hpp>

#include <random>

#include "interpreter/compile.hpp"

using namespace levigate;

namespace {

std::uint32_t usd() { return currency_tag("USD"); }
std::uint32_t eur() { return currency_tag("EUR"); }

const char* const page = "rate EUR = 1.25 USD, 2026-10-01\n"
                         "material base\n density 0.8 g/mL\n price 4 USD per 100 mL\n"
                         "material mica\n price 15 EUR per 30 g\n"
                         "material gift\n price 0 USD per 1 g\n"
                         "material gold\n"
                         "material dear oil\n price 1 USD per mL\n"
                         "container pot\n holds 5 g\n price 0.30 USD\n"
                         "container bag\n holds 5 g\n";

struct Bench {
    Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade");
    Needed grams_of(const char* name, const Exact& amount) {
        for (IngredientId id = 0; id < compiled.formulary.ingredients.size(); ++id)
            if (compiled.formulary.ingredients[id].name == name) return {id, nothing, amount};
        return {};
    }
    Needed pieces_of(const char* name, const Exact& amount) {
        for (ContainerId id = 0; id < compiled.formulary.containers.size(); ++id)
            if (compiled.formulary.containers[id].name == name) return {no_ingredient, id, amount};
        return {};
    }
    Costing of(std::vector<Needed> needed, std::uint32_t into = 0) {
        return costing(compiled.formulary, needed, into);
    }
};

}  // namespace

TEST_CASE("money is written to its minor unit, half up", "[money]") {
    CHECK(money_words(Coin{usd(), Exact(1, 200)}) == "0.01 USD");
    CHECK(money_words(Coin{usd(), Exact(1, 201)}) == "0.00 USD");
    // ISO 4217: no minor unit of the yen, thousandths of the Kuwaiti dinar.
    CHECK(money_words(Coin{currency_tag("JPY"), Exact(5, 2)}) == "3 JPY");
    CHECK(money_words(Coin{currency_tag("KWD"), Exact(1, 3)}) == "0.333 KWD");
    CHECK(fine_money_words(Coin{usd(), Exact(1, 3)}) == "0.3333 USD");
}

TEST_CASE("two currencies stand side by side", "[money]") {
    Purse purse;
    purse.add({usd(), 1});
    purse.add({eur(), 2});
    purse.add({usd(), Exact(1, 2)});
    CHECK(money_words(purse) == "2.00 EUR and 1.50 USD");
    CHECK(purse.of(usd()) == Exact(3, 2));
    CHECK(purse.of(currency_tag("GBP")).is_zero());
    CHECK(purse.times(2).of(eur()) == 4);
}

TEST_CASE("materials by weight or volume, containers by the piece", "[money]") {
    Bench bench;
    REQUIRE(bench.compiled.findings.empty());
    // 20 g of base are 25 mL at 4 cents: 1 USD. 6 g of mica at half a euro: 3 EUR. 7 pots: 2.10
    // USD.
    const Costing costs = bench.of({bench.grams_of("base", 20), bench.grams_of("mica", 6),
                                    bench.grams_of("gift", 9), bench.pieces_of("pot", 7)});
    CHECK(costs.complete());
    CHECK(costs.sum.of(usd()) == Exact(31, 10));
    CHECK(costs.sum.of(eur()) == 3);
    REQUIRE(costs.lines.size() == 4);
    CHECK(costs.lines[0].cost.currency == eur());
    CHECK(costs.lines[1].cost.amount == Exact(21, 10));
    CHECK(costs.lines[1].part == Exact(21, 31));
    CHECK(costs.lines[3].cost.amount.is_zero());
}

TEST_CASE("what lacks is named and leaves the rest as it is", "[money]") {
    Bench bench;
    const Costing costs = bench.of({bench.grams_of("gold", 1), bench.grams_of("base", 20),
                                    bench.grams_of("dear oil", 1), bench.pieces_of("bag", 1)});
    CHECK_FALSE(costs.complete());
    CHECK(costs.sum.of(usd()) == 1);
    CHECK(lacking_words(bench.compiled.formulary, costs.lacking) ==
          "gold and bag have no price, and dear oil has no density, by which its price would be "
          "one by weight");
}

TEST_CASE("a rate serves both ways, and only between its two", "[money]") {
    Bench bench;
    const auto needed = {bench.grams_of("base", 20), bench.grams_of("mica", 6)};
    // 3 EUR at 1.25 are 3.75 USD; 1 USD at 1/1.25 is 0.80 EUR.
    CHECK(bench.of(needed, usd()).sum.of(usd()) == Exact(19, 4));
    CHECK(bench.of(needed, eur()).sum.of(eur()) == Exact(19, 5));
    const Costing pounds = bench.of(needed, currency_tag("GBP"));
    CHECK(pounds.lacking.size() == 2);
    CHECK(pounds.sum.of(currency_tag("GBP")).is_zero());
    CHECK(pounds.sum.of(eur()) == 3);
}

TEST_CASE("a rate that is missing is named once, whatever needs it", "[money]") {
    Bench bench;
    const Costing pounds = bench.of({bench.grams_of("mica", 6), bench.grams_of("mica", 3),
                                     bench.grams_of("base", 20), bench.pieces_of("pot", 7)},
                                    currency_tag("GBP"));
    CHECK(pounds.lacking.size() == 4);
    CHECK(lacking_words(bench.compiled.formulary, pounds.lacking) ==
          "no rate leads from EUR and USD");
}

TEST_CASE("a sum of which nothing is known is not at least nothing", "[money]") {
    Purse purse;
    CHECK(sum_words(purse, true) == "nothing");
    CHECK(sum_words(purse, false) == "not known");
    purse.add({usd(), 1});
    CHECK(sum_words(purse, true) == "1.00 USD");
    CHECK(sum_words(purse, false) == "at least 1.00 USD");
}

TEST_CASE("the lines are all of the sum, and k times as much costs k times as much", "[money]") {
    Bench bench;
    std::mt19937 random(20261125);
    for (int round = 0; round < 1000; ++round) {
        std::vector<Needed> needed;
        for (const char* name : {"base", "mica", "gift"})
            needed.push_back(bench.grams_of(name, Exact(random() % 1000, 1 + random() % 99)));
        needed.push_back(bench.pieces_of("pot", random() % 100));
        const Costing costs = bench.of(needed), in_usd = bench.of(needed, usd());
        Purse lines;
        for (const CostLine& line : costs.lines) lines.add(line.cost);
        REQUIRE(lines.of(usd()) == costs.sum.of(usd()));
        REQUIRE(lines.of(eur()) == costs.sum.of(eur()));
        REQUIRE(in_usd.sum.of(usd()) == costs.sum.of(usd()) + costs.sum.of(eur()) * Exact(5, 4));
        const Exact factor(1 + random() % 50, 1 + random() % 50);
        for (Needed& one : needed) one.amount *= factor;
        REQUIRE(bench.of(needed).sum.of(usd()) == factor * costs.sum.of(usd()));
    }
}
