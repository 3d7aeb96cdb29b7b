#include "interpreter/rescue/restore.hpp"

#include <algorithm>

#include "interpreter/measure/linear.hpp"

namespace levigate {
namespace {

using linear::Problem;
using linear::Relation;

Mass sum_of(const std::vector<Wanted>& lines) {
    Mass sum;
    for (const Wanted& line : lines) sum += line.poured;
    return sum;
}

/// The greatest total that room and stock allow with every line at its share; none: any.
std::optional<Mass> greatest_total(const std::vector<Wanted>& lines, const Room& room) {
    std::optional<Mass> out = room.most;
    for (const Wanted& line : lines) {
        if (!line.there) continue;
        const Mass total = (line.poured + *line.there) / line.share;
        if (!out || total < *out) out = total;
    }
    return out;
}

// The nearest formula asks for a quotient to be least, |x_i/T - s_i|/s_i with T the sum of the x_i.
// With t = 1/T and y_i = x_i t (A. Charnes and W. W. Cooper, "Programming with linear fractional
// functionals", Naval Research Logistics Quarterly 9, 1962) it becomes linear. The unknowns are
// what each addition is of the whole, a_i = y_i - p_i t, then t, then the deviation d:
//     a_i + p_i t - s_i d <= s_i        not too much of line i
//     a_i + p_i t + s_i d >= s_i        not too little
//     a_i - u_i t <= 0                  no more than there is
//     sum a_i + P t = 1                 the shares are those of one whole
//     t >= 1/R                          it fits in
// A line that is settled stands at its own deviation, in place of d.
class Nearest {
public:
    Nearest(const std::vector<Wanted>& lines, const Room& room)
        : lines_(lines), room_(room), settled_(lines.size()) {}

    /// The least that the lines not yet settled can be off at most; none where the numbers grow
    /// too long.
    std::optional<Exact> deviation() const {
        Problem problem = bounds(nullptr);
        problem.cost[deviation_at()] = 1;
        const linear::Answer answer = linear::least(problem);
        if (answer.status != linear::Status::best) return std::nullopt;
        return answer.cost;
    }
    /// One over the total, the greatest or the least at that deviation.
    std::optional<Exact> whole(const Exact& deviation, bool greatest) const {
        Problem problem = bounds(&deviation);
        problem.cost[whole_at()] = greatest ? -1 : 1;
        const linear::Answer answer = linear::least(problem);
        if (answer.status != linear::Status::best) return std::nullopt;
        return answer.at[whole_at()];
    }
    void settle(std::size_t line, const Exact& off) { settled_[line] = off; }
    bool is_settled(std::size_t line) const { return settled_[line].has_value(); }

private:
    std::size_t whole_at() const { return lines_.size(); }
    std::size_t deviation_at() const { return lines_.size() + 1; }

    linear::Row row(Relation relation, const Exact& bound) const {
        return {std::vector<Exact>(lines_.size() + 2), relation, bound};
    }

    Problem bounds(const Exact* deviation) const {
        Problem out;
        out.cost.resize(lines_.size() + 2);
        linear::Row whole = row(Relation::exactly, 1);
        whole.of[whole_at()] = in_grams(sum_of(lines_));
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            whole.of[i] = 1;
            add_line(out, i);
        }
        out.rows.push_back(std::move(whole));
        if (room_.most) {
            linear::Row fits = row(Relation::at_least, 1 / in_grams(*room_.most));
            fits.of[whole_at()] = 1;
            out.rows.push_back(std::move(fits));
        }
        if (deviation) {
            linear::Row fixed = row(Relation::exactly, *deviation);
            fixed.of[deviation_at()] = 1;
            out.rows.push_back(std::move(fixed));
        }
        return out;
    }

    void add_line(Problem& out, std::size_t i) const {
        const Exact& wanted = as_fraction(lines_[i].share);
        for (const Relation side : {Relation::at_most, Relation::at_least}) {
            const Exact away = side == Relation::at_most ? -wanted : wanted;
            linear::Row near = row(side, wanted);
            near.of[i] = 1;
            near.of[whole_at()] = in_grams(lines_[i].poured);
            if (settled_[i])
                near.bound -= away * *settled_[i];
            else
                near.of[deviation_at()] = away;
            out.rows.push_back(std::move(near));
        }
        if (!lines_[i].there) return;
        linear::Row stock = row(Relation::at_most, 0);
        stock.of[i] = 1;
        stock.of[whole_at()] = -in_grams(*lines_[i].there);
        out.rows.push_back(std::move(stock));
    }

    const std::vector<Wanted>& lines_;
    const Room& room_;
    std::vector<std::optional<Exact>> settled_;  ///< by line: how far it is off, whatever is added
};

/// What of a line may be in the bowl in the end, as a multiple of its share of the total.
struct Reach {
    Exact low, high;
    bool bounded = false;
};

/// The sum of all lines when each comes to `level` times its share, or as near as it can.
Exact filled(const std::vector<Wanted>& lines, const std::vector<Reach>& reach,
             const Exact& level) {
    Exact sum;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Reach& one = reach[i];
        const Exact& capped = one.bounded && one.high < level ? one.high : level;
        sum += as_fraction(lines[i].share) * (capped < one.low ? one.low : capped);
    }
    return sum;
}

