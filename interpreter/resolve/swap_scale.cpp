// The edits that keep a line: `swap` changes its name, `scale` its amount.

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/editing.hpp"

namespace levigate::resolving {

namespace {

void follow_swap(Editing& editing, IngredientId from, IngredientId to) {
    for (WorkPart& part : editing.recipe.parts) {
        Ref* ref = nullptr;
        if (auto* as_much = std::get_if<AsMuch>(&part.part.amount)) ref = &as_much->ref;
        if (auto* enough = std::get_if<Enough>(&part.part.amount)) ref = &enough->ref;
        if (ref && ref->kind == Ref::Kind::ingredient && ref->ingredient == from)
            ref->ingredient = to;
    }
    swap_dilutions(editing.recipe, from, to);
    for (auto* texts : {&editing.recipe.steps, &editing.recipe.notes})
        for (TextId& text : *texts) text = swapped_text(editing.context, text, from, to);
}

}  // namespace

namespace {

/// What was to be swapped goes, as it was meant to: what follows is judged as if it had gone well.
void refuse_swap(Editing& editing, IngredientId from) {
    std::erase_if(editing.recipe.parts,
                  [&](const WorkPart& part) { return part.part.what == from; });
    editing.broken();
}

}  // namespace

namespace {

bool bare(const Context& context, const Name& name) {
    const std::uint32_t begin = name.span.begin;
    return !name.hole && begin > 0 && context.sources[name.span.source].text[begin - 1] <= ' ';
}

/// True if the formula has a line of what the name names.
bool has_line(const Editing& editing, std::string_view name) {
    const Context& context = editing.context;
    const Sym sym = context.names.find(name);
    const bool entered = sym < context.ingredient_of.size();
    const auto& parts = editing.recipe.parts;
    return std::any_of(parts.begin(), parts.end(), [&](const WorkPart& part) {
        return context.out.ingredients[part.part.what].sym == sym ||
               (entered && context.ingredient_of[sym] == part.part.what);
    });
}

/// `swap Salt for Two for van`: a bare name ends at the first `for`, and nothing is called so.
/// If the line reads at another `for`, quotes are missing, and that is all there is to say.
bool parts_at_another_for(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const auto& swap = std::get<tree::Swap>(line.body);
    if (!bare(context, swap.old_name) || !bare(context, swap.new_name)) return false;
    const auto known = [&](std::string_view name) {
        return names_something(context, context.names.find(name));
    };
    if (known(context.sources.text(swap.old_name.span))) return false;
    const Span both = cover(swap.old_name.span, swap.new_name.span);
    const std::string words = context.written(both);
    const Span whole = cover(line.word(), both);
    std::vector<Fix> fixes;
    bool certain = true;
    for (std::size_t at = words.find(" for "); at != words.npos; at = words.find(" for ", at + 1)) {
        const std::string from = words.substr(0, at), to = words.substr(at + 5);
        if (!known(from) || !known(to)) continue;
        fixes.push_back(possible_fix(whole, fmt::format("swap \"{}\" for \"{}\"", from, to)));
        certain = certain && has_line(editing, from) && !has_line(editing, to);
    }
    if (fixes.empty()) return false;
    fixes.front().certain = certain && fixes.size() == 1;
    report(context, {.code = Code::name_unknown,
                     .message = fmt::format("Nothing is called {}: a bare name ends before the "
                                            "first `for`.",
                                            context.written(swap.old_name.span)),
                     .span = swap.old_name.span,
                     .fixes = std::move(fixes)});
    return true;
}

}  // namespace

void swap_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const auto& swap = std::get<tree::Swap>(line.body);
    if (parts_at_another_for(editing, line)) return editing.broken();
    const IngredientId from = find_ingredient(context, swap.old_name, editing.env);
    const IngredientId to = find_ingredient(context, swap.new_name, editing.env);
    if (from == no_ingredient) return editing.broken();
    if (to == no_ingredient) return refuse_swap(editing, from);
    if (twice(editing, Form::swap, from, swap.old_name.span)) return;
    WorkPart* there = editing.find(from);
    if (!there) return report_missing(editing, from, swap.old_name.span);
    const WorkPart* other = from == to ? nullptr : editing.find(to);
    if (other) {
        editing.say(
            {.code = Code::swap_present,
             .message = fmt::format("{} is in {} already, so it can't take the place "
                                    "of {}.",
                                    context.out.name(to), editing.whose, context.out.name(from)),
             .span = swap.new_name.span,
             .advice = fmt::format("Write `without {}`, and `set` {} to both amounts "
                                   "together.",
                                   context.out.name(from), context.out.name(to)),
             .notes = {{other->part.name_span, "already there"}}});
        return refuse_swap(editing, from);
    }
    there->part.what = to;
    there->part.ambiguous = ambiguous_name(context, swap.new_name, editing.env);
    // A swap changes nothing about its line: what was set stands in a rebalance under its new name.
    for (IngredientId& touched : editing.touched)
        if (touched == from) touched = to;
    there->part.name_span = swap.new_name.span;
    there->part.origin = add_origin(context, {.kind = OriginKind::swapped,
                                              .span = line.span,
                                              .before = there->part.origin,
                                              .was = from,
                                              .value = {}});
    follow_swap(editing, from, to);
}

