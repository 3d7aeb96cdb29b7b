// Plans at their edges: containers, lots, balances, dilutions. By hand.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/plan/plan.hpp"

using namespace levigate;

namespace {

struct MadePlan {
    Compiled compiled;
    Planned plan;
};

MadePlan made_of(const std::string& page) {
    MadePlan out{compile(memory_world({{"a.shade", page}}), "a.shade"), {}};
    INFO(page);
    REQUIRE_FALSE(any_error(out.compiled.findings));
    const Formulary& formulary = out.compiled.formulary;
    REQUIRE(formulary.plans.size() == 1);
    out.plan = make_plan(formulary, out.compiled.names, formulary.plans[0], {});
    return out;
}

}  // namespace

TEST_CASE("containers are short only where they run out first") {
    // 40 g of base less the 3 g that are held back fill 37/5.5 pots, which are 6.
    const auto runs_out = [](const std::string& pots) {
        const MadePlan plan =
            made_of("material base\ncontainer pot\n holds 5 g\nshade S\n 1 part base\n"
                    " batch full 10 pots, overage 10 %, holdback 3 g\nplan P\n make full of S\n"
                    "shelf\n have 40 g base\n have " +
                    pots + " pots\n");
        return plan.plan.batches.at(0).alone.by.container == nothing ? "base" : "pots";
    };
    CHECK(runs_out("5") == std::string("pots"));
    CHECK(runs_out("6") == std::string("base"));
    CHECK(runs_out("9") == std::string("base"));
}

TEST_CASE("of containers by volume the overage counts before what stays in the bowl") {
    // 10 tubes of 4 mL and half as much again are 60 mL, 20 mL are held back: 80 g at 1 g/mL. So
    // 6 g go into a tube, and of 56 g there the 36 g that aren't held back fill 6.
    const MadePlan plan =
        made_of("material base\n density 1 g/mL\ncontainer tube\n holds 4 mL\n"
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

TEST_CASE("a lot serves up to its last day, the first to expire first") {
    const auto there = [](const std::string& day, const std::string& best_before) {
        const MadePlan plan =
            made_of("material base\nshade S\n 1 part base\n batch full 10 g\n"
                    "plan P\n on " +
                    day +
                    "\n make full of S\n"
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
    CHECK(made_of(page + "left" + plan).plan.findings.empty());
    const MadePlan two = made_of(page + "right" + plan);
    REQUIRE(two.plan.findings.size() == 1);
    CHECK(two.plan.findings[0].code == Code::balance_choice);
    CHECK(two.plan.batches.empty());
}

TEST_CASE("a plan has at most 1000 batches") {
    const auto batches = [](int count) {
        std::string page = "material base\nshade S\n 1 part base\n batch t 10 g\nplan P\n";
        for (int i = 0; i < count; ++i) page += " make t of S\n";
        return made_of(page).plan.batches.size();
    };
    CHECK(batches(1000) == 1000);
    CHECK(batches(1001) == 0);
}

TEST_CASE("of a dilution nothing is made of less than can be weighed") {
    // 20 steps of 0.01 g are the least, and at 30 % they are in 0.67 g. 0.199 g of the lake make
    // none of it; 0.21 g make 0.7 g, for 2.1 g of the shade, of which a tenth is lake.
    const auto largest = [](const std::string& lake) {
        return made_of("material oil\nmaterial lake\nshade S\n rest oil\n 10 % lake\n"
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
    const MadePlan plan =
        made_of("material base\ncontainer pot\n holds 5 g\nshade S\n 1 part base\n"
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
    const MadePlan plan =
        made_of("material oil\nmaterial lake\nmaterial mica\nshade S\n rest oil\n"
                " 0.5 % lake\n 1 % mica\n dilute lake to 10 % in oil\n batch t 6 g\n"
                "plan P\n make t of S\n");
    std::string order;
    for (const Supply& one : plan.plan.supplies)
        order += plan.compiled.formulary.name(one.need.material) + " ";
    CHECK(order == "oil lake mica ");
}

TEST_CASE("what is wrong with a blend that batches share is said once") {
    // 0.1 % of 1 g, and of 2 g for both, reads 0.00 g.
    const MadePlan plan =
        made_of("material base\nmaterial mica\nmaterial lake\nblend W\n rest mica\n"
                " 0.1 % lake\nshade S\n rest base\n 10 % W\n batch t 10 g\n"
                "plan P\n make t of S\n make t of S\n");
    std::size_t nothing_read = 0;
    for (const Finding& finding : plan.plan.findings)
        nothing_read += finding.code == Code::weigh_nothing;
    CHECK(nothing_read == 1);
}

TEST_CASE("lots and what is bought come to each line in whole steps") {
    // 4.4 g and 0.7 g on a balance of 0.1 g. Of 4.27 g and 0.38 g there are 42 and 3 whole steps:
    // 4.2 + 0.2 g for the first, 0.1 g for the second, and 0.6 g of it are bought.
    const MadePlan plan = made_of(
        "material mica\nmaterial wax\nbalance b\n reads 0.1 g\n"
        "shade S\n 4.4 parts mica\n 5.6 parts wax\n batch full 10 g\n weigh on b\n"
        "shade T\n 0.7 parts mica\n 1.3 parts wax\n batch full 2 g\n weigh on b\n"
        "plan P\n make full of S\n make full of T\n"
        "shelf\n have 100 g wax\n have 4.27 g mica, lot B1\n have 0.38 g mica, lot B2\n");
    std::string rows;
    for (const Supply& one : plan.plan.supplies)
        if (plan.compiled.formulary.name(one.need.material) == "mica") {
            for (const Taken& taken : one.taken)
                rows += std::to_string(taken.bowl) + " " + taken.stock->lot.name + " " +
                        taken.amount.exactly() + "; ";
            rows += one.lacking.exactly();
        }
    CHECK(rows == "0 B1 4.2; 0 B2 0.2; 1 B2 0.1; 0.6");
}
