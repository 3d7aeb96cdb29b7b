// Edits: what `like` shades, blends and variants do to a formula, line by line, top to bottom.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/lines.hpp"
#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/editing.hpp"

namespace levigate::resolving {

namespace {

/// The names of lines that are near to the one that is wanted.
std::vector<std::string> near_line(const Editing& editing, IngredientId wanted) {
    std::string written, other;
    fold_name(editing.context.out.name(wanted), written);
    Nearest nearest(written);
    for (const WorkPart& part : editing.recipe.parts) {
        fold_name(editing.context.out.name(part.part.what), other);
        nearest.offer(other, part.part.what);
    }
    std::vector<std::string> out;
    for (const std::size_t id : nearest.best())
        out.push_back(editing.context.out.name(static_cast<IngredientId>(id)));
    return out;
}

std::string line_words(const Editing& editing) {
    std::vector<std::string> all;
    for (const WorkPart& part : editing.recipe.parts)
        all.push_back(editing.context.out.name(part.part.what));
    return all.empty() ? "a line that is there" : "one of its lines: " + list_words(all);
}

}  // namespace

/// The same edit twice on one name is a slip.
bool twice(Editing& editing, Form form, const Ref& what, Span span) {
    const Context& context = editing.context;
    for (const Done& one : editing.done) {
        if (one.form != form || one.what.kind != what.kind ||
            one.what.ingredient != what.ingredient || one.what.role != what.role)
            continue;
        report(editing.context,
               {.code = Code::edit_twice,
                .message = fmt::format("{} {} stands here twice.", entry(form).word,
                                       ref_words(context.out, context.names, what)),
                .span = span,
                .advice = "Take one of the two lines out.",
                .notes = {{one.span, "already here"}},
                .here = "again here"});
        editing.broken();
        return true;
    }
    editing.done.push_back({form, what, span});
    return false;
}

bool twice(Editing& editing, Form form, IngredientId what, Span span) {
    return twice(editing, form, Ref{.ingredient = what, .span = span}, span);
}

void report_missing(Editing& editing, IngredientId what, Span span, std::string_view instead,
                    std::vector<Fix> fixes) {
    const std::vector<std::string> near = near_line(editing, what);
    std::string advice;
    if (!instead.empty())
        advice = fmt::format("{}, or name {}.", instead,
                             near.empty() ? line_words(editing) : near.front());
    else if (near.empty())
        advice = fmt::format("Name {}.", line_words(editing));
    for (Fix& fix : near_fix(with_braces(editing.context, span), near))
        fixes.push_back(std::move(fix));
    if (!editing.recipe.broken)
        editing.say({.code = Code::edit_missing,
                     .message = fmt::format("{} is not in {}.", editing.context.out.name(what),
                                            editing.whose),
                     .span = span,
                     .advice = std::move(advice),
                     .fixes = std::move(fixes)});
    editing.broken();
}

namespace {

OriginId amount_origin(Editing& editing, OriginKind kind, Span span, const ResolvedLine& line,
                       OriginId before) {
    for (const Span filled : line.filled)
        before =
            add_origin(editing.context,
                       {.kind = OriginKind::filled, .span = filled, .before = before, .value = {}});
    const Exact value = line.poured ? line.poured->value : amount_value(*line.amount);
    return add_origin(editing.context,
                      {.kind = kind, .span = span, .before = before, .value = value});
}

Part make_part(const ResolvedLine& line, OriginId origin) {
    Part part;
    part.what = line.what;
    part.amount = *line.amount;
    part.origin = origin;
    part.span = line.amount_span;
    part.name_span = line.name_span;
    part.ambiguous = line.ambiguous;
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
        report(context, {.code = Code::name_twice,
                         .message = fmt::format("{} stands twice in {}.",
                                                context.out.name(found.what), editing.whose),
                         .span = found.name_span,
                         .advice = "Write one line with both amounts added.",
                         .notes = {{there->part.name_span, "already there"}},
                         .here = "added here"});
        editing.broken();
        return;
    }
    const OriginId origin =
        amount_origin(editing, OriginKind::written, line.span, found, no_origin);
    editing.recipe.parts.push_back({make_part(found, origin), found.poured});
}

void plain_line(Editing& editing, const tree::Line& line) {
    const tree::Block& block = editing.context.block(editing.at);
    const Span plain{line.span.source, line.word_begin, line.span.end};  // behind `private`
    const Span before{plain.source, plain.begin, plain.begin};
    const std::string text = editing.context.written(plain);
    const std::string of = block.like ? fmt::format(" {} is like {}, so", editing.whose,
                                                    editing.context.written(block.like.span))
                                      : std::string(" A variant changes a shade, so");
    report(
        editing.context,
        {.code = Code::edit_plain_line,
         .message = fmt::format("Is this amount to be set or added?{} it needs a word for it.", of),
         .span = line.span,
         .advice = fmt::format("Write `set {0}` to change a line, or `add {0}` for a new "
                               "one.",
                               text),
         .fixes = {possible_fix(before, "set "), possible_fix(before, "add ")}});
    editing.broken();
}

void set_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const ResolvedLine found = resolve_line(context, editing.at.file, line, editing.env, false);
    if (!usable_line(editing, found) || twice(editing, Form::set, found.what, found.name_span))
        return;
    WorkPart* there = editing.find(found.what);
    if (!there)
        return report_missing(editing, found.what, found.name_span, "Write `add` in place of `set`",
                              {possible_fix(line.word(), "add")});
    const OriginId origin =
        amount_origin(editing, OriginKind::set, line.span, found, there->part.origin);
    there->part = make_part(found, origin);
    there->poured = found.poured;
    editing.touched.push_back(found.what);
}

