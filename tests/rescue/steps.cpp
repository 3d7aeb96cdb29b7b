// What is proposed in whole steps of a balance against all that could be. Bowls of up to four lines
// by brute force, ten steps to each side of the exact additions; larger ones against the integer
// optimum of GLPK (package glpk-utils). All is in whole numbers here: thousandths and centigrams.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "interpreter/rescue/steps.hpp"
#include "tests/rescue/bowls.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

constexpr int small_bowls = 1000, large_bowls = 150;

using Whole = std::int64_t;
using Steps = std::vector<Whole>;

/// How near a bowl is: each line's |1000 x - s X| / (s X), the largest first, without lines of
/// which nothing can be there; then the total.
struct Nearness {
    struct Off {
        Whole over, under;
        bool operator<(const Off& other) const { return over * other.under < other.over * under; }
    };
    std::vector<Off> off;
    Whole total = 0;
};

struct Case {
    Bowl bowl;
    Whole step = 1;  ///< centigrams
    Restored restored;
    Steps add, low, high;  ///< proposed; and what of it is looked at
    Whole least = 0;       ///< steps in all, so that no less comes out than was planned
    Whole most = 0;        ///< steps in all
    bool cut = false;
};

Whole whole(const Exact& exact) {
    std::int64_t out = 0;
    REQUIRE(exact.to_int64(out));
    return out;
}

Whole poured(const Bowl& bowl) {
    Whole sum = 0;
    for (const int one : bowl.poured) sum += one;
    return sum;
}

Nearness nearness(const Case& one, const Steps& add) {
    Nearness out;
    out.total = poured(one.bowl);
    for (const Whole steps : add) out.total += steps * one.step;
    for (std::size_t i = 0; i < add.size(); ++i) {
        const Whole share = one.bowl.shares[i], there = one.bowl.there[i];
        const Whole then = one.bowl.poured[i] + add[i] * one.step;
        if (one.bowl.poured[i] == 0 && there >= 0 && there < one.step) continue;
        out.off.push_back({std::abs(1000 * then - share * out.total), share * out.total});
    }
    std::sort(out.off.begin(), out.off.end(), [](const auto& a, const auto& b) { return b < a; });
    return out;
}

/// By the order of goals: deviations, then what was planned, then the smallest addition.
bool better(const Case& one, const Nearness& a, const Nearness& b) {
    for (std::size_t i = 0; i < a.off.size(); ++i) {
        if (a.off[i] < b.off[i]) return true;
        if (b.off[i] < a.off[i]) return false;
    }
    const Whole planned = one.bowl.planned;
    if (planned < 0 || (planned <= a.total && planned <= b.total)) return a.total < b.total;
    return b.total < a.total;
}

void leave_out_less(Case& one);

/// Restored and proposed, and what may be added around that.
Case make_case(Random& random, int fewest, int most) {
    Case one;
    one.bowl = make_bowl(random, fewest, most);
    one.step = random.pick(std::vector<int>{1, 1, 2, 5, 10, 20});
    auto lines = wanted(one.bowl);
    for (Wanted& line : lines)
        if (line.there && in_grams(*line.there) < Exact(one.step, 100)) line.there = Mass();
    one.most = one.bowl.room < 0 ? 1000000 : (one.bowl.room - poured(one.bowl)) / one.step;
    std::optional<Exact> limit;
    if (one.bowl.room >= 0) limit = one.most;
    one.restored = restore(lines, room(one.bowl));
    REQUIRE(one.restored.add.size() == lines.size());
    const Stepped made =
        in_steps(lines, one.restored, room(one.bowl), grams(Exact(one.step, 100)), limit);
    one.cut = made.compared.has_value();
    REQUIRE(made.add.size() == lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Exact exact = in_grams(one.restored.add[i]) * 100 / one.step;
        const bool kept = one.restored.any_size && exact.is_zero();
        one.add.push_back(whole(made.add[i]));
        one.low.push_back(std::max<Whole>(0, whole((exact - (kept ? 0 : 10)).ceil())));
        one.high.push_back(whole((exact + (kept ? 0 : 10)).floor()));
        if (one.bowl.there[i] >= 0)
            one.high.back() = std::min(one.high.back(), one.bowl.there[i] / one.step);
    }
    leave_out_less(one);
    return one;
}

