// What to add, in cases whose answers follow by hand.

#include <catch2/catch.hpp>

#include "interpreter/rescue/restore.hpp"

using namespace levigate;

namespace {

Wanted line(int percent_wanted, Exact poured) {
    return {percent(percent_wanted), grams(poured), std::nullopt};
}
Wanted line(int percent_wanted, Exact poured, Exact there) {
    return {percent(percent_wanted), grams(poured), grams(there)};
}
Room room(std::optional<Exact> most, std::optional<Exact> planned = {}) {
    Room out;
    if (most) out.most = grams(*most);
    if (planned) out.planned = grams(*planned);
    return out;
}
std::vector<Exact> added(const Restored& restored) {
    std::vector<Exact> out;
    for (const Mass& mass : restored.add) out.push_back(in_grams(mass));
    return out;
}

}  // namespace

TEST_CASE("the line that is most over tells the new total") {
    // 6 g of a line of 20 % asks for 30 g; 12 g of 50 % only for 24 g.
    const auto made = restore({line(50, 12), line(20, 6), line(30, 0)}, room({}));
    CHECK(made.how == Restored::How::exactly);
    CHECK(in_grams(made.total) == Exact(30));
    CHECK(added(made) == std::vector<Exact>{3, 0, 9});
    CHECK(made.off.is_zero());
}

TEST_CASE("no less comes out than was planned, and no more than fits in or than there is") {
    const std::vector<Wanted> bowl{line(50, 12), line(20, 6), line(30, 0)};
    CHECK(in_grams(restore(bowl, room({}, 40)).total) == Exact(40));
    CHECK(in_grams(restore(bowl, room({}, 20)).total) == Exact(30));
    CHECK(in_grams(restore(bowl, room(35, 40)).total) == Exact(35));
    CHECK(in_grams(restore(bowl, room(30)).total) == Exact(30));
    // 9.6 g of the third line is 30 % of 32 g
    const auto stocked =
        restore({line(50, 12), line(20, 6), line(30, 0, Exact(96, 10))}, room({}, 40));
    CHECK(stocked.how == Restored::How::exactly);
    CHECK(in_grams(stocked.total) == Exact(32));
}

TEST_CASE("an empty bowl is a batch like any, and nothing comes of nothing") {
    const auto made = restore({line(75, 0), line(25, 0)}, room({}, 8));
    CHECK(made.how == Restored::How::exactly);
    CHECK(added(made) == std::vector<Exact>{6, 2});
    CHECK(restore({line(75, 0), line(25, 0)}, room({})).how == Restored::How::empty);
    CHECK(restore({line(75, 0), line(25, 0, 0)}, room({}, 8)).how == Restored::How::empty);
}

TEST_CASE("a bowl that is too full already is said") {
    CHECK(restore({line(50, 6), line(50, 0)}, room(5)).how == Restored::How::over_full);
    const auto full = restore({line(50, 6), line(50, 0)}, room(6));
    CHECK(full.how == Restored::How::nearest);  // nothing goes in: one line has all, one none
    CHECK(in_grams(full.total) == Exact(6));
    CHECK(full.off == Exact(1));
}

TEST_CASE("with no room the nearest is as even as what is over lets it be") {
    // 30 g of a line of 20 % in 100 g is 50 % over; the others share 70 g as 5 to 3, 12.5 % under.
    const auto made = restore({line(50, 0), line(30, 0), line(20, 30)}, room(100));
    CHECK(made.how == Restored::How::nearest);
    CHECK(in_grams(made.total) == Exact(100));
    CHECK(made.off == Exact(1, 2));
    CHECK(added(made) == std::vector<Exact>{Exact(175, 4), Exact(105, 4), 0});
}

TEST_CASE("a line that can't be had leaves the others as near as they can be") {
    // None of line two comes: it is off by all of its share, whatever else is added. The other two
    // share the whole as 2 to 1, 4/3 of what is wanted: the 30 g of line one are that of 45 g.
    const auto made = restore({line(50, 30), line(25, 0, 0), line(25, 0)}, room({}));
    CHECK(made.how == Restored::How::nearest);
    CHECK(made.off == Exact(1));
    CHECK(in_grams(made.total) == Exact(45));
    CHECK(added(made) == std::vector<Exact>{0, 0, 15});
}

TEST_CASE("bowls that are equally near are as large as was planned, where they can be") {
    // Without line three the others are 10/9 of what is wanted, in any bowl of 3.6 g or more.
    const std::vector<Wanted> bowl{line(50, 2), line(40, 0), line(10, 0, 0)};
    const auto small = restore(bowl, room({})), planned = restore(bowl, room({}, 20));
    CHECK(in_grams(small.total) == Exact(36, 10));
    CHECK(added(small) == std::vector<Exact>{0, Exact(16, 10), 0});
    CHECK(in_grams(planned.total) == Exact(20));
    CHECK(added(planned) == std::vector<Exact>{Exact(82, 9), Exact(80, 9), 0});
    CHECK(in_grams(restore(bowl, room(15, 20)).total) == Exact(15));
    CHECK(in_grams(restore(bowl, room({}, 3)).total) == Exact(36, 10));
    // 4 g of line two are 4/9 of 9 g, and of no more.
    const std::vector<Wanted> little{line(50, 2), line(40, 0, 4), line(10, 0, 0)};
    CHECK(in_grams(restore(little, room({}, 20)).total) == Exact(9));
}

TEST_CASE("the next largest deviation is the least as well") {
    // Line one can't be had. The others fill the whole: 3/T ÷ 30 % + (T - 3)/T ÷ 30 % = 10/3, and
    // are both at 5/3 where 3/T is a half: 6 g.
    const auto made = restore({line(40, 0, 0), line(30, 3, 0), line(30, 0)}, room({}, 20));
    CHECK(made.off == Exact(1));
    CHECK(in_grams(made.total) == Exact(6));
    CHECK(added(made) == std::vector<Exact>{0, 0, 3});
}

TEST_CASE("short of one line, the others are kept down to it") {
    // Line two has 2 g where the 12 g of line one ask for 12. With a total T the first is off by
    // 12/T ÷ 1/2 - 1 = 24/T - 1, the second by 1 - 2/T ÷ 1/2 = 1 - 4/T, and nothing else fills T
    // beyond 14 g. So T is 14: 24/14 - 1 = 5/7, and 1 - 4/14 = 5/7.
    const auto made = restore({line(50, 12), line(50, 0, 2)}, room({}));
    CHECK(made.how == Restored::How::nearest);
    CHECK(in_grams(made.total) == Exact(14));
    CHECK(made.off == Exact(5, 7));
}