/// The level at which the lines fill the total: as water finds it, so that what is not held above
/// or below stands evenly. The sum grows with the level, straight between the ends of reaches.
Exact level_of(const std::vector<Wanted>& lines, const std::vector<Reach>& reach) {
    std::vector<Exact> bends{Exact()};
    for (const Reach& one : reach) {
        bends.push_back(one.low);
        if (one.bounded) bends.push_back(one.high);
    }
    std::sort(bends.begin(), bends.end(), [](const Exact& a, const Exact& b) { return a < b; });
    Exact low = bends.front(), at_low = filled(lines, reach, low);
    for (const Exact& bend : bends) {
        const Exact sum = filled(lines, reach, bend);
        if (!(sum < 1))
            return low == bend ? bend : low + (bend - low) * (1 - at_low) / (sum - at_low);
        low = bend;
        at_low = sum;
    }
    const Exact beyond = filled(lines, reach, low + 1) - at_low;
    return beyond.is_zero() ? low : low + (1 - at_low) / beyond;
}

/// What each line comes to, as a multiple of its share, where the whole is one over `whole`: as
/// evenly as can be, so that the largest deviation is least, then the next one, and so on.
std::vector<Exact> levels(const std::vector<Wanted>& lines, const Exact& whole) {
    std::vector<Reach> reach;
    for (const Wanted& line : lines) {
        const Exact part = whole / as_fraction(line.share);
        Reach one{in_grams(line.poured) * part, {}, line.there.has_value()};
        if (line.there) one.high = in_grams(line.poured + *line.there) * part;
        reach.push_back(std::move(one));
    }
    const Exact level = level_of(lines, reach);
    std::vector<Exact> out;
    for (const Reach& one : reach) {
        const Exact& capped = one.bounded && one.high < level ? one.high : level;
        out.push_back(capped < one.low ? one.low : capped);
    }
    return out;
}

/// One over the totals at which all deviations are the least, one after the other.
struct Wholes {
    Exact least, greatest;
};

/// The largest deviation first. Where several totals have it, the lines that stand at it between
/// the ends can't be any nearer at any of them (deviations are convex in what is added, so that one
/// that could be nearer at an end were nearer between, too): they are settled, and the others go
/// on.
std::optional<Wholes> nearest_wholes(const std::vector<Wanted>& lines, const Room& room) {
    Nearest nearest(lines, room);
    for (std::size_t turn = 0; turn < lines.size(); ++turn) {
        const auto off = nearest.deviation();
        const auto least = off ? nearest.whole(*off, false) : std::nullopt;
        const auto greatest = least ? nearest.whole(*off, true) : std::nullopt;
        if (!greatest || !greatest->known() || !least->known()) return std::nullopt;
        if (*least == *greatest || off->is_zero()) return Wholes{*least, *greatest};
        const std::vector<Exact> between = levels(lines, (*least + *greatest) / 2);
        bool open = false;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (nearest.is_settled(i)) continue;
            const Exact away = (between[i] - 1).abs();
            if (away < *off)
                open = true;
            else
                nearest.settle(i, away);
        }
        if (!open) return Wholes{*least, *greatest};
    }
    return std::nullopt;
}

/// The smallest of those totals, or the planned one, as near as they come to it.
Mass total_of(const Wholes& wholes, const Room& room) {
    const Exact smallest = 1 / wholes.greatest;
    Exact out = smallest;
    if (room.planned) out = std::max(out, in_grams(*room.planned));
    if (wholes.least.sign() > 0) out = std::min(out, 1 / wholes.least);
    return grams(out);
}

void spread(const std::vector<Wanted>& lines, Restored& out) {
    const std::vector<Exact> times = levels(lines, 1 / in_grams(out.total));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        out.add.push_back(times[i] * (lines[i].share * out.total) - lines[i].poured);
        const Exact off = (times[i] - 1).abs();
        if (out.off < off) out.off = off;
    }
}

}  // namespace

Mass least_total(const std::vector<Wanted>& lines) {
    Mass out;
    for (const Wanted& line : lines) out = std::max(out, line.poured / line.share);
    return out;
}

Restored restore(const std::vector<Wanted>& lines, const Room& room) {
    Restored out;
    const Mass poured = sum_of(lines), low = least_total(lines);
    if (room.most && *room.most < poured) {
        out.how = Restored::How::over_full;
        return out;
    }
    const std::optional<Mass> high = greatest_total(lines, room);
    if (!high || low <= *high) {
        out.total = std::max(low, room.planned.value_or(low));
        if (high) out.total = std::min(out.total, *high);
        const bool any = in_grams(out.total).sign() > 0;
        out.how = any ? Restored::How::exactly : Restored::How::empty;
        out.any_size = true;
        for (const Wanted& line : lines) out.add.push_back(line.share * out.total - line.poured);
        return out;
    }
    if (lines.size() > most_restored) return out;
    const auto wholes = nearest_wholes(lines, room);
    if (!wholes) return out;
    out.how = Restored::How::nearest;
    out.any_size = wholes->least != wholes->greatest;
    out.total = total_of(*wholes, room);
    if (!in_grams(out.total).known()) {
        out = Restored();
        return out;
    }
    spread(lines, out);
    return out;
}

}  // namespace levigate