/// Of bowls of any size: what the balance reads in the end is no less than was planned, or than the
/// exact restoration where that had to stay below the plan; as far as what is looked at goes.
void leave_out_less(Case& one) {
    if (!one.restored.any_size || one.bowl.planned < 0) return;
    const Whole read = (2 * poured(one.bowl) + one.step) / (2 * one.step);
    const Exact total = in_grams(one.restored.total) * 100;
    const Whole meant = total < Exact(one.bowl.planned)
                            ? whole((total / one.step).floor())
                            : (one.bowl.planned + one.step - 1) / one.step;
    Whole high = 0;
    for (const Whole steps : one.high) high += steps;
    one.least = std::min(meant - read, std::min(high, one.most));
}

std::string words(const Case& one) {
    std::ostringstream out;
    out << "step " << one.step << " room " << one.bowl.room << " planned " << one.bowl.planned;
    for (std::size_t i = 0; i < one.add.size(); ++i)
        out << "\n"
            << one.bowl.shares[i] << " poured " << one.bowl.poured[i] << " there "
            << one.bowl.there[i] << " exactly " << in_grams(one.restored.add[i]).fraction()
            << " steps " << one.add[i] << " of " << one.low[i] << " to " << one.high[i];
    return out.str();
}

/// Nothing below nothing, and no more than there is or than fits in.
void check_limits(const Case& one) {
    Whole sum = 0;
    for (std::size_t i = 0; i < one.add.size(); ++i) {
        sum += one.add[i];
        CHECK(one.add[i] >= 0);
        if (one.bowl.there[i] >= 0) CHECK(one.add[i] * one.step <= one.bowl.there[i]);
        if (!one.restored.any_size) continue;
        CHECK(one.low[i] <= one.add[i]);
        CHECK(one.add[i] <= one.high[i]);
    }
    CHECK(sum >= one.least);
    if (one.bowl.room >= 0) CHECK(poured(one.bowl) + sum * one.step <= one.bowl.room);
}

/// The best of all additions that are looked at. Most are farther off in their worst line alone.
struct Best {
    const Case& one;
    Nearness nearest;
    Steps add, at;

    void look(std::size_t line, Whole left) {
        if (line < one.add.size()) {
            for (Whole k = one.low[line]; k <= std::min(one.high[line], left); ++k) {
                add[line] = k;
                look(line + 1, left - k);
            }
            return;
        }
        Whole sum = 0;
        for (const Whole steps : add) sum += steps;
        const Whole total = poured(one.bowl) + sum * one.step;
        if (total == 0 || sum < one.least) return;
        for (std::size_t i = 0; i < add.size() && !nearest.off.empty(); ++i) {
            if (one.bowl.poured[i] == 0 && one.high[i] == 0) continue;
            const Whole share = one.bowl.shares[i];
            const Whole then = one.bowl.poured[i] + add[i] * one.step;
            const Nearness::Off off{std::abs(1000 * then - share * total), share * total};
            if (nearest.off.front() < off) return;
        }
        Nearness came = nearness(one, add);
        if (!at.empty() && !better(one, came, nearest)) return;
        nearest = std::move(came);
        at = add;
    }
};

