#include "interpreter/rescue/steps.hpp"

#include <algorithm>

namespace levigate {
namespace {

/// A line in steps of the balance. An addition is a whole number from `low` to `high`.
struct StepLine {
    Exact wanted, poured, low;
    std::optional<Exact> high;  ///< empty: any
    Exact each;                 ///< one step, divided by what is wanted

    /// Nothing of it is there, and nothing can be added: it is off by all of itself in any bowl.
    bool missing() const { return poured.is_zero() && high && high->is_zero(); }
};

/// What a step more or less of a line does to how far it is off. Deviations are kept times the
/// total: within one total that changes no order.
struct Change {
    std::size_t line = 0;
    Exact before, after;

    int worse() const { return before < after ? 1 : after < before ? -1 : 0; }
};

/// Which change serves better, by the largest deviation that it touches. As if each deviation d
/// counted as M^d with M beyond all bounds: a change then counts as M^after − M^before.
bool serves_better(const Change& a, const Change& b) {
    if (a.worse() != b.worse()) return a.worse() < b.worse();
    if (a.worse() < 0) return a.before == b.before ? a.after < b.after : b.before < a.before;
    if (a.worse() > 0) return a.after == b.after ? b.before < a.before : a.after < b.after;
    return false;
}

/// True where a step moved from one line to another leaves them nearer: the larger of both
/// deviations counts first.
bool nearer(const Change& more, const Change& less) {
    const Exact &a = more.before, &b = less.before, &c = more.after, &d = less.after;
    const Exact &before = std::max(a, b), &after = std::max(c, d);
    if (before != after) return after < before;
    return std::min(c, d) < std::min(a, b);
}

/// Additions that come to one total, moved from line to line until they are as near as they can be.
/// The sum of the M^d is convex in each addition, and for such sums the best is found by single
/// steps: if no step moved from one line to another betters it, nothing does (A. Federgruen and
/// H. Groenevelt, "The greedy procedure for resource allocation problems", Operations Research 34,
/// 1986).
class OneTotal {
public:
    OneTotal(const std::vector<StepLine>& lines, const Exact& total, std::vector<Exact>& add)
        : lines_(lines), add_(add) {
        Exact sum;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const Exact then = lines[i].poured + add[i];
            over_.push_back(then * lines[i].each - total);
            sum += then;
        }
        left_ = total - sum;
    }

    void settle() {
        for (; left_.sign() > 0; left_ -= 1) move(best(1)->line, 1);
        for (; left_.sign() < 0; left_ += 1) move(best(-1)->line, -1);
        while (exchange()) {
        }
    }

    /// How far each line is off that isn't missing, the farthest first.
    std::vector<Exact> deviations(const Exact& total) const {
        std::vector<Exact> out;
        for (std::size_t i = 0; i < lines_.size(); ++i)
            if (!lines_[i].missing()) out.push_back(over_[i].abs() / total);
        std::sort(out.begin(), out.end(), [](const Exact& a, const Exact& b) { return b < a; });
        return out;
    }

private:
    /// The line to which a step more, or less, does the most good or the least harm.
    std::optional<Change> best(int steps) const {
        std::optional<Change> out;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            const StepLine& line = lines_[i];
            if (steps < 0 && add_[i] <= line.low) continue;
            if (steps > 0 && line.high && *line.high <= add_[i]) continue;
            const Exact then = steps > 0 ? over_[i] + line.each : over_[i] - line.each;
            const Change change{i, over_[i].abs(), then.abs()};
            if (!out || serves_better(change, *out)) out = change;
        }
        return out;
    }

    void move(std::size_t line, int steps) {
        add_[line] += steps;
        over_[line] += steps * lines_[line].each;
    }

    /// False where nothing is gained. If one line is the best to get a step and the best to lose
    /// one, a step to or from any other does more harm than it does good.
    bool exchange() {
        const std::optional<Change> more = best(1), less = best(-1);
        if (!more || !less || more->line == less->line || !nearer(*more, *less)) return false;
        move(more->line, 1);
        move(less->line, -1);
        return true;
    }

    const std::vector<StepLine>& lines_;
    std::vector<Exact>& add_;
    std::vector<Exact> over_;  ///< by line: poured and added ÷ wanted, less the total
    Exact left_;               ///< steps that the total still takes
};

/// The best of a run of totals.
class Totals {
public:
    /// `least`: so many steps are added at least, as far as there are so many.
    Totals(std::vector<StepLine> lines, std::optional<Exact> most, std::optional<Exact> planned,
           const Exact& least)
        : lines_(std::move(lines)), most_(std::move(most)), planned_(std::move(planned)) {
        std::optional<Exact> high = Exact();
        for (const StepLine& line : lines_) {
            poured_ += line.poured;
            least_ += line.low;
            if (high && line.high)
                *high += *line.high;
            else
                high.reset();
        }
        if (high) most_ = most_ ? std::min(*most_, *high) : *high;
        least_ = std::max(least_, most_ ? std::min(least, *most_) : least);
    }

    /// From so many steps upward, then downward, until even without steps nothing can be as near.
    /// The totals at which something can are all those between two: so none beyond is left out.
    /// `add` is to begin with.
    void search(const std::vector<Exact>& add, Exact sum, bool others) {
        sum = std::max(sum, least_);
        if (most_) sum = std::min(sum, *most_);
        first_ = last_ = sum;
        look(add, sum, 1, others ? most_totals : 1);
        if (others) look(add, sum - 1, -1, most_totals);
    }

