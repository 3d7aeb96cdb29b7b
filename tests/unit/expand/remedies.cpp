// What is proposed for lines that are too small, carried out on random formulas: then they can be
// weighed, and the formula is what it was.

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "interpreter/expand/expand.hpp"
#include "interpreter/expand/remedies.hpp"
#include "interpreter/expand/stock.hpp"
#include "tests/unit/formulary/by_hand.hpp"

using namespace levigate;
using namespace levigate::by_hand;

namespace {

constexpr unsigned seed_of_formulas = 20261129;

/// One shade of a base, some small lines and now and then a blend with one more, on one balance.
struct RandomPage : Hand {
    std::vector<Line> lines;  ///< of the shade; the base first
    IngredientId base = no_ingredient;
    ShadeId quince = nothing;
    ContainerId tube = nothing;

    explicit RandomPage(std::mt19937& random) {
        const auto some = [&](int least, int most) {
            return Exact(least +
                         static_cast<int>(random() % static_cast<unsigned>(most - least + 1)));
        };
        base = material("soft base", random() % 4 ? "base" : "");
        lines.push_back({base, {}});
        Exact left = 100;
        const auto add = [&](IngredientId what, const Exact& percents) {
            lines.push_back({what, pct(percents)});
            left -= percents;
        };
        for (int n = 0; n < 1 + static_cast<int>(random() % 3); ++n)
            add(material("lake " + std::to_string(n)), some(1, 90) / 60);
        if (random() % 2)
            add(blend("mica", {{material("copper mica"), parts(some(5, 9))},
                               {material("oxide"), parts(some(1, 9) / 9)}}),
                some(1, 30));
        lines.front().amount = pct(left);
        quince = shade("Quince", lines);
        balances(random, some);
        const Exact size = some(2, 40);
        if (random() % 3) {
            batch(quince, "trial", grams(size));
            return;
        }
        Container& made = all.containers.emplace_back();
        made.name = "slim tube";
        made.holds = grams(some(1, 9) / 2);
        Batch& counted = batch(quince, "trial", ContainerCount{0, size});
        counted.size.overage = percent(some(0, 10));
        if (random() % 2) counted.size.holdback = grams(some(1, 3));
    }

    template <class Some>
    void balances(std::mt19937& random, const Some& some) {
        const bool fine = random() % 2;
        all.only_balance = balance("bench", Exact(1, fine ? 1000 : 100), fine ? 3 : 2);
        Balance& bench = all.balances.back();
        if (random() % 3) bench.error = percent(some(1, 10));
        if (random() % 3 == 0) bench.least = grams(some(3, 90) / 300);
        if (random() % 3 == 0) bench.up_to = grams(some(5, 300));
    }

