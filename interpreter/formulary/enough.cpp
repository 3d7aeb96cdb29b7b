// `enough NAME to bring REF to 5 %`: how a stronger mix is let down. All other lines are weights,
// so with x the weight of NAME, what there is of REF and the whole are both fixed + times × x, and
// one division finds x.

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/solving.hpp"

namespace levigate::solving {
namespace {

/// How much of each line is what REF means.
std::vector<Share> content_by_line(const Task& task, const Ref& ref) {
    if (ref.kind == Ref::Kind::ingredient)
        return content_by_part(task.formulary, task.formula, ref.ingredient);
    std::vector<Share> content;
    for (const Part& part : task.formula.parts)
        content.push_back(role_in(task.formulary, part.what, ref.role));
    return content;
}

/// Nothing in the formula is what REF means.
void say_nothing_of(Task& task, const Ref& ref) {
    for (const Part& part : task.formula.parts)
        if (task.formulary.ingredients[part.what].damaged) return;
    bool role = ref.kind == Ref::Kind::role;
    std::string name = ref_words(task.formulary, task.names, ref);
    task.report(role ? Code::role_empty : Code::reference_unknown, ref.span,
                "Nothing in " + task.whose + " is or holds " + name + ".",
                "Name something that one of the other lines holds.");
}

struct Letdown {
    Affine content, whole;
};

void say_impossible(Task& task, const Enough& enough, const Letdown& sums, const Share& own) {
    const Part& part = task.formula.parts[task.enough];
    std::string ref = ref_words(task.formulary, task.names, enough.ref);
    std::string due = percent_words(enough.share), reason;
    if (sums.whole.fixed.is_zero()) {
        reason = "there is nothing else in it";
    } else {
        Share now = share(sums.content.fixed / sums.whole.fixed);
        if (now < enough.share)
            reason = "it is already below " + due + " (" + percent_words(now) + ")";
        else if (now > enough.share)
            reason = task.name(task.enough) + " holds " + percent_words(own) + " of it itself";
        else
            reason = "any amount would do, since " + task.name(task.enough) + " holds " + due +
                     " of it too";
    }
    task.report(Code::enough_impossible, part.span,
                "No amount of " + task.name(task.enough) + " brings " + ref + " to " + due + ": " +
                    reason + ".",
                "Change the share that is due, or use something else for it.");
}

}  // namespace

bool settle_enough(Task& task) {
    Formula& formula = task.formula;
    const Enough& enough = std::get<Enough>(formula.parts[task.enough].amount);
    std::vector<Share> content = content_by_line(task, enough.ref);
    Letdown sums;
    bool any = false;
    for (std::size_t i = 0; i < task.lines.size(); ++i) {
        const Exact& part = as_fraction(content[i]);
        any = any || !part.is_zero();
        sums.whole.fixed += task.lines[i].fixed;
        sums.whole.times += task.lines[i].times;
        sums.content.fixed += part * task.lines[i].fixed;
        sums.content.times += part * task.lines[i].times;
    }
    if (!any) {
        say_nothing_of(task, enough.ref);
        return false;
    }
    const Exact& due = as_fraction(enough.share);
    Exact missing = due * sums.whole.fixed - sums.content.fixed;
    Exact gain = sums.content.times - due * sums.whole.times;
    bool stuck = gain.is_zero() || sums.whole.fixed.is_zero();
    Exact x = stuck ? Exact() : missing / gain;
    if (stuck || x.sign() < 0) {
        say_impossible(task, enough, sums, content[task.enough]);
        return false;
    }
    Exact total = sums.whole.fixed + sums.whole.times * x;
    for (const Affine& line : task.lines)
        formula.shares.push_back(share((line.fixed + line.times * x) / total));
    formula.solving = {Solving::By::weights, share(1), grams(total), grams(x)};
    return true;
}

}  // namespace levigate::solving
