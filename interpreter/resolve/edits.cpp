// Edits: what `like` shades, blends and variants do to a formula, line by line, top to bottom.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "grammar/near.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

struct Done {
    Form form;
    IngredientId what;
    Span span;
};

struct Editing {
    Context& context;
    At at;
    Env& env;
    Recipe& recipe;
    bool edits;
    std::vector<Done> done{};
    std::vector<IngredientId> touched{};  ///< set, added or scaled here: they stand in a rebalance
    Span rebalance{};

    std::string whose() const { return context.written(context.block(at).name.span); }
    WorkPart* find(IngredientId what) {
        for (WorkPart& part : recipe.parts)
            if (part.part.what == what) return &part;
        return nullptr;
    }
    void broken() { recipe.broken = true; }
};

/// The same edit twice on one name is a slip.
bool twice(Editing& editing, Form form, IngredientId what, Span span) {
    for (const Done& one : editing.done) {
        if (one.form != form || one.what != what) continue;
        report(editing.context,
               {.code = "edit-twice",
                .message = fmt::format("{} {} stands here twice.", entry(form).word,
                                       editing.context.out.name(what)),
                .span = span, .remedy = "one of the two lines less",
                .labels = {{one.span, "already here"}}, .here = "again here"});
        editing.broken();
        return true;
    }
    editing.done.push_back({form, what, span});
    return false;
}

std::string near_line(const Editing& editing, IngredientId wanted) {
    std::string lines;
    const std::string& written = editing.context.out.name(wanted);
    for (const WorkPart& part : editing.recipe.parts)
        if (is_near(written, editing.context.out.name(part.part.what)))
            return editing.context.out.name(part.part.what);
    std::vector<std::string> all;
    for (const WorkPart& part : editing.recipe.parts)
        all.push_back(editing.context.out.name(part.part.what));
    return all.empty() ? "a formula with lines" : "one of its lines: " + list_words(all);
}

void report_missing(Editing& editing, IngredientId what, Span span, std::string_view instead) {
    std::string remedy = near_line(editing, what);
    if (!instead.empty()) remedy = fmt::format("{}; or {}", instead, remedy);
    if (!editing.recipe.broken)
        report(editing.context,
               {.code = "edit-missing",
                .message = fmt::format("{} is not in {}.", editing.context.out.name(what),
                                       editing.whose()),
                .span = span, .remedy = std::move(remedy)});
    editing.broken();
}

OriginId amount_origin(Editing& editing, OriginKind kind, Span span, const ResolvedLine& line,
                       OriginId before) {
    if (line.filled != no_origin) {
        editing.context.out.origins[line.filled].before = before;
        before = line.filled;
    }
    const Exact value = line.poured ? line.poured->value : amount_value(*line.amount);
    return add_origin(editing.context, {.kind = kind, .span = span, .before = before,
                                        .value = value, .from = {}, .to = {}, .part = {}});
}

Part make_part(const ResolvedLine& line, Span span, OriginId origin) {
    Part part;
    part.what = line.what;
    part.amount = *line.amount;
    part.origin = origin;
    part.span = span;
    part.name_span = line.name_span;
    return part;
}

bool usable_line(Editing& editing, const ResolvedLine& line) {
    if (line.what != no_ingredient && line.amount) return true;
    editing.broken();
    return false;
}

/// An ingredient line of a first formula.
void write_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const ResolvedLine found = resolve_line(context, editing.at.file, line, editing.env, false);
    if (!usable_line(editing, found)) return;
    if (const WorkPart* there = editing.find(found.what)) {
        report(context, {.code = "name-twice",
                         .message = fmt::format("{} stands twice in {}.",
                                                context.out.name(found.what), editing.whose()),
                         .span = found.name_span,
                         .remedy = "one line with both amounts added",
                         .labels = {{there->part.name_span, "already there"}}, .here = "added here"});
        editing.broken();
        return;
    }
    const OriginId origin = amount_origin(editing, OriginKind::written, line.span, found, no_origin);
    editing.recipe.parts.push_back({make_part(found, line.span, origin), found.poured});
}

