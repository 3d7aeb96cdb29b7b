// Rescues against another program's: GLPK's simplex (package glpk-utils), which knows nothing of
// this one. Each case is written as a linear program of our own words here, from the
// sentence "the largest |share - wanted| ÷ wanted is to be least, then the next largest", not from
// the solver's rows: the first two of them are held against GLPK, and the total that comes of all.
// LEVIGATE_SEED chooses the cases, and is printed.

#include <catch2/catch.hpp>

#include <cmath>
#include <iostream>
#include <limits>
#include <sstream>

#include "tests/rescue/bowls.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

constexpr int cases = 1000;

using Fixed = std::vector<std::optional<double>>;  ///< by line: it is off by no more than this

/// With y_i the share of line i in the end and t one over the total in centigrams: line i holds at
/// least what was poured (y_i >= p_i t) and at most that and what is there, all in the form that
/// CPLEX's LP files have. Lines that aren't `fixed` are off by no more than d.
std::string program(const Bowl& bowl, const Fixed& fixed, const std::string& goal) {
    std::ostringstream out;
    out.precision(17);
    out << goal << "\nSubject To\n sum: ";
    for (std::size_t i = 0; i < bowl.shares.size(); ++i) out << (i ? " + " : "") << "y" << i;
    out << " = 1\n";
    for (std::size_t i = 0; i < bowl.shares.size(); ++i) {
        const double wanted = bowl.shares[i] / 1000.0;
        if (fixed[i])
            out << " over" << i << ": y" << i << " <= " << wanted + wanted * *fixed[i] << "\n"
                << " under" << i << ": y" << i << " >= " << wanted - wanted * *fixed[i] << "\n";
        else
            out << " over" << i << ": y" << i << " - " << wanted << " d <= " << wanted << "\n"
                << " under" << i << ": y" << i << " + " << wanted << " d >= " << wanted << "\n";
        out << " in" << i << ": y" << i << " - " << bowl.poured[i] << " t >= 0\n";
        if (bowl.there[i] >= 0)
            out << " there" << i << ": y" << i << " - " << bowl.poured[i] + bowl.there[i]
                << " t <= 0\n";
    }
    if (bowl.room >= 0) out << " room: " << bowl.room << " t >= 1\n";
    out << "End\n";
    return out.str();
}

const std::string least_off = "Minimize\n obj: d", greatest_t = "Maximize\n obj: t",
                  least_t = "Minimize\n obj: t";
/// What a deviation may be more, so that doubles find it: the less, the less it moves what is
/// looked at; and more where all lines are held at once.
constexpr double hair = 1e-10, hair_of_all = 1e-9;

/// The best value by GLPK; not a number where it found none. Its presolver stays out of it: that of
/// 5.0 calls answers optimal that its own table of conditions, written beside them, shows to lie
/// outside the bounds (a row `1064 t >= 1`, with t at 0.0004). In fractions (`--exact`), since
/// within the tolerance of its doubles a line of a thousandth would seem to be nearer than it can
/// be.
double by_glpk(const ScratchFolder& folder, const std::string& text) {
    write_file(folder.path() / "case.lp", text);
    Command command;
    command.words = {"/usr/bin/glpsol", "--lp",    "case.lp",   "--nopresol",
                     "--exact",         "--write", "answer.txt"};
    command.folder = folder.path();
    const Outcome came = run(command);
    INFO(came.out << came.err);
    REQUIRE(came.status == 0);
    std::istringstream answer(read_file(folder.path() / "answer.txt").value_or(""));
    for (std::string line; std::getline(answer, line);) {
        std::istringstream words(line);
        std::string kind, name, rows, columns, primal, dual;
        double value = 0;
        if (words >> kind && kind == "s" &&
            words >> name >> rows >> columns >> primal >> dual >> value)
            return primal == "f" && dual == "f" ? value : std::nan("");
    }
    return std::nan("");
}

double number(const Exact& exact) { return std::stod(exact.fixed(15)); }

/// Every bound is kept, to the last digit; and what is said to be off is what is off.
void check_bounds(const Bowl& bowl, const Restored& made) {
    const auto lines = wanted(bowl);
    REQUIRE(made.add.size() == lines.size());
    Exact total, off;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        CHECK(in_grams(made.add[i]).sign() >= 0);
        if (lines[i].there) CHECK(made.add[i] <= *lines[i].there);
        const Mass then = lines[i].poured + made.add[i];
        total += in_grams(then);
        const Exact one =
            (as_fraction(share_of(then, made.total)) / as_fraction(lines[i].share) - 1).abs();
        if (off < one) off = one;
    }
    CHECK(total == in_grams(made.total));
    CHECK(off == made.off);
    if (bowl.room >= 0) CHECK(total <= Exact(bowl.room, 100));
}

