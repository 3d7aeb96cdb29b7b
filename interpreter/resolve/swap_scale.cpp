// The edits that keep a line: `swap` changes its name, `scale` its amount.

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
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
    for (auto* texts : {&editing.recipe.steps, &editing.recipe.notes})
        for (TextId& text : *texts) text = swapped_text(editing.context, text, from, to);
}

}  // namespace

void swap_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const auto& swap = std::get<tree::Swap>(line.body);
    const IngredientId from = find_ingredient(context, swap.old_name, editing.env);
    const IngredientId to = find_ingredient(context, swap.new_name, editing.env);
    if (from == no_ingredient || to == no_ingredient) return editing.broken();
    if (twice(editing, Form::swap, from, swap.old_name.span)) return;
    WorkPart* there = editing.find(from);
    if (!there) return report_missing(editing, from, swap.old_name.span, {});
    const WorkPart* other = from == to ? nullptr : editing.find(to);
    if (other) {
        report(context, {.code = "swap-present",
                         .message = fmt::format("{} is in {} already, so it can't take the place "
                                                "of {}.",
                                                context.out.name(to), editing.whose(),
                                                context.out.name(from)),
                         .span = swap.new_name.span,
                         .remedy = fmt::format("Write `without {}`, and `set` {} to both amounts "
                                               "together.",
                                               context.out.name(from), context.out.name(to)),
                         .labels = {{other->part.name_span, "already there"}}});
        return editing.broken();
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

bool scaled_too(const Editing& editing, const AsMuch& amount, const std::vector<bool>& scaled) {
    const auto& parts = editing.recipe.parts;
    bool any = false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const IngredientId what = parts[i].part.what;
        const bool meant = amount.ref.kind == Ref::Kind::ingredient
                               ? what == amount.ref.ingredient
                               : editing.context.out.ingredients[what].role == amount.ref.role;
        if (!meant) continue;
        if (!scaled[i]) return false;
        any = true;
    }
    return any;
}

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
        if (twice(editing, Form::scale, what, scale.what.span)) return;
        if (std::holds_alternative<Rest>(parts[i].part.amount) ||
            std::holds_alternative<Enough>(parts[i].part.amount)) {
            report(context, {.code = "scale-rest",
                             .message = fmt::format("{} takes what the other lines leave, so it "
                                                    "can't be scaled.",
                                                    context.out.name(what)),
                             .span = scale.what.span,
                             .remedy = "Scale the other lines: the rest follows by itself.",
                             .labels = {{parts[i].part.span, "it is the rest here"}}});
            return editing.broken();
        }
    }
    if (!any) {
        if (ref->kind == Ref::Kind::ingredient)
            return report_missing(editing, ref->ingredient, scale.what.span, {});
        if (!editing.recipe.broken && !any_ambiguous(context, editing.recipe))
            report(context,
                   {.code = "role-empty",
                    .message = fmt::format("No line of {} has the role {} itself.", editing.whose(),
                                           role_words(context.out, context.names, ref->role)),
                    .span = scale.what.span,
                    .remedy = "Write the name of a line."});
        return editing.broken();
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (!scaled[i]) continue;
        const auto* as_much = std::get_if<AsMuch>(&parts[i].part.amount);
        scale_part(editing, parts[i], *by, as_much && scaled_too(editing, *as_much, scaled),
                   line.span);
    }
}

}  // namespace levigate::resolving