void plain_line(Editing& editing, const tree::Line& line) {
    const tree::Block& block = editing.context.block(editing.at);
    const std::string text = editing.context.written(line.span);
    const std::string of = block.like ? fmt::format(" {} is like {}, so", editing.whose(),
                                                    editing.context.written(block.like.span))
                                      : std::string(" A variant changes a shade, so");
    report(editing.context,
           {.code = "edit-plain-line",
            .message = fmt::format("Is this amount to be set or added?{} it needs a word for it.",
                                   of),
            .span = line.span,
            .remedy = fmt::format("`set {0}` to change a line, `add {0}` for a new one", text)});
    editing.broken();
}

void set_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const ResolvedLine found = resolve_line(context, editing.at.file, line, editing.env, false);
    if (!usable_line(editing, found) || twice(editing, Form::set, found.what, found.name_span))
        return;
    WorkPart* there = editing.find(found.what);
    if (!there) return report_missing(editing, found.what, found.name_span, "`add` in place of `set`");
    const OriginId origin =
        amount_origin(editing, OriginKind::set, line.span, found, there->part.origin);
    there->part = make_part(found, line.span, origin);
    there->poured = found.poured;
    editing.touched.push_back(found.what);
}

void add_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const ResolvedLine found = resolve_line(context, editing.at.file, line, editing.env, false);
    if (!usable_line(editing, found) || twice(editing, Form::add, found.what, found.name_span))
        return;
    if (const WorkPart* there = editing.find(found.what)) {
        report(context, {.code = "edit-present",
                         .message = fmt::format("{} is in {} already.", context.out.name(found.what),
                                                editing.whose()),
                         .span = found.name_span,
                         .remedy = fmt::format("`set {}` in place of `add`",
                                               context.out.name(found.what)),
                         .labels = {{there->part.name_span, "already there"}},
                         .here = "added here"});
        editing.broken();
        return;
    }
    const OriginId origin = amount_origin(editing, OriginKind::added, line.span, found, no_origin);
    editing.recipe.parts.push_back({make_part(found, line.span, origin), found.poured});
    editing.touched.push_back(found.what);
}

void without_line(Editing& editing, const tree::Line& line) {
    const Name name = std::get<tree::Without>(line.body).name;
    const IngredientId gone = find_ingredient(editing.context, name, editing.env);
    if (gone == no_ingredient) return editing.broken();
    if (twice(editing, Form::without, gone, name.span)) return;
    if (!editing.find(gone)) return report_missing(editing, gone, name.span, "the file without this line");
    std::erase_if(editing.recipe.parts, [&](const WorkPart& part) { return part.part.what == gone; });
}

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
                                                "of {}.", context.out.name(to), editing.whose(),
                                                context.out.name(from)),
                         .span = swap.new_name.span,
                         .remedy = fmt::format("`without {}` and `set` {} to both amounts together",
                                               context.out.name(from), context.out.name(to)),
                         .labels = {{other->part.name_span, "already there"}}});
        return editing.broken();
    }
    there->part.what = to;
    there->part.name_span = swap.new_name.span;
    there->part.origin = add_origin(context, {.kind = OriginKind::swapped, .span = line.span,
                                              .before = there->part.origin, .was = from,
                                              .value = {}, .from = {}, .to = {}, .part = {}});
    follow_swap(editing, from, to);
}

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
        if (auto* share_of_it = std::get_if<Share>(&part.part.amount)) *share_of_it = share(as_fraction(*share_of_it) * by);
        if (auto* weight = std::get_if<Weight>(&part.part.amount)) weight->mass = grams(in_grams(weight->mass) * by);
        if (auto* as_much = std::get_if<AsMuch>(&part.part.amount)) as_much->factor *= by;
        if (part.poured) part.poured->value *= by;
        part.part.origin = add_origin(editing.context,
                                      {.kind = OriginKind::scaled, .span = span,
                                       .before = part.part.origin, .value = by, .from = {},
                                       .to = {}, .part = {}});
    }
    editing.touched.push_back(part.part.what);
}

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
                                                    "can't be scaled.", context.out.name(what)),
                             .span = scale.what.span,
                             .remedy = "scale the other lines: it follows by itself",
                             .labels = {{parts[i].part.span, "it is the rest here"}}});
            return editing.broken();
        }
    }
    if (!any) {
        if (ref->kind == Ref::Kind::ingredient)
            return report_missing(editing, ref->ingredient, scale.what.span, {});
        if (!editing.recipe.broken)
            report(context, {.code = "role-empty",
                             .message = fmt::format("No line of {} has the role {} itself.",
                                                    editing.whose(),
                                                    role_words(context.out, context.names, ref->role)),
                             .span = scale.what.span, .remedy = "the name of a line"});
        return editing.broken();
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (!scaled[i]) continue;
        const auto* as_much = std::get_if<AsMuch>(&parts[i].part.amount);
        scale_part(editing, parts[i], *by, as_much && scaled_too(editing, *as_much, scaled),
                   line.span);
    }
}

