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
    // With 6 pots there it is the base that runs out.
    CHECK(made(page + "6 pots\n").plan.batches[0].alone.by.container == nothing);
    CHECK(made(page + "0 pots\n").plan.batches[0].alone_count == 0);
}

TEST_CASE("of containers by volume the overage counts before what stays in the bowl") {
    // 10 tubes of 4 mL and half as much again are 60 mL, 20 mL are held back: 80 g at 1 g/mL. So
    // 6 g go into a tube, and of 56 g there the 36 g that aren't held back fill 6.
    const Made plan = made("material base\n density 1 g/mL\ncontainer tube\n holds 4 mL\n"
                           "shade S\n 1 part base\n"
                           " batch full 10 tubes, overage 50 %, holdback 20 mL\n"
                           "plan P\n make full of S\nshelf\n have 56 g base\n have 20 tubes\n");
    const PlanBatch& batch = plan.plan.batches.at(0);
    CHECK(in_grams(batch.sheet.total) == 80);
    CHECK(batch.each == 6);
    CHECK(batch.holdback == 20);
    CHECK(batch.alone_count == 6);
    CHECK(batch.alone_grams == 56);
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

TEST_CASE("a lot serves up to its last day, the first to expire first") {
    const auto there = [](const std::string& day, const std::string& best_before) {
        const Made plan = made("material base\nshade S\n 1 part base\n batch full 10 g\n"
                               "plan P\n on " + day + "\n make full of S\n"
                               "shelf\n have 4 g base, lot A\n have 4 g base, lot B, best before " +
                               best_before + "\n");
        std::string out = plan.plan.supplies.at(0).have.exactly() + " g:";
        for (const Taken& one : plan.plan.supplies[0].taken)
            out += " " + one.stock->lot.name + " " + one.amount.exactly();
        return out;
    };
    CHECK(there("2026-12-01", "2026-12-02") == "8 g: B 4 A 4");
    CHECK(there("2026-12-01", "2026-12-01") == "8 g: B 4 A 4");
    CHECK(there("2026-12-01", "2026-11-30") == "4 g: A 4");
    // Without a day the month's last one is meant.
    CHECK(there("2026-12-31", "2026-12") == "8 g: B 4 A 4");
    CHECK(there("2027-01-01", "2026-12") == "4 g: A 4");
}

TEST_CASE("what is weighed once is weighed on one balance") {
    // The same steps make no one balance of two.
    const std::string page = "material base\nbalance left\n reads 0.01 g\nbalance right\n"
                             " reads 0.01 g\nshade S\n 1 part base\n batch t 10 g\n"
                             " weigh on left\nshade T\n 1 part base\n batch t 10 g\n weigh on ";
    const std::string plan = "\nplan P\n make t of S\n make t of T\n";
    CHECK(made(page + "left" + plan).plan.findings.empty());
    const Made two = made(page + "right" + plan);
    REQUIRE(two.plan.findings.size() == 1);
    CHECK(two.plan.findings[0].code == Code::balance_choice);
    CHECK(two.plan.batches.empty());
}

TEST_CASE("a plan has at most 1000 batches") {
    const auto batches = [](int count) {
        std::string page = "material base\nshade S\n 1 part base\n batch t 10 g\nplan P\n";
        for (int i = 0; i < count; ++i) page += " make t of S\n";
        return made(page).plan.batches.size();
    };
    CHECK(batches(1000) == 1000);
    CHECK(batches(1001) == 0);
}

TEST_CASE("of a dilution nothing is made of less than can be weighed") {
    // 20 steps of 0.01 g are the least, and at 30 % they are in 0.67 g. 0.199 g of the lake make
    // none of it; 0.21 g make 0.7 g, for 2.1 g of the shade, of which a tenth is lake.
    const auto largest = [](const std::string& lake) {
        return made("material oil\nmaterial lake\nshade S\n rest oil\n 10 % lake\n"
                    " dilute lake to 30 % in oil\n batch t 10 g\nplan P\n make t of S\n"
                    "shelf\n have 100 g oil\n have " +
                    lake + " g lake\n")
            .plan.batches.at(0)
            .alone_grams;
    };
    CHECK(largest("0.199") == 0);
    CHECK(largest("0.21") == Exact(21, 10));
}

TEST_CASE("twice a batch is twice its containers, however much is held back once") {
    // 10 pots of 5 g and 5 g held back are 55 g. In 110 g there are 5 g for one more pot, since 5 g
    // are held back once; but twice the batch are 20 pots. In half of it, 27.5 g, there are 4.
    const Made plan = made("material base\ncontainer pot\n holds 5 g\nshade S\n 1 part base\n"
                           " batch full 10 pots, holdback 5 g\nplan P\n make full of S\n"
                           "shelf\n have 110 g base\n have 100 pots\n");
    const PlanBatch& batch = plan.plan.batches.at(0);
    CHECK(plan.plan.all.times == Exact(2));
    CHECK(containers_at(batch, 2) == 20);
    CHECK(containers_at(batch, 1) == 10);
    CHECK(containers_at(batch, Exact(1, 2)) == 4);
    CHECK(containers_at(batch, 0) == 0);
}

TEST_CASE("what is needed most stands first, with what is kept of a dilution") {
    // 0.5 % of 6 g are 0.03 g of lake, and 0.2 g are weighed into its dilution; of mica 0.06 g.
    const Made plan = made("material oil\nmaterial lake\nmaterial mica\nshade S\n rest oil\n"
                           " 0.5 % lake\n 1 % mica\n dilute lake to 10 % in oil\n batch t 6 g\n"
                           "plan P\n make t of S\n");
    std::string order;
    for (const Supply& one : plan.plan.supplies)
        order += plan.compiled.formulary.name(one.need.material) + " ";
    CHECK(order == "oil lake mica ");
}

TEST_CASE("what is wrong with a blend that batches share is said once") {
    // 0.1 % of 1 g, and of 2 g for both, reads 0.00 g.
    const Made plan = made("material base\nmaterial mica\nmaterial lake\nblend W\n rest mica\n"
                           " 0.1 % lake\nshade S\n rest base\n 10 % W\n batch t 10 g\n"
                           "plan P\n make t of S\n make t of S\n");
    std::size_t nothing_read = 0;
    for (const Finding& finding : plan.plan.findings)
        nothing_read += finding.code == Code::weigh_nothing;
    CHECK(nothing_read == 1);
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