void add_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const ResolvedLine found = resolve_line(context, editing.at.file, line, editing.env, false);
    if (!usable_line(editing, found) || twice(editing, Form::add, found.what, found.name_span))
        return;
    if (const WorkPart* there = editing.find(found.what)) {
        editing.say({.code = Code::edit_present,
                     .message = fmt::format("{} is in {} already.", context.out.name(found.what),
                                            editing.whose),
                     .span = found.name_span,
                     .advice = fmt::format("To change the amount of {}, write `set` in place "
                                           "of `add`.",
                                           context.out.name(found.what)),
                     .fixes = {possible_fix(line.word(), "set")},
                     .notes = {{there->part.name_span, "already there"}},
                     .here = "added here"});
        editing.broken();
        return;
    }
    const OriginId origin = amount_origin(editing, OriginKind::added, line.span, found, no_origin);
    editing.recipe.parts.push_back({make_part(found, origin), found.poured});
    editing.touched.push_back(found.what);
}

void without_line(Editing& editing, const tree::Line& line) {
    const Name name = std::get<tree::Without>(line.body).name;
    const IngredientId gone = find_ingredient(editing.context, name, editing.env);
    if (gone == no_ingredient) return editing.broken();
    if (twice(editing, Form::without, gone, name.span)) return;
    if (!editing.find(gone))
        return report_missing(editing, gone, name.span, "Leave this line out",
                              {possible_fix(line.span, "")});
    std::erase_if(editing.recipe.parts,
                  [&](const WorkPart& part) { return part.part.what == gone; });
    forget_dilution(editing.recipe, gone);
    std::erase(editing.touched, gone);  // another line may take the name later
}

void report_no_like(Editing& editing, const tree::Line& line) {
    Finding finding{.code = Code::edit_missing,
                    .message = fmt::format("`{}` changes an inherited formula, and {} is like no "
                                           "other.",
                                           entry(line.form).word, editing.whose),
                    .span = line.word(),
                    .advice = "Write `like NAME` in the heading, or plain lines."};
    if (line.form == Form::add) {
        const std::string_view text = editing.context.sources[line.span.source].text;
        Span word = line.word();  // with the blanks behind it
        word.end = skip_blanks(text, word.end, line.span.end);
        finding.advice = "Leave `add` out of the line.";
        finding.fixes = {possible_fix(word, "")};
    }
    report(editing.context, std::move(finding));
}

/// An edit where there is nothing to edit.
bool edit_without_like(Editing& editing, const tree::Line& line) {
    if (editing.edits) return false;
    if (editing.context.block(editing.at).damaged && !editing.context.block(editing.at).like) {
        editing.broken();  // its `like` may be what was lost
        return true;
    }
    if (line.form == Form::rebalance)
        report(editing.context, {.code = Code::rebalance_misplaced,
                                 .message = "`rebalance` works on an inherited formula, and this "
                                            "one is like no other.",
                                 .span = line.word(),
                                 .advice = "Write `rest` on the line that is to take up the "
                                           "change."});
    else
        report_no_like(editing, line);
    editing.broken();
    return true;
}

void fresh_line(Editing& editing, const tree::Line& line) {
    const tree::Block& block = editing.context.block(editing.at);
    // A block that lost a line may have lost its `like`.
    if (!editing.edits && !block.damaged)
        editing.say({.code = Code::edit_missing,
                     .message = fmt::format("`fresh` drops what is inherited, and {} is like no "
                                            "other.",
                                            editing.whose),
                     .span = line.word(),
                     .advice = "Leave this line out.",
                     .fixes = {certain_fix(line.span, "")}});
    const auto what = std::get<tree::Fresh>(line.body).what;
    if (what == tree::Inherited::steps) editing.recipe.steps.clear();
    if (what == tree::Inherited::notes) editing.recipe.notes.clear();
    if (what == tree::Inherited::dilutions) editing.recipe.dilutions.clear();
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
        case Form::dilute: return dilute_line(editing, line);
        case Form::set:
        case Form::add:
        case Form::without:
        case Form::swap:
        case Form::scale:
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
        default: editing.rebalance = line.word();
    }
}

}  // namespace

void apply_block(Context& context, At at, Env& env, Recipe& recipe, bool edits,
                 const std::string& whose) {
    const tree::Block& block = context.block(at);
    Editing editing{context, at, env, recipe, edits, whose};
    if (block.formula_lost) recipe.broken = true;
    if (block.count > longest_formula) {
        report(context, {.code = Code::formula_too_long,
                         .message = fmt::format("{} has more than {} lines.", editing.whose,
                                                longest_formula),
                         .span = block.name.span,
                         .advice = "Make blends of parts of it."});
        return editing.broken();
    }
    if (!count_lines(context, block.count, 0, block.name.span)) return editing.broken();
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line)
        if (line->form == Form::fresh) fresh_line(editing, *line);
    for (const tree::Line* line = first; line != last; ++line) apply_line(editing, *line);
    if (editing.rebalance && !recipe.broken)
        rebalance(context, editing.rebalance, editing.touched, recipe, whose, editing.which());
}

}  // namespace levigate::resolving