    Sheet sheet(const Choice& choice = {}) const { return expand(all, names, choice).sheets.at(0); }
};

const SheetLine& line_of(const Sheet& sheet, const Remedy& remedy) {
    return sheet.bowls.at(remedy.bowl).lines.at(remedy.line);
}

/// The batch as it is proposed, and the next smaller one.
void carry_out_batch(const RandomPage& page, const Remedy& remedy, const Mass& step) {
    const auto made = [&](const Exact& fewer) {
        Choice choice;
        choice.make = page.all.shades[page.quince].batches[0].size;
        if (remedy.containers)
            choice.make->amount =
                ContainerCount{remedy.containers->container, remedy.containers->count - fewer};
        else
            choice.make->amount = grams(in_grams(*remedy.batch) - fewer * in_grams(step));
        const Sheets out = expand(page.all, page.names, choice);
        return out.sheets.empty() ? Sheet() : out.sheets[0];
    };
    const Sheet now = made(0);
    REQUIRE(in_grams(now.total) == in_grams(*remedy.batch));
    REQUIRE(line_of(now, remedy).steps * in_grams(step) >= in_grams(remedy.least));
    const bool own = now.bowls[remedy.bowl].mix == no_ingredient;
    const Sheet before = made(1);
    if (own && !before.bowls.empty())
        REQUIRE(in_grams(line_of(before, remedy).exact) < in_grams(remedy.least));
}

void carry_out_aliquot(const Sheet& sheet, const Remedy& remedy) {
    const AliquotRemedy& made = *remedy.aliquot;
    const Exact& step = in_grams(sheet.reading.step);
    const Exact least = in_grams(remedy.least) / step;
    REQUIRE(made.weigh >= least);
    REQUIRE(made.with >= least);
    REQUIRE(made.take >= least);
    REQUIRE(made.reads >= least);
    if (sheet.reading.up_to)
        REQUIRE((made.weigh + made.with) * step <= in_grams(*sheet.reading.up_to));
    // What the aliquot holds of both, with what is left to weigh of the diluent, is the formula.
    const SheetLine& small = line_of(sheet, remedy);
    const SheetLine& diluent = sheet.bowls[remedy.bowl].lines[remedy.diluent];
    const Exact whole = made.weigh + made.with;
    const Exact held = made.take * made.weigh / whole * step;
    REQUIRE((held - in_grams(small.exact)).abs() <=
            in_grams(small.exact) / (2 * whole));  // the diluent's rounding
    if (made.others || sheet.bowls[remedy.bowl].mix != no_ingredient) return;
    const Exact brought = made.take * made.with / whole * step;
    REQUIRE((brought + made.reads * step - in_grams(diluent.exact)).abs() <= step);
    REQUIRE(made.reads == diluent.steps - made.less);
}

/// The dilution as a blend of its own, in place of the line.
void carry_out_stock(RandomPage page, const Sheet& sheet, const StockDilution& stock) {
    if (stock.serves.empty() || stock.serves.front().mix != no_ingredient) return;
    const Exact least = in_grams(scale_of(sheet.reading).least) / in_grams(sheet.reading.step);
    REQUIRE(stock.weigh >= least);
    REQUIRE(stock.with >= least);
    const IngredientId made =
        page.blend("dilution", {{stock.of, parts(1)}, {stock.in, parts(stock.parts - 1)}});
    std::vector<Line> lines;
    Exact small;
    for (const Line& line : page.lines)
        if (line.what == stock.of) small = in_percent(std::get<Share>(line.amount));
    for (Line line : page.lines) {
        const Exact size = in_percent(std::get<Share>(line.amount));
        if (line.what == stock.of) line = {made, pct(small * stock.parts)};
        if (line.what == stock.in) line.amount = pct(size - small * (stock.parts - 1));
        if (!as_fraction(std::get<Share>(line.amount)).is_zero()) lines.push_back(line);
    }
    const std::vector<Batch> batches = page.all.shades[page.quince].batches;
    const ShadeId diluted = page.shade("Diluted", lines);
    page.all.shades[diluted].batches = batches;
    Choice choice;
    choice.shade = "Diluted";
    const Sheet then = page.sheet(choice);
    for (const SheetLine& line : then.bowls.back().lines) {
        if (line.what != made && line.what != stock.in) continue;
        REQUIRE(line.steps >= least);
        if (line.what == made) REQUIRE(line.steps <= stock.weigh + stock.with);
    }
    REQUIRE(then.materials.size() == sheet.materials.size());
    for (const MaterialLine& was : sheet.materials)
        REQUIRE(std::any_of(then.materials.begin(), then.materials.end(), [&](const auto& is) {
            return is.what == was.what && in_grams(is.exact) == in_grams(was.exact);
        }));
}

/// Percents by name.
using Percents = std::vector<std::pair<IngredientId, Exact>>;

/// Writes all proposals for one formula into it together. What is diluted, and what it is diluted
/// with, must be lines of it still, and enough must be there.
Percents with_all(RandomPage& page, Percents lines, const Stocks& stocks, IngredientId mix) {
    const auto line = [&](IngredientId what) {
        const auto found = std::find_if(lines.begin(), lines.end(),
                                        [&](const auto& one) { return one.first == what; });
        REQUIRE(found != lines.end());
        return found;
    };
    for (const StockDilution& stock : stocks.dilutions) {
        if (stock.serves.front().mix != mix) continue;
        const auto small = line(stock.of), base = line(stock.in);
        small->first =
            page.blend("dilution", {{stock.of, parts(1)}, {stock.in, parts(stock.parts - 1)}});
        base->second -= small->second * (stock.parts - 1);
        small->second *= stock.parts;
        REQUIRE(base->second.sign() >= 0);
    }
    std::erase_if(lines, [](const auto& one) { return one.second.is_zero(); });
    return lines;
}

/// All dilutions at once, those of the blend and those of the shade.
void carry_out_all(RandomPage page, const Sheet& sheet, const Stocks& stocks) {
    const auto written = [](const Percents& from) {
        std::vector<Line> out;
        for (const auto& [what, size] : from) out.push_back({what, pct(size)});
        return out;
    };
    Percents own;
    for (const Line& line : page.lines)
        own.emplace_back(line.what, in_percent(std::get<Share>(line.amount)));
    for (auto& [what, size] : own) {
        if (page.all.ingredients[what].kind != Ingredient::Kind::blend) continue;
        const Formula formula = page.all.mixes[page.all.ingredients[what].index].formula;
        Percents inside;
        for (std::size_t i = 0; i < formula.parts.size(); ++i)
            inside.emplace_back(formula.parts[i].what, in_percent(formula.shares[i]));
        // Its own name goes on to mean it, for the dilutions that it stands in.
        const auto changed = page.blend("changed", written(with_all(page, inside, stocks, what)));
        page.all.mixes[page.all.ingredients[what].index].formula =
            page.all.mixes[page.all.ingredients[changed].index].formula;
    }
    const ShadeId all = page.shade("All", written(with_all(page, own, stocks, no_ingredient)));
    page.all.shades[all].batches = page.all.shades[page.quince].batches;
    Choice choice;
    choice.shade = "All";
    const Sheet then = page.sheet(choice);
    const Exact least = in_grams(scale_of(sheet.reading).least) / in_grams(sheet.reading.step);
    for (const StockDilution& stock : stocks.dilutions)
        for (const Bowl& bowl : then.bowls) {
            if (bowl.mix != stock.serves.front().mix) continue;
            for (const SheetLine& line : bowl.lines) {
                CHECK(line.what != stock.of);
                if (page.all.name(line.what) == "dilution" || line.what == stock.in)
                    REQUIRE(line.steps >= least);
            }
        }
    REQUIRE(then.materials.size() == sheet.materials.size());
    for (const MaterialLine& was : sheet.materials)
        REQUIRE(std::any_of(then.materials.begin(), then.materials.end(), [&](const auto& is) {
            return is.what == was.what && in_grams(is.exact) == in_grams(was.exact);
        }));
}

}  // namespace