namespace {

/// The lines whose size the scaling of `scaled` moves by its factor: these, and those that are as
/// much as something which moves as a whole. Spreads from line to line over what looks at them.
class Moved {
public:
    Moved(const Editing& editing, const std::vector<bool>& scaled)
        : formulary_(editing.context.out), parts_(editing.recipe.parts), moved_(scaled) {
        for (std::size_t i = 0; i < parts_.size(); ++i)
            if (const AsMuch* amount = relative(i)) watch(*amount, i);
        for (auto& [role, seen] : roles_)
            for (const WorkPart& part : parts_)
                if (holds(part.part.what, role)) ++seen.still, seen.any = true;
        for (std::uint32_t i = 0; i < parts_.size(); ++i)
            if (moved_[i]) fresh_.push_back(i);
        for (std::size_t next = 0; next < fresh_.size(); ++next) spread(fresh_[next]);
    }

    /// True where all that the line looks at moves. What is not there yet doesn't.
    bool whole(const AsMuch& amount) const {
        if (amount.ref.kind == Ref::Kind::role) {
            const Watched& seen = roles_.at(amount.ref.role);
            return seen.any && seen.still == 0;
        }
        const auto is_it = [&](const WorkPart& part) {
            return part.part.what == amount.ref.ingredient;
        };
        const auto at = std::find_if(parts_.begin(), parts_.end(), is_it);
        return at != parts_.end() && moved_[static_cast<std::size_t>(at - parts_.begin())];
    }

private:
    struct Watched {
        std::size_t still = 0;  ///< lines that hold some of it and don't move
        bool any = false;       ///< some line holds some of it
        std::vector<std::size_t> by{};
    };

    const AsMuch* relative(std::size_t i) const {
        return std::get_if<AsMuch>(&parts_[i].part.amount);
    }
    bool holds(IngredientId what, Sym role) const {
        return !(role_in(formulary_, what, role) == Share());
    }
    void watch(const AsMuch& amount, std::size_t by) {
        if (amount.ref.kind == Ref::Kind::role)
            roles_[amount.ref.role].by.push_back(by);
        else
            names_[amount.ref.ingredient].push_back(by);
    }
    void move(const std::vector<std::size_t>& lines) {
        for (const std::size_t line : lines) {
            if (moved_[line]) continue;
            moved_[line] = true;
            fresh_.push_back(line);
        }
    }
    void spread(std::size_t line) {
        const IngredientId what = parts_[line].part.what;
        if (const auto named = names_.find(what); named != names_.end()) move(named->second);
        for (auto& [role, seen] : roles_)
            if (holds(what, role) && --seen.still == 0) move(seen.by);
    }

    const Formulary& formulary_;
    const std::vector<WorkPart>& parts_;
    std::vector<bool> moved_;
    std::vector<std::size_t> fresh_;
    std::unordered_map<IngredientId, std::vector<std::size_t>> names_;
    std::unordered_map<Sym, Watched> roles_;
};

void scale_part(Editing& editing, WorkPart& part, const Exact& by, bool keeps, Span span) {
    if (!keeps) {
        if (auto* share_of_it = std::get_if<Share>(&part.part.amount))
            *share_of_it = share(as_fraction(*share_of_it) * by);
        if (auto* weight = std::get_if<Weight>(&part.part.amount))
            weight->mass = grams(in_grams(weight->mass) * by);
        if (auto* as_much = std::get_if<AsMuch>(&part.part.amount)) as_much->factor *= by;
        if (part.poured) part.poured->value *= by;
        part.part.origin = add_origin(
            editing.context,
            {.kind = OriginKind::scaled, .span = span, .before = part.part.origin, .value = by});
    }
    editing.touched.push_back(part.part.what);
}

}  // namespace

void scale_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const auto& scale = std::get<tree::Scale>(line.body);
    const auto ref = resolve_ref(context, scale.what, false, editing.env);
    const auto by = evaluate_factor(context, editing.at.file, scale.factor, editing.env);
    if (!ref || !by) return editing.broken();
    if (twice(editing, Form::scale, *ref, scale.what.span)) return;
    auto& parts = editing.recipe.parts;
    std::vector<bool> scaled(parts.size());
    bool any = false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const IngredientId what = parts[i].part.what;
        scaled[i] = ref->kind == Ref::Kind::ingredient
                        ? what == ref->ingredient
                        : context.out.ingredients[what].role == ref->role;
        if (!scaled[i]) continue;
        any = true;
        if (std::holds_alternative<Rest>(parts[i].part.amount) ||
            std::holds_alternative<Enough>(parts[i].part.amount)) {
            editing.say(
                {.code = Code::scale_rest,
                 .message = fmt::format("{} takes what the other lines leave, so it "
                                        "can't be scaled.",
                                        context.out.name(what)),
                 .span = scale.what.span,
                 .advice = "Scale the other lines: the rest follows by itself.",
                 .notes = {{parts[i].part.span, std::holds_alternative<Rest>(parts[i].part.amount)
                                                    ? "it is the rest here"
                                                    : "as much as is enough"}}});
            return editing.broken();
        }
    }
    if (!any) {
        if (ref->kind == Ref::Kind::ingredient)
            return report_missing(editing, ref->ingredient, scale.what.span);
        if (!editing.recipe.broken && !any_ambiguous(context, editing.recipe))
            editing.say(
                {.code = Code::role_empty,
                 .message = fmt::format("No line of {} has the role {} itself.", editing.whose,
                                        role_words(context.out, context.names, ref->role)),
                 .span = scale.what.span,
                 .advice = "Write the name of a line."});
        return editing.broken();
    }
    const Moved moved(editing, scaled);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (!scaled[i]) continue;
        const auto* as_much = std::get_if<AsMuch>(&parts[i].part.amount);
        scale_part(editing, parts[i], *by, as_much && moved.whole(*as_much), line.span);
    }
}

}  // namespace levigate::resolving