std::string integer_program(const Case& one, const Nearness::Off& off) {
    std::ostringstream out;
    out.precision(17);
    const double d = static_cast<double>(off.over) / static_cast<double>(off.under);
    out << "Minimize\n obj: z - " << d << " t\nSubject To\n sum: t";
    for (std::size_t i = 0; i < one.add.size(); ++i) out << " - " << one.step << " k" << i;
    out << " = " << poured(one.bowl) << "\n";
    for (std::size_t i = 0; i < one.add.size(); ++i) {
        if (one.bowl.poured[i] == 0 && one.high[i] == 0) continue;
        const double each = 1000.0 / one.bowl.shares[i];
        out << " over" << i << ": " << each * static_cast<double>(one.step) << " k" << i
            << " - t - z <= " << -each * one.bowl.poured[i] << "\n under" << i << ": "
            << each * static_cast<double>(one.step) << " k" << i
            << " - t + z >= " << -each * one.bowl.poured[i] << "\n";
    }
    if (one.bowl.room >= 0) out << " room: t <= " << one.bowl.room << "\n";
    out << " plan: t >= " << poured(one.bowl) + one.least * one.step << "\n";
    out << "Bounds\n";
    for (std::size_t i = 0; i < one.add.size(); ++i) {
        const Whole there = one.bowl.there[i] < 0 ? 5000 : one.bowl.there[i] / one.step;
        const bool near = one.restored.any_size;
        out << " " << (near ? one.low[i] : 0) << " <= k" << i
            << " <= " << (near ? one.high[i] : there) << "\n";
    }
    out << "General\n";
    for (std::size_t i = 0; i < one.add.size(); ++i) out << " k" << i << "\n";
    out << "End\n";
    return out.str();
}

/// The integer optimum; empty where GLPK doesn't come to an end.
Steps by_glpk_in_steps(const ScratchFolder& folder, const std::string& text, std::size_t lines) {
    write_file(folder.path() / "case.lp", text);
    Command command;
    command.words = {"/usr/bin/glpsol", "--lp", "case.lp", "--tmlim", "5", "--write", "answer.txt"};
    command.folder = folder.path();
    const Outcome came = run(command);
    INFO(came.out << came.err);
    REQUIRE(came.status == 0);
    std::istringstream answer(read_file(folder.path() / "answer.txt").value_or(""));
    Steps out;
    bool best = false;
    std::size_t column = 0;
    // Columns are numbered as they are met in the file: z, t, and the additions.
    for (std::string line; std::getline(answer, line);) {
        std::istringstream fields(line);
        std::string kind, name, rows, columns, status;
        double value = 0;
        fields >> kind;
        if (kind == "s" && fields >> name >> rows >> columns >> status) best = status == "o";
        if (kind == "j" && fields >> column >> value && column > 2)
            out.push_back(std::llround(value));
    }
    return best && out.size() == lines ? out : Steps();
}

}  // namespace

TEST_CASE("no addition of up to four, ten steps to each side, is nearer") {
    Random random(seed());
    int restored = 0, inside = 0;
    for (int i = 0; i < small_bowls; ++i) {
        const Case one = make_case(random, 2, 4);
        INFO("bowl " << i << "\n" << words(one));
        check_limits(one);
        Best best{one, {}, Steps(one.add.size()), {}};
        best.look(0, one.most);
        const Nearness ours = nearness(one, one.add);
        restored += one.restored.any_size;
        if (best.at.empty() || one.cut) continue;
        CHECK_FALSE(better(one, best.nearest, ours));
        // In a window the best of it is proposed; else the best of all, which may lie outside.
        const bool same = !better(one, ours, best.nearest);
        inside += same;
        if (one.restored.any_size) CHECK(same);
    }
    std::cout << restored << " of any size, " << inside << " as by brute force\n";
    CHECK(restored > small_bowls / 20);
    CHECK(restored < small_bowls - small_bowls / 4);
    CHECK(inside > small_bowls / 2);
}

TEST_CASE("no larger bowl is nearer by GLPK's integer optimum") {
    const ScratchFolder folder;
    Random random(seed());
    int ended = 0, as_near = 0;
    for (int i = 0; i < large_bowls; ++i) {
        const Case one = make_case(random, 5, 9);
        INFO("bowl " << i << "\n" << words(one));
        check_limits(one);
        const Nearness ours = nearness(one, one.add);
        if (ours.off.empty() || one.cut) continue;
        const Steps theirs =
            by_glpk_in_steps(folder, integer_program(one, ours.off.front()), one.add.size());
        if (theirs.empty()) continue;
        ++ended;
        const Nearness::Off off = nearness(one, theirs).off.front();
        CHECK_FALSE(off < ours.off.front());
        as_near += !(ours.off.front() < off);
    }
    std::cout << ended << " ended, " << as_near << " as near\n";
    CHECK(ended > large_bowls / 2);
    CHECK(as_near > ended - ended / 10);
}