/// An edit where there is nothing to edit.
bool edit_without_like(Editing& editing, const tree::Line& line) {
    if (editing.edits) return false;
    if (line.form == Form::rebalance)
        report(editing.context, {.code = "rebalance-misplaced",
                                 .message = "`rebalance` works on an inherited formula, and this "
                                            "one is like no other.",
                                 .span = line.word,
                                 .remedy = "`rest` on the line that is to take up the change"});
    else
        report(editing.context,
               {.code = "edit-missing",
                .message = fmt::format("`{}` changes an inherited formula, and {} is like no "
                                       "other.", entry(line.form).word, editing.whose()),
                .span = line.word,
                .remedy = line.form == Form::add ? "the line without `add`"
                                                 : "`like NAME` in the heading, or plain lines"});
    editing.broken();
    return true;
}

void apply_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    switch (line.form) {
        case Form::ingredient:
            return editing.edits ? plain_line(editing, line) : write_line(editing, line);
        case Form::step:
            return editing.recipe.steps.push_back(
                make_text(context, editing.at.file, line, editing.env));
        case Form::note:
            return editing.recipe.notes.push_back(
                make_text(context, editing.at.file, line, editing.env));
        case Form::set: case Form::add: case Form::without: case Form::swap: case Form::scale:
        case Form::rebalance: break;
        default: return;
    }
    if (edit_without_like(editing, line)) return;
    switch (line.form) {
        case Form::set: return set_line(editing, line);
        case Form::add: return add_line(editing, line);
        case Form::without: return without_line(editing, line);
        case Form::swap: return swap_line(editing, line);
        case Form::scale: return scale_line(editing, line);
        default: editing.rebalance = line.word;
    }
}

}  // namespace

void apply_block(Context& context, At at, Env& env, Recipe& recipe, bool edits) {
    const tree::Block& block = context.block(at);
    Editing editing{context, at, env, recipe, edits};
    if (block.formula_lost) recipe.broken = true;
    if (block.count > longest_formula) {
        report(context, {.code = "formula-too-long",
                         .message = fmt::format("{} has more than {} lines.", editing.whose(),
                                                longest_formula),
                         .span = block.name.span, .remedy = "blends for parts of it"});
        return editing.broken();
    }
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form != Form::fresh) continue;
        const auto what = std::get<tree::Fresh>(line->body).what;
        if (what == tree::Inherited::steps) recipe.steps.clear();
        if (what == tree::Inherited::notes) recipe.notes.clear();
    }
    for (const tree::Line* line = first; line != last; ++line) apply_line(editing, *line);
    count_parts(context, recipe.parts.size(), block.name.span);
    if (editing.rebalance && !recipe.broken)
        rebalance(context, editing.rebalance, editing.touched, recipe, editing.whose());
}

}  // namespace levigate::resolving