TEST_CASE("what is proposed for small lines does", "[remedies]") {
    INFO("seed " << seed_of_formulas);
    std::mt19937 random(seed_of_formulas);
    int batches = 0, counted = 0, aliquots = 0, dilutions = 0, several = 0;
    for (int round = 0; round < 1500; ++round) {
        INFO("round " << round);
        const RandomPage page(random);
        Choice with_materials;
        const Sheet sheet = page.sheet(with_materials);
        StockDilutions stocks;
        stocks.add(page.all, sheet);
        for (const Remedy& remedy : sheet.remedies) {
            const SheetLine& line = line_of(sheet, remedy);
            REQUIRE(line.steps * in_grams(sheet.reading.step) < in_grams(remedy.least));
            if (remedy.batch) carry_out_batch(page, remedy, sheet.reading.step);
            batches += remedy.batch.has_value();
            counted += remedy.containers.has_value();
            if (remedy.aliquot) carry_out_aliquot(sheet, remedy);
            aliquots += remedy.aliquot.has_value();
        }
        const Stocks settled = stocks.settle();
        for (const StockDilution& stock : settled.dilutions) {
            carry_out_stock(page, sheet, stock);
            ++dilutions;
        }
        if (!settled.dilutions.empty()) carry_out_all(page, sheet, settled);
        several += settled.dilutions.size() > 1;
        // Each small line is served, or is said not to be, or went into dilutions whole.
        std::size_t said = settled.left.size();
        for (const StockDilution& stock : settled.dilutions) said += stock.serves.size();
        REQUIRE(said <= sheet.remedies.size());
        if (std::none_of(settled.dilutions.begin(), settled.dilutions.end(),
                         [](const StockDilution& one) { return one.parts == 2; }))
            REQUIRE(said == sheet.remedies.size());
    }
    CHECK(several > 100);
    CHECK(batches > 500);
    CHECK(counted > 100);
    CHECK(aliquots > 200);
    CHECK(dilutions > 200);
}

