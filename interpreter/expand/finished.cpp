#include "interpreter/expand/finished.hpp"

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"

namespace levigate {
namespace {

using Size = FinishScratch::Size;

struct Task {
    const Formulary& formulary;
    const Names& names;
    const Formula& bulk;
    const Finishing& finishing;
    const std::string& shade;
    Span where;
    FinishScratch& scratch;
    Findings& findings;

    const std::string& finish_name() const { return formulary.finishes[finishing.finish].name; }
    void report(Code code, Span span, std::string message, std::string advice) {
        findings.push_back({code, std::move(message), span, std::move(advice)});
        findings.back().notes.push_back({where, "for this shade"});
    }
};

Share role_share(const Task& task, Sym role) {
    Share sum;
    for (std::size_t i = 0; i < task.bulk.parts.size(); ++i) {
        Share inside = role_in(task.formulary, task.bulk.parts[i].what, role);
        if (inside != Share()) sum += task.bulk.shares[i] * inside;
    }
    return sum;
}

void say_missing(Task& task, const Ref& ref) {
    bool role = ref.kind == Ref::Kind::role;
    if (role)
        for (const Part& part : task.bulk.parts)
            if (task.formulary.ingredients[part.what].damaged) return;
    std::string name = ref_words(task.formulary, task.names, ref);
    // A finish of the library can't be written to: what is missing is missing in the shade.
    const Finish& finish = task.formulary.finishes[task.finishing.finish];
    std::string advice =
        role ? role_advice(task.formulary, task.names, task.bulk, ref.role) + "; or leave"
             : "Leave";
    advice += " this finish out of the shade";
    if (!finish.library) advice += ", or name `the bulk` in it instead";
    task.report(role ? Code::role_empty : Code::reference_unknown,
                finish.library ? task.where : ref.span,
                task.finish_name() + " adds as much as " + name + ", and " + task.shade +
                    (role ? " holds nothing of that role." : " has no such line."),
                advice + ".");
    if (finish.library) task.findings.back().notes.clear();
}

/// k × what REF comes to in the bulk. Nothing where the bulk doesn't hold it.
std::optional<Exact> in_bulk(const Task& task, const Ref& ref) {
    if (ref.kind == Ref::Kind::bulk) return Exact(1);
    if (ref.kind == Ref::Kind::role) {
        Share sum = role_share(task, ref.role);
        if (sum == Share()) return std::nullopt;
        return as_fraction(sum);
    }
    const std::uint32_t* place = task.scratch.places.find(ref.ingredient);
    if (!place) return std::nullopt;
    return as_fraction(task.bulk.shares[*place]);
}

constexpr std::size_t no_addition = static_cast<std::size_t>(-1);

std::size_t find_addition(const Task& task, IngredientId what) {
    const std::vector<Addition>& additions = task.finishing.additions;
    for (std::size_t i = 0; i < additions.size(); ++i)
        if (additions[i].what == what) return i;
    return no_addition;
}

/// Sets the size if it doesn't hang on an addition that is still unknown; else returns that one.
/// `fine` is false where there is nothing to look at.
std::size_t try_size(Task& task, std::size_t at, bool& fine) {
    const Addition& addition = task.finishing.additions[at];
    Size& size = task.scratch.sizes[at];
    if (const Share* fixed = std::get_if<Share>(&addition.amount)) {
        size.fixed = as_fraction(*fixed);
    } else {
        const AsMuch& relative = std::get<AsMuch>(addition.amount);
        if (std::optional<Exact> part = in_bulk(task, relative.ref)) {
            size.bulks = relative.factor * *part;
        } else {
            std::size_t other = relative.ref.kind == Ref::Kind::ingredient
                                    ? find_addition(task, relative.ref.ingredient)
                                    : no_addition;
            if (other == no_addition) {
                say_missing(task, relative.ref);
                fine = false;
                return no_addition;
            }
            const Size& seen = task.scratch.sizes[other];
            if (seen.state != Size::State::done) return other;
            size.fixed = relative.factor * seen.fixed;
            size.bulks = relative.factor * seen.bulks;
        }
    }
    size.state = Size::State::done;
    return no_addition;
}

/// Each addition hangs on one other at most, so a chain is followed to its end and back.
bool size_additions(Task& task) {
    std::vector<Size>& sizes = task.scratch.sizes;
    sizes.assign(task.finishing.additions.size(), {});
    std::vector<std::size_t> chain;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        if (sizes[i].state == Size::State::done) continue;
        chain.assign(1, i);
        while (!chain.empty()) {
            bool fine = true;
            std::size_t at = chain.back(), other = try_size(task, at, fine);
            if (!fine) return false;
            if (other == no_addition) {
                chain.pop_back();
                continue;
            }
            sizes[at].state = Size::State::open;
            if (sizes[other].state == Size::State::open) {
                const Addition& first = task.finishing.additions[other];
                task.report(Code::relative_loop, first.span,
                            "What " + task.finish_name() + " adds of " +
                                task.formulary.name(first.what) + " depends on itself.",
                            "Give one of these lines an amount of its own.");
                return false;
            }
            chain.push_back(other);
        }
    }
    return true;
}

bool judge(Task& task, const Exact& fixed, const Exact& bulk) {
    for (std::size_t i = 0; i < task.scratch.sizes.size(); ++i) {
        const Addition& addition = task.finishing.additions[i];
        const Size& size = task.scratch.sizes[i];
        if (size.fixed.sign() > 0 || size.bulks.sign() > 0) continue;
        bool zero = size.fixed.is_zero() && size.bulks.is_zero();
        if (!zero && size.fixed.sign() == 0 && size.bulks.sign() == 0) continue;  // unknown
        task.report(zero ? Code::amount_nothing : Code::amount_negative, addition.span,
                    "What " + task.finish_name() + " adds of " +
                        task.formulary.name(addition.what) + " is " +
                        (zero ? "exactly nothing." : "less than nothing."),
                    "Write an amount above 0.");
        if (!zero) return false;
    }
    if (fixed.known() && bulk.known() && fixed < Exact(1)) return true;
    const Span span = task.finishing.additions.front().span;
    if (fixed.known() && bulk.known())
        task.report(Code::finish_over, span,
                    "What " + task.finish_name() + " adds comes to " + percent_words(share(fixed)) +
                        " of the finished whole, which leaves nothing for " + task.shade + ".",
                    "Make its shares come to less than 100 %.");
    else
        task.report(Code::number_too_long, span,
                    "What " + task.finish_name() + " adds to " + task.shade + " grows beyond " +
                        std::to_string(digit_cap) + " digits.",
                    "Use rounder numbers.");
    return false;
}

void start_lines(const Formula& bulk, Finished& out) {
    out.lines.clear();
    out.lines.reserve(bulk.parts.size() + 4);
    for (std::size_t i = 0; i < bulk.parts.size(); ++i) {
        const Part& part = bulk.parts[i];
        out.lines.push_back(
            {part.what, bulk.shares[i], Share(), part.span, part.name_span, part.estimated, false});
    }
}

void add_lines(Task& task, Finished& out) {
    const Exact& bulk = as_fraction(out.bulk);
    for (FinishedLine& line : out.lines) line.share = line.share * out.bulk;
    for (std::size_t i = 0; i < task.scratch.sizes.size(); ++i) {
        const Addition& addition = task.finishing.additions[i];
        const Size& size = task.scratch.sizes[i];
        Share more = share(size.bulks.is_zero() ? size.fixed : size.fixed + size.bulks * bulk);
        if (const std::uint32_t* place = task.scratch.places.find(addition.what)) {
            FinishedLine& line = out.lines[*place];
            line.share += more;
            line.added += more;
            line.estimated = line.estimated || addition.estimated;
            line.addition = true;
            continue;
        }
        task.scratch.places[addition.what] = static_cast<std::uint32_t>(out.lines.size());
        out.lines.push_back({addition.what, more, more, addition.span, addition.name_span,
                             addition.estimated, true});
    }
}

}  // namespace

bool finish(const Formulary& formulary, const Names& names, const Formula& bulk,
            const Finishing* finishing, const std::string& shade, Span where,
            FinishScratch& scratch, Finished& out, Findings& findings) {
    if (!bulk.solved()) return false;
    start_lines(bulk, out);
    out.bulk = share(1);
    if (!finishing || (!finishing->broken && finishing->additions.empty())) return true;
    if (finishing->broken) return false;
    for (const Addition& addition : finishing->additions)
        if (!usable(formulary, addition.what)) return false;
    scratch.places.clear(formulary.ingredients.size());
    for (std::uint32_t i = 0; i < bulk.parts.size(); ++i) scratch.places[bulk.parts[i].what] = i;
    Task task{formulary, names, bulk, *finishing, shade, where, scratch, findings};
    if (!size_additions(task)) return false;
    Exact fixed, bulks = 1;
    for (const Size& size : scratch.sizes) {
        fixed += size.fixed;
        bulks += size.bulks;
    }
    Exact bulk_share = (1 - fixed) / bulks;
    if (!judge(task, fixed, bulk_share)) return false;
    out.bulk = levigate::share(bulk_share);
    add_lines(task, out);
    return true;
}

}  // namespace levigate
