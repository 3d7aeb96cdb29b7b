// Plans: what all batches need together, and what the shelf gives.
#include "interpreter/plan/plan.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <sstream>

#include "interpreter/compile.hpp"
#include "tests/plan/random_plan.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

constexpr int rounds = 1000;
constexpr std::uint64_t seed = 20261125;

struct Made {
    Compiled compiled;
    Planned plan;
};

Made made(const std::string& page) {
    Made out{compile(memory_world({{"a.shade", page}}), "a.shade"), {}};
    INFO(page);
    REQUIRE_FALSE(any_error(out.compiled.findings));
    REQUIRE(out.compiled.formulary.plans.size() == 1);
    out.plan =
        make_plan(out.compiled.formulary, out.compiled.names, out.compiled.formulary.plans[0], {});
    return out;
}

std::map<std::string, Exact> all_needs(const RandomPlan& plan) {
    std::map<std::string, Exact> out;
    for (const auto& batch : plan.needs)
        for (const auto& [material, need] : batch) out[material] += need;
    return out;
}

/// What of a material may be used on 15 June 2027.
Exact there(const RandomPlan& plan, const std::string& material) {
    Exact out;
    for (const LotSeen& lot : plan.lots)
        if (lot.material == material && (lot.month == 0 || lot.month >= 6)) out += lot.grams;
    return out;
}

Exact taken_in_all(const Supply& one) {
    Exact out;
    for (const Taken& taken : one.taken) out += taken.amount;
    return out;
}

/// Whole packs are enough, and one less would not be.
void check_packs(const RandomPlan& due, const Supply& one, const std::string& name) {
    const auto pack = due.packs.find(name);
    REQUIRE(one.packs.has_value() == (pack != due.packs.end()));
    if (!one.packs) return;
    CHECK(one.packs->is_integer());
    CHECK(*one.packs * pack->second >= one.lacking);
    if (one.packs->sign() > 0) CHECK((*one.packs - 1) * pack->second < one.lacking);
    CHECK(one.bought == *one.packs * pack->second);
}

/// No lot gives more than it holds, none is past its date, and an earlier one is empty before a
/// later one is opened.
void check_lots(const RandomPlan& due, const Supply& one, const std::string& name) {
    std::map<std::string, Exact> used;
    for (const Taken& taken : one.taken) used[taken.stock->lot.name] += taken.amount;
    for (const LotSeen& lot : due.lots) {
        if (lot.material != name) continue;
        const Exact of_lot = used.count(lot.lot) != 0 ? used[lot.lot] : Exact();
        CHECK(of_lot <= lot.grams);
        if (lot.month != 0 && lot.month < 6) CHECK(of_lot.is_zero());
        for (const LotSeen& later : due.lots) {
            const bool usable = lot.month == 0 || lot.month >= 6;
            const bool after = lot.month != 0 && (later.month == 0 || later.month > lot.month);
            if (later.material == name && usable && after && used.count(later.lot) != 0)
                CHECK(of_lot == lot.grams);
        }
    }
    const Exact due_amount = one.need.amount < one.have ? one.need.amount : one.have;
    CHECK(taken_in_all(one) == due_amount);
}

void check_supplies(const Made& made, const RandomPlan& due) {
    const auto needs = all_needs(due);
    std::size_t materials = 0;
    for (const Supply& one : made.plan.supplies) {
        if (one.need.material == no_ingredient) {
            CHECK(one.need.amount == due.pots_needed);
            CHECK(one.have == due.pots_there);
            continue;
        }
        const std::string& name = made.compiled.formulary.name(one.need.material);
        ++materials;
        REQUIRE(needs.count(name) == 1);
        CHECK(one.need.amount == needs.at(name));
        CHECK(one.have == there(due, name));
        CHECK(one.lacking == (one.need.amount > one.have ? one.need.amount - one.have : Exact()));
        check_packs(due, one, name);
        check_lots(due, one, name);
    }
    CHECK(materials == needs.size());
}

Exact portions_of(const PlanBowl& bowl) {
    Exact out;
    for (const Portion& portion : bowl.portions) out += portion.steps;
    return out;
}

/// Portions are what the bowls that they go into weigh of the blend; a batch's own bowl is that of
/// its own sheet.
void check_bowls(const Made& made) {
    const Planned& plan = made.plan;
    for (std::size_t k = 0; k < plan.bowls.size(); ++k) {
        const PlanBowl& bowl = plan.bowls[k];
        if (bowl.batch != nothing) {
            const Bowl& alone = plan.batches[bowl.batch].sheet.bowls.back();
            REQUIRE(bowl.bowl.lines.size() == alone.lines.size());
            for (std::size_t n = 0; n < alone.lines.size(); ++n) {
                CHECK(bowl.bowl.lines[n].steps == alone.lines[n].steps);
                CHECK(bowl.bowl.lines[n].exact == alone.lines[n].exact);
            }
            continue;
        }
        CHECK(portions_of(bowl) == bowl.bowl.asked);
        CHECK(bowl.bowl.steps >= bowl.bowl.asked);
        Exact weighed;
        for (const PlanBowl& user : plan.bowls)
            for (const SheetLine& line : user.bowl.lines)
                if (line.what == bowl.bowl.mix) weighed += line.steps;
        CHECK(weighed == bowl.bowl.asked);
        for (const Portion& portion : bowl.portions) CHECK(portion.into > k);
        for (std::size_t other = k + 1; other < plan.bowls.size(); ++other)
            CHECK(plan.bowls[other].bowl.mix != bowl.bowl.mix);
    }
}