TEST_CASE("a line that reads nothing, where the balance says nothing of its least", "[remedies]") {
    Hand hand;
    const IngredientId base = hand.material("soft base", "base"), lake = hand.material("lake");
    const ShadeId quince =
        hand.shade("Quince", {{base, pct(Exact(1999, 20))}, {lake, pct(Exact(1, 20))}});
    hand.batch(quince, "trial", grams(6));
    // 0.003 g reads 0.00; by 5 % of 0.01 g it is weighed from 0.20 g on: 6 g × 0.2 ÷ 0.003
    const Sheet sheet = expand(hand.all, hand.names, {}).sheets.at(0);
    REQUIRE(sheet.remedies.size() == 1);
    const Remedy& remedy = sheet.remedies[0];
    CHECK(remedy.usual);
    CHECK(in_grams(remedy.least) == Exact(1, 5));
    REQUIRE(remedy.batch);
    CHECK(in_grams(*remedy.batch) == 400);
    // 67 × 0.003 = 0.201 reads 0.20; 0.20 × 0.20 ÷ 0.003 − 0.20 = 13.13 of the base
    REQUIRE(remedy.aliquot);
    CHECK(remedy.aliquot->factor == 67);
    CHECK(remedy.aliquot->weigh == 20);
    CHECK(remedy.aliquot->with == 1313);
    CHECK(remedy.aliquot->take == 20);
    CHECK(remedy.aliquot->reads == 580);  // 5.997 − (0.20 − 0.003)
    // 1 in 100 takes 0.30 g; 1 in 50 would take 0.15
    StockDilutions stocks;
    stocks.add(hand.all, sheet);
    const Stocks settled = stocks.settle();
    REQUIRE(settled.dilutions.size() == 1);
    CHECK(settled.left.empty());
    CHECK(dilute_line(hand.all, settled.dilutions[0]) == "dilute lake to 1 % in soft base");
    // where nothing is too small, nothing is kept
    hand.all.shades[quince].batches[0].size.amount = grams(400);
    const Sheet large = expand(hand.all, hand.names, {}).sheets.at(0);
    CHECK(large.remedies.empty());
}

TEST_CASE("two small lines take of one base", "[remedies]") {
    Hand hand;
    const IngredientId base = hand.material("soft base", "base");
    const IngredientId a = hand.material("a"), b = hand.material("b");
    const ShadeId quince = hand.shade("Quince", {{base, pct(98)}, {a, pct(1)}, {b, pct(1)}});
    hand.batch(quince, "trial", grams(1));
    hand.all.only_balance = hand.balance("bench", Exact(1, 100), 2);
    hand.all.balances[0].least = grams(Exact(1, 5));
    const auto remedies = [&] { return expand(hand.all, hand.names, {}).sheets.at(0).remedies; };
    // 0.01 g each, 0.20 g of a dilution: 0.19 g less of 0.98 g, once and once more
    REQUIRE(remedies().size() == 2);
    REQUIRE(remedies()[0].aliquot);
    REQUIRE(remedies()[1].aliquot);
    CHECK(remedies()[0].aliquot->reads == 79);
    CHECK_FALSE(remedies()[0].aliquot->others);
    CHECK(remedies()[1].aliquot->reads == 60);
    CHECK(remedies()[1].aliquot->less == 19);
    CHECK(remedies()[1].aliquot->others);
    // of 0.49 g the second can't be taken any more: 0.11 g would be left
    hand.all.shades[quince].batches[0].size.amount = grams(Exact(1, 2));
    REQUIRE(remedies().size() == 2);
    CHECK(remedies()[0].aliquot);
    CHECK_FALSE(remedies()[1].aliquot);
    CHECK(remedies()[1].why_not == NoAliquot::too_little);
}
