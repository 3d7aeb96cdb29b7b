// From amounts as written to shares of the whole. Every line is fixed + times × x for one unknown
// x: the size of the rest, or the share that a weight of 1 takes. All lines together are 1, which
// gives x. `enough` is another unknown, and has a file of its own.

#include "interpreter/formulary/solve.hpp"

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solving.hpp"

namespace levigate {
namespace {

using solving::Affine;
using solving::no_line;
using solving::Task;

void say_unknown(Task& task, const Exact& number, Span span) {
    if (number.by_zero())
        task.report(Code::number_by_zero, span,
                    "An amount of " + task.whose + " divides by nothing.",
                    "Divide by a number that is not 0.");
    else
        task.report(Code::number_too_long, span,
                    "The numbers of " + task.whose + " grow beyond " + std::to_string(digit_cap) +
                        " digits.",
                    "Use rounder numbers, or fewer blends within blends.");
}

/// The number that the amount was written with.
Exact written(const PartAmount& amount) {
    if (const auto* size = std::get_if<Share>(&amount)) return as_fraction(*size);
    if (const auto* weight = std::get_if<Weight>(&amount)) return in_grams(weight->mass);
    if (const auto* relative = std::get_if<AsMuch>(&amount)) return relative->factor;
    if (const auto* enough = std::get_if<Enough>(&amount)) return as_fraction(enough->share);
    return 1;
}

/// Unknown numbers are said once, negative ones each.
void judge_numbers(Task& task) {
    for (std::uint32_t i = 0; i < task.formula.parts.size(); ++i) {
        const Part& part = task.formula.parts[i];
        Exact number = written(part.amount);
        if (!number.known()) return say_unknown(task, number, part.span);
        if (number.sign() < 0)
            task.report(Code::amount_negative, part.span,
                        "The amount of " + task.name(i) + " in " + task.whose +
                            " is less than nothing.",
                        "Write an amount above 0.");
    }
}

void start_lines(Task& task) {
    task.lines.resize(task.formula.parts.size());
    for (std::uint32_t i = 0; i < task.lines.size(); ++i) {
        const PartAmount& amount = task.formula.parts[i].amount;
        Affine& line = task.lines[i];
        if (const auto* size = std::get_if<Share>(&amount))
            line.fixed = as_fraction(*size);
        else if (const auto* weight = std::get_if<Weight>(&amount))
            // Beside `enough` a weight is itself; else it is so many times the unknown.
            (task.enough != no_line ? line.fixed : line.times) = in_grams(weight->mass);
        else if (!std::holds_alternative<AsMuch>(amount))
            line.times = 1;
    }
}

/// "40 % soft base + 62 % Windfall mica = 102 %", cut where it is long.
std::string sum_words(const Task& task, const Exact& sum, bool with_names) {
    constexpr int most = 8;
    std::string text;
    int terms = 0;
    for (std::uint32_t i = 0; i < task.lines.size(); ++i) {
        if (task.lines[i].fixed.is_zero()) continue;
        if (++terms > most) continue;
        if (terms > 1) text += " + ";
        text += percent_words(share(task.lines[i].fixed));
        if (with_names) text += " " + task.name(i);
    }
    if (terms == 0) text = "0 %";
    if (terms <= 1) return text;
    if (terms > most) text += " + … (" + std::to_string(terms - most) + " more)";
    return text + " = " + percent_words(share(sum));
}

void say_off(Task& task, const Exact& sum) {
    bool much = sum > Exact(1);
    const Share by = share((sum - 1).abs());
    const std::string off = percent_words(by), exactly = exact_percent_words(by);
    task.report(Code::total_off, task.where,
                task.whose + " doesn't come to 100 %: " + sum_words(task, sum, false) + ", " + off +
                    (much ? " too much." : " too little."),
                much ? "Take " + exactly + " away, or let one line take the `rest`."
                     : "Add " + exactly + ", or let one line take the `rest`.");
}

void say_over(Task& task, const Exact& sum) {
    std::uint32_t line = task.rest != no_line ? task.rest : task.weight;
    std::string excess;
    if (sum != Exact(1)) excess = ", " + percent_words(share(sum - 1)) + " too much";
    Finding& finding = task.report(Code::total_over, task.formula.parts[line].span,
                                   "Nothing is left for " + task.name(line) + " in " + task.whose +
                                       ": " + sum_words(task, sum, true) + excess + ".",
                                   "Make the other shares smaller.");
    for (std::uint32_t i = 0; i < task.lines.size() && finding.notes.size() < 6; ++i)
        if (!task.lines[i].fixed.is_zero())
            finding.notes.push_back({task.formula.parts[i].span, "takes a share"});
}

/// Σ = 1 gives the unknown. False where it can't be.
bool settle_total(Task& task) {
    Formula& formula = task.formula;
    Affine sum;
    for (const Affine& line : task.lines) {
        sum.fixed += line.fixed;
        sum.times += line.times;
    }
    Exact left = 1 - sum.fixed, x;
    if (!left.known() || !sum.times.known()) return say_unknown(task, left, task.where), false;
    if (sum.times.is_zero()) {
        if (left != Exact()) return say_off(task, sum.fixed), false;
    } else {
        if (left.sign() < 0 || (left.is_zero() && task.rest == no_line))
            return say_over(task, sum.fixed), false;
        x = left / sum.times;
    }
    formula.shares.reserve(task.lines.size());
    for (const Affine& line : task.lines)
        formula.shares.push_back(
            share(line.times.is_zero() ? line.fixed : line.fixed + line.times * x));
    using By = Solving::By;
    By by = task.rest != no_line ? By::rest : task.weight != no_line ? By::weights : By::shares;
    formula.solving = {by, share(left), by == By::weights ? grams(sum.times) : Mass(), Mass()};
    return true;
}

/// A zero line that no one meant as one: not a member at the end of a family, where the other end
/// has none, and not a line that follows another to nothing.
bool surprising(const Task& task, const Part& part) {
    if (const auto* relative = std::get_if<AsMuch>(&part.amount)) return relative->factor.is_zero();
    return part.origin >= task.formulary.origins.size() ||
           task.formulary.origins[part.origin].kind != OriginKind::interpolated;
}

/// True where an edit made the line what it is: it is inherited, and can't be left out.
bool edited(const Formulary& formulary, const Part& part) {
    OriginId at = part.origin;
    while (at < formulary.origins.size()) {
        const Origin& origin = formulary.origins[at];
        if (origin.kind == OriginKind::set || origin.kind == OriginKind::scaled) return true;
        if (origin.kind != OriginKind::rebalanced && origin.kind != OriginKind::filled)
            return false;
        at = origin.before;
    }
    return false;
}

std::string nothing_advice(const Task& task, std::uint32_t line) {
    if (line == task.rest) return "The other lines make 100 % already: leave this one out.";
    if (edited(task.formulary, task.formula.parts[line]))
        return "Write `without " + task.name(line) + "`, or an amount above 0.";
    return "Leave the line out, or write an amount above 0.";
}

/// Takes the line out where it was written as nothing. A `rest` may be there for a variant, and an
/// amount with a hole for another member of the family.
std::vector<Fix> nothing_fix(const Task& task, std::uint32_t line) {
    const std::vector<Origin>& origins = task.formulary.origins;
    const Part& part = task.formula.parts[line];
    if (line == task.rest || part.origin >= origins.size()) return {};
    const Origin& origin = origins[part.origin];
    if (origin.kind != OriginKind::written || origin.before != no_origin) return {};
    return {possible_fix(origin.span, "")};
}

void judge_shares(Task& task) {
    Formula& formula = task.formula;
    for (std::uint32_t i = 0; i < formula.shares.size(); ++i) {
        const Exact& size = as_fraction(formula.shares[i]);
        if (!size.known()) {
            say_unknown(task, size, task.where);
            formula.shares.clear();
            return;
        }
        if (!size.is_zero() || !surprising(task, formula.parts[i])) continue;
        task.report(Code::amount_nothing, formula.parts[i].span,
                    "The amount of " + task.name(i) + " in " + task.whose +
                        " comes to exactly nothing.",
                    nothing_advice(task, i))
            .fixes = nothing_fix(task, i);
    }
}

}  // namespace

Findings solve(const Formulary& formulary, const Names& names, Formula& formula,
               const std::string& whose, Span where) {
    formula.shares.clear();
    formula.solving = {};
    Task task{formulary, names, formula, whose, where};
    if (formula.parts.empty()) {
        task.report(Code::formula_empty, where, whose + " has no ingredients.",
                    "Add a line such as `40 %   soft base`.");
        return std::move(task.findings);
    }
    for (const Part& part : formula.parts)
        if (part.what == no_ingredient) return {};
    solving::sort_lines(task);
    judge_numbers(task);
    if (!task.findings.empty()) return std::move(task.findings);
    for (const Part& part : formula.parts)
        if (!usable(formulary, part.what)) return {};
    start_lines(task);
    if (!solving::settle_relative(task)) return std::move(task.findings);
    bool found = task.enough != no_line ? solving::settle_enough(task) : settle_total(task);
    if (found) judge_shares(task);
    return std::move(task.findings);
}

}  // namespace levigate