/// What each gram of each bowl is needed for adds up, bowl by bowl.
void check_masses(const Made& made) {
    for (const Supply& one : made.plan.supplies) {
        if (one.need.material == no_ingredient) continue;
        Exact in_bowls;
        for (const PlanBowl& bowl : made.plan.bowls)
            for (const SheetLine& line : bowl.bowl.lines)
                if (line.what == one.need.material) in_bowls += in_grams(line.exact);
        CHECK(in_bowls == one.need.amount);
    }
}

}  // namespace

TEST_CASE("a plan needs what its batches need, and the shelf gives what it holds") {
    std::mt19937_64 random(seed);
    for (int round = 0; round < rounds; ++round) {
        const RandomPlan due = random_plan(random);
        INFO("seed " << seed << ", round " << round << "\n" << due.page);
        const Made plan = made(due.page);
        REQUIRE(plan.plan.batches.size() == due.needs.size());
        check_supplies(plan, due);
        check_bowls(plan);
        check_masses(plan);
    }
}

TEST_CASE("the largest batches are those that a general linear solver finds") {
    // One variable a case, for the plan as a whole and for each batch by itself: as large as it can
    // be, so that no material is used up beyond what is there. GLPK reads CPLEX's LP format.
    std::mt19937_64 random(seed + 1);
    std::string rows;
    std::vector<double> ours;
    std::vector<std::string> pages;
    const auto add = [&](const std::map<std::string, Exact>& needs, const RandomPlan& due,
                         const Largest& found, bool pots) {
        for (const auto& [material, need] : needs)
            rows += fmt::format(" {} x{} <= {}\n", need.decimal(12), ours.size(),
                                there(due, material).decimal(12));
        if (pots)
            rows += fmt::format(" {} x{} <= {}\n", due.pots_needed, ours.size(), due.pots_there);
        REQUIRE(found.times.has_value());
        ours.push_back(std::stod(found.times->decimal(15)));
        pages.push_back(due.page);
    };
    for (int round = 0; round < rounds; ++round) {
        const RandomPlan due = random_plan(random);
        const Made plan = made(due.page);
        add(all_needs(due), due, plan.plan.all, due.pots_needed > 0);
        for (std::size_t i = 0; i < due.needs.size(); ++i)
            if (!plan.plan.batches[i].filled)
                add(due.needs[i], due, plan.plan.batches[i].alone, false);
    }
    std::string goal = "Maximize\n all: x0\n";
    for (std::size_t i = 1; i < ours.size(); ++i) goal += fmt::format(" + x{}\n", i);
    const ScratchFolder folder;
    write_file(folder.path() / "plans.lp", goal + "Subject To\n" + rows + "End\n");
    Command command;
    command.words = {"/usr/bin/glpsol", "--lp", "plans.lp", "-w", "found"};
    command.folder = folder.path();
    const levigate::testing::Outcome outcome = run(command);
    INFO(outcome.out);
    REQUIRE(outcome.status == 0);
    std::istringstream found(read_file(folder.path() / "found").value_or(""));
    std::size_t columns = 0;
    for (std::string line; std::getline(found, line);) {
        // "j NUMBER STATUS VALUE DUAL" for a column, in the order in which the file names them.
        std::istringstream words(line);
        std::string kind, status;
        std::size_t number = 0;
        double value = 0;
        if (!(words >> kind) || kind != "j" || !(words >> number >> status >> value)) continue;
        REQUIRE(number == ++columns);
        INFO(pages[number - 1]);
        CHECK(ours[number - 1] == Approx(value).epsilon(1e-6).margin(1e-7));
    }
    CHECK(columns == ours.size());
    CHECK(ours.size() > rounds);
}

TEST_CASE("containers are whole, and what stays in the bowl fills none") {
    // 10 pots of 5 g, a tenth more, and 3 g held back: 58 g. 40 g of base less 3 g fill 37/5.5
    // pots, which are 6; they take 36 g. With 5 pots there, 5 is all.
    const std::string page =
        "material base\ncontainer pot\n holds 5 g\n"
        "shade S\n 1 part base\n batch full 10 pots, overage 10 %, holdback 3 g\n"
        "plan P\n make full of S\nshelf\n have 40 g base\n have ";
    const Made enough = made(page + "9 pots\n"), few = made(page + "5 pots\n");
    CHECK(enough.plan.batches[0].alone_count == 6);
    CHECK(enough.plan.batches[0].alone_grams == 36);
    CHECK(few.plan.batches[0].alone_count == 5);
    CHECK(few.plan.batches[0].alone.by.container != nothing);
    CHECK(made(page + "0 pots\n").plan.batches[0].alone_count == 0);
}

TEST_CASE("a pack by volume is as many grams as its density says") {
    // 100 mL at 0.8 g/mL are 80 g: of 100 g with nothing there two packs are short of none, 160 g.
    const Made plan = made("material base\n density 0.8 g/mL\n price 4 USD per 100 mL\n"
                           "shade S\n 1 part base\n batch full 100 g\nplan P\n make full of S\n");
    REQUIRE(plan.plan.supplies.size() == 1);
    CHECK(plan.plan.supplies[0].packs == Exact(2));
    CHECK(plan.plan.supplies[0].bought == 160);
    CHECK(plan.plan.to_buy.coins().at(0).amount == 8);
}

TEST_CASE("what is there by volume counts by bulk, else by density") {
    const Made plan = made("material powder\n density 3 g/mL\n bulk 0.5 g/mL\n"
                           "material oil\n density 0.8 g/mL\n"
                           "shade S\n 1 part powder\n 1 part oil\n batch full 10 g\n"
                           "plan P\n make full of S\n"
                           "shelf\n have 10 mL powder\n have 10 mL oil\n");
    CHECK(plan.plan.supplies[0].have == 5);
    CHECK(plan.plan.supplies[1].have == 8);
}
