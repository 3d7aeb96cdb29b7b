// What to weigh, in cases whose answers follow by hand.

#include <catch2/catch.hpp>

#include "interpreter/rescue/steps.hpp"

using namespace levigate;

namespace {

const Mass centigram = grams(Exact(1, 100));

Wanted part(Exact wanted, Exact poured, std::optional<Exact> there = {}) {
    Wanted out{share(wanted), grams(poured), {}};
    if (there) out.there = grams(*there);
    return out;
}

/// Restored, and then weighed: `most` steps may be added.
Stepped weighed(const std::vector<Wanted>& lines, std::optional<Exact> planned = {},
                std::optional<Exact> most = {}, std::optional<Exact> fits = {}) {
    Room room;
    if (planned) room.planned = grams(*planned);
    if (fits) room.most = grams(*fits);
    return in_steps(lines, restore(lines, room), room, centigram, most);
}

using Steps = std::vector<Exact>;

}  // namespace

TEST_CASE("rounded half up, two lines would pass the best total") {
    // 0.66 g ÷ 20 % = 3.3 g and 0.31 g ÷ 10 % = 3.1 g: at 3.2 g both are 1/32 off. The other two
    // are 1.115 g each: 1.12 g of both make 3.21 g, of which 0.31 g are 11/321 too little.
    const Stepped made =
        weighed({part(Exact(35, 100), 0), part(Exact(35, 100), 0),
                 part(Exact(20, 100), Exact(66, 100)), part(Exact(10, 100), 0, Exact(31, 100))});
    CHECK(made.add[0] + made.add[1] == Exact(223));
    CHECK((made.add[0] - made.add[1]).abs() == Exact(1));
    CHECK(made.add[2] == Exact(0));
    CHECK(made.add[3] == Exact(31));
    CHECK_FALSE(made.compared.has_value());
}

TEST_CASE("of bowls that are equally near, no less than was planned comes out") {
    // Thirds in steps are exact at whole times 0.03 g.
    const std::vector<Wanted> thirds{part(Exact(1, 3), 1), part(Exact(1, 3), 0),
                                     part(Exact(1, 3), 0)};
    CHECK(weighed(thirds, Exact(10)).add == Steps{234, 334, 334});
    CHECK(weighed(thirds, Exact(999, 100)).add == Steps{233, 333, 333});
    CHECK(weighed(thirds).add == Steps{0, 100, 100});
    // Where 10 g are planned and there is room for no more, 9.99 g would be exact, and too little.
    const Stepped full = weighed(thirds, Exact(10), Exact(900), Exact(10));
    CHECK(full.add[0] + full.add[1] + full.add[2] == Exact(900));
    // 9.99 g are the most that there is room for, and they come nearest to the plan.
    CHECK(weighed(thirds, Exact(10), Exact(899), Exact(999, 100)).add == Steps{233, 333, 333});
}

TEST_CASE("what was planned comes out, even where less were nearer") {
    // 0.30 g are 10 % of 3 g, so any larger bowl holds the formula. 6 g are 3.996, 1.404 and 0.6 g;
    // 5.90 g are nearer in steps, and a tenth less than two pots take.
    const std::vector<Wanted> pots{part(Exact(666, 1000), 0), part(Exact(234, 1000), 0),
                                   part(Exact(1, 10), Exact(3, 10))};
    const Stepped made = weighed(pots, Exact(6));
    CHECK(Exact(30) + made.add[0] + made.add[1] + made.add[2] >= Exact(600));
    // Stock of 1.17 g, 23.4 % of 5 g, keeps it at 5 g: then no less than that.
    const std::vector<Wanted> less{pots[0], part(Exact(234, 1000), 0, Exact(117, 100)), pots[2]};
    const Stepped small = weighed(less, Exact(6));
    CHECK(Exact(30) + small.add[0] + small.add[1] + small.add[2] >= Exact(500));
    CHECK(small.add[1] <= Exact(117));
}

TEST_CASE("a line that has enough gets nothing more, even where that were nearer") {
    // 1.01 g ÷ 1/2 = 2.02 g: 0.606 and 0.404 g. With 0.61 and 0.40 g the last is 0.404 - 0.40 = 1 %
    // off. With 0.01 g of the first as well, at 2.04 g: 1.02, 0.61, 0.41 g are 0, 0.3 and 0.5 %
    // off.
    const Stepped made =
        weighed({part(Exact(1, 2), Exact(101, 100)), part(Exact(3, 10), 0), part(Exact(2, 10), 0)});
    CHECK(made.add[0] == Exact(0));
    // 1.01, 0.61, 0.41 g of 2.03 g: -0.49, +0.16 and +0.99 %; 0.60 and 0.40 g of 2.01 g: +0.50,
    // -0.50 and -0.50 %. That is nearest.
    CHECK(made.add == Steps{0, 60, 40});
}

TEST_CASE("what is there is added to the last whole step, and no further") {
    // 2 g are too much of a half, so of the other half all goes in: 5 steps of 0.055 g.
    const Stepped made =
        weighed({part(Exact(1, 2), 2), part(Exact(1, 2), 0, Exact(55, 1000))}, Exact(20));
    CHECK(made.add == Steps{0, 5});
}

TEST_CASE("where too many totals would have to be compared, those that were are told") {
    // One part in a million gets its first step at some 5000 g, and is off by all of itself before.
    // The others are 20 % off at 2.5 g: 1.5 ÷ 1.25 and 1 ÷ 1.25. At 1.5 g the second is more than
    // all of itself off; upward 5000 totals are compared, from 2.5 g on.
    const Stepped made =
        weighed({part(Exact(500000, 1000000), 0, 1), part(Exact(499999, 1000000), Exact(3, 2)),
                 part(Exact(1, 1000000), 0)});
    CHECK(made.add == Steps{100, 0, 0});
    REQUIRE(made.compared.has_value());
    CHECK(in_grams(made.compared->least) == Exact(151, 100));
    CHECK(in_grams(made.compared->greatest) == Exact(5249, 100));
}

TEST_CASE("a line that can't be had doesn't keep the others from being compared to the end") {
    // Line one is off by all of itself in any bowl. The others are both 2/3 too much at 18 g alone.
    const Stepped made = weighed(
        {part(Exact(4, 10), 0, 0), part(Exact(1, 10), 3, 0), part(Exact(5, 10), 0)}, Exact(20));
    CHECK(made.add == Steps{0, 0, 1500});
    CHECK_FALSE(made.compared.has_value());
}

TEST_CASE("a formula of many lines is weighed at the total next to the exact one") {
    // 41 equal parts of 10 g are 24.39 steps each: 16 of them a step more make 1000.
    const std::vector<Wanted> lines(41, part(Exact(1, 41), 0));
    const Stepped made = weighed(lines, Exact(10));
    int more = 0;
    for (const Exact& one : made.add) {
        CHECK((one == Exact(24) || one == Exact(25)));
        more += one == Exact(25);
    }
    CHECK(more == 16);
}

TEST_CASE("nothing that can be added is no harm") {
    CHECK(weighed({part(Exact(1, 2), 6), part(Exact(1, 2), 0)}, {}, Exact(0), Exact(6)).add ==
          Steps{0, 0});
    // A third of a step is asked for in all: the bowl stays empty, or holds a step.
    const Stepped made = weighed({part(Exact(1, 2), 0), part(Exact(1, 2), 0)}, Exact(1, 300));
    CHECK(made.add.size() == 2);
}