/// How far each line is off in the end.
std::vector<Exact> deviations(const Bowl& bowl, const Restored& made) {
    const auto lines = wanted(bowl);
    std::vector<Exact> out;
    for (std::size_t i = 0; i < lines.size(); ++i)
        out.push_back((as_fraction(share_of(lines[i].poured + made.add[i], made.total)) /
                           as_fraction(lines[i].share) -
                       1)
                          .abs());
    return out;
}

/// The same with deviations that may be a hair more, and what it would be without. Steps in doubles
/// may find no answer where all depends on less, so the smallest hair at which there is one is
/// taken. A hair can move the answer a hundred thousand times as far (a line of a thousandth beside
/// one of which a centigram is there). The best value is convex in the hair, and straight up to the
/// next corner: from one hair and from two, the line goes back to none.
template <typename Programme>
double by_glpk_with_hair(const ScratchFolder& folder, double allowed, const Programme& programme) {
    for (int more = 0; more < 4; ++more, allowed *= 10) {
        const double one = by_glpk(folder, programme(allowed));
        if (std::isnan(one)) continue;
        const double two = by_glpk(folder, programme(2 * allowed));
        return std::isnan(two) ? one : 2 * one - two;
    }
    return std::numeric_limits<double>::quiet_NaN();
}

/// The lines at the largest deviation can't be nearer while none is farther, and with them where
/// they are the others come no nearer than they do.
void check_second(const ScratchFolder& folder, const Bowl& bowl, const Restored& made) {
    const std::vector<Exact> off = deviations(bowl, made);
    const double first = number(made.off);
    Exact second;
    for (const Exact& one : off)
        if (!(one == made.off) && second < one) second = one;
    for (std::size_t i = 0; i < off.size(); ++i) {
        if (!(off[i] == made.off)) continue;
        const double own = by_glpk_with_hair(folder, hair, [&](double more) {
            Fixed others(off.size(), first + more);
            others[i].reset();
            return program(bowl, others, least_off);
        });
        CHECK(own == Approx(first).epsilon(1e-5).margin(1e-5));
    }
    const double next = by_glpk_with_hair(folder, hair, [&](double more) {
        Fixed rest(off.size());
        for (std::size_t i = 0; i < off.size(); ++i)
            if (off[i] == made.off) rest[i] = first + more;
        return program(bowl, rest, least_off);
    });
    CHECK(next == Approx(number(second)).epsilon(1e-5).margin(1e-5));
}

/// Of the totals at these deviations the one that is planned, or the nearest to it: a hair of
/// deviation more makes them no others.
void check_total(const ScratchFolder& folder, const Bowl& bowl, const Restored& made) {
    const auto off = deviations(bowl, made);
    const auto best = [&](const std::string& goal) {
        return by_glpk_with_hair(folder, hair_of_all, [&](double more) {
            Fixed all;
            for (const Exact& one : off) all.push_back(number(one) + more);
            return program(bowl, all, goal);
        });
    };
    const double most = best(greatest_t);
    const double t = 1 / (100 * number(in_grams(made.total)));
    if (bowl.planned < 0 || most * bowl.planned <= 1) {
        CHECK(t == Approx(most).epsilon(1e-4));
    } else if (t * bowl.planned > 1 + 1e-9) {  // not even the planned one
        CHECK(t == Approx(best(least_t)).epsilon(1e-4));
    } else {
        CHECK(t == Approx(1.0 / bowl.planned).epsilon(1e-9));
    }
}

}  // namespace

TEST_CASE("a thousand bowls, as GLPK has them") {
    const ScratchFolder folder;
    Random random(seed());
    int exactly = 0, nearest = 0;
    for (int i = 0; i < cases; ++i) {
        const Bowl bowl = make_bowl(random);
        const std::string text = program(bowl, Fixed(bowl.shares.size()), least_off);
        INFO("case " << i << "\n" << text);
        const Restored made = restore(wanted(bowl), room(bowl));
        REQUIRE((made.how == Restored::How::exactly || made.how == Restored::How::nearest));
        check_bounds(bowl, made);
        exactly += made.how == Restored::How::exactly;
        nearest += made.how == Restored::How::nearest;
        const double off = number(made.off);
        CHECK(off == Approx(by_glpk(folder, text)).epsilon(1e-6).margin(1e-6));
        CHECK(made.off.is_zero() == (made.how == Restored::How::exactly));
        check_total(folder, bowl, made);
        if (made.how == Restored::How::nearest) check_second(folder, bowl, made);
    }
    std::cout << exactly << " restored exactly, " << nearest << " as near as can be\n";
    CHECK(exactly > cases / 20);
    CHECK(nearest > cases / 4);
}