    /// Empty where there is no total at all.
    const std::vector<Exact>& add() const { return best_; }
    /// True where totals were left out: not those from `first` to `last`.
    bool cut_off() const { return cut_off_; }
    Exact first() const { return poured_ + first_; }
    Exact last() const { return poured_ + last_; }

private:
    void look(std::vector<Exact> add, Exact sum, int by, int most) {
        for (int i = 0; !(sum < least_) && !(most_ && *most_ < sum); ++i, sum += by) {
            const Exact total = poured_ + sum;
            if (!off_.empty() && !can_be(total, off_.front())) return;
            if (i == most) {
                cut_off_ = cut_off_ || most > 1;
                return;
            }
            first_ = std::min(first_, sum);
            last_ = std::max(last_, sum);
            if (total.sign() <= 0) continue;
            OneTotal one(lines_, total, add);
            one.settle();
            keep(add, total, one.deviations(total));
        }
    }

    /// Whether any mix of this total, weighed ever so finely, has no line farther off than this.
    bool can_be(const Exact& total, const Exact& off) const {
        Exact low, high;
        bool any = false;
        for (const StepLine& line : lines_) {
            if (line.missing()) continue;
            const Exact meant = line.wanted * total;
            const Exact least = (1 - off) * meant, most = (1 + off) * meant;
            const Exact from = line.poured + line.low;
            if (most < from) return false;
            low += std::max(from, least);
            if (line.high) {
                const Exact to = line.poured + *line.high;
                if (to < least) return false;
                high += std::min(to, most);
            } else {
                high += most;
            }
            any = true;
        }
        return any && low <= total && total <= high;
    }

    void keep(const std::vector<Exact>& add, const Exact& total, std::vector<Exact> off) {
        if (!best_.empty()) {
            for (std::size_t i = 0; i < off.size(); ++i) {
                if (off_[i] < off[i]) return;
                if (off[i] < off_[i]) break;
                if (i + 1 == off.size() && !better_size(total)) return;
            }
        }
        best_ = add;
        total_ = total;
        off_ = std::move(off);
    }

    /// Of two that are equally near: no less than was planned, else as much as there can be; and no
    /// more than that takes.
    bool better_size(const Exact& total) const {
        const bool enough = !planned_ || *planned_ <= total;
        const bool had_enough = !planned_ || *planned_ <= total_;
        if (enough != had_enough) return enough;
        return enough ? total < total_ : total_ < total;
    }

    std::vector<StepLine> lines_;
    std::optional<Exact> most_, planned_;
    Exact poured_, least_;
    std::vector<Exact> best_, off_;
    Exact total_;         ///< of the best
    Exact first_, last_;  ///< steps added, at the least and at the most that was compared
    bool cut_off_ = false;
};

/// What may be added of each line.
std::vector<StepLine> step_lines(const std::vector<Wanted>& lines, const Restored& restored,
                                 const Exact& step) {
    std::vector<StepLine> out;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        StepLine line{as_fraction(lines[i].share), in_grams(lines[i].poured) / step, {}, {}, {}};
        line.each = 1 / line.wanted;
        if (lines[i].there) line.high = (in_grams(*lines[i].there) / step).floor();
        if (restored.any_size) {
            const Exact exact = in_grams(restored.add[i]) / step;
            const Exact aside = exact.is_zero() ? Exact() : Exact(steps_aside);
            const Exact high = (exact + aside).floor();
            line.low = std::max(Exact(), (exact - aside).ceil());
            line.high = line.high ? std::min(*line.high, high) : high;
        }
        out.push_back(std::move(line));
    }
    return out;
}

/// What is added at least, in steps. Where bowls of several sizes are equally near, the size has
/// been chosen already: no less than was planned, or than the limits allow, as the balance reads.
Exact least_added(const std::vector<Wanted>& lines, const Restored& restored, const Room& room,
                  const Exact& step) {
    if (!restored.any_size || !room.planned) return Exact();
    Mass poured;
    for (const Wanted& line : lines) poured += line.poured;
    const Exact there = (in_grams(poured) / step).round_half_up();
    const bool enough = *room.planned <= restored.total;
    return (enough ? (in_grams(*room.planned) / step).ceil()
                   : (in_grams(restored.total) / step).floor()) -
           there;
}

}  // namespace

Stepped in_steps(const std::vector<Wanted>& lines, const Restored& restored, const Room& room,
                 const Mass& step, const std::optional<Exact>& most) {
    const Exact& each = in_grams(step);
    std::vector<StepLine> steps = step_lines(lines, restored, each);
    std::vector<Exact> add;
    Exact sum;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const Exact exact = in_grams(restored.add[i]) / each;
        add.push_back(std::max(exact.floor(), steps[i].low));
        if (steps[i].high) add.back() = std::min(add.back(), *steps[i].high);
        sum += exact;
    }
    std::optional<Exact> planned;
    if (room.planned) planned = in_grams(*room.planned) / each;
    Totals totals(std::move(steps), most, planned, least_added(lines, restored, room, each));
    totals.search(add, sum.round_half_up(), lines.size() <= most_restored);
    Stepped out;
    out.add = totals.add();
    out.add.resize(lines.size());
    if (totals.cut_off()) out.compared = {totals.first() * step, totals.last() * step};
    return out;
}

}  // namespace levigate
