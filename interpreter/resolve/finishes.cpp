// Finishes as a shade takes them, and the sizes of batches.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/written_name.hpp"
#include "interpreter/formulary/sum_of_weights.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

/// A loop with a stack of its own: a sum of a thousand terms leans to one side.
bool has_hole(const tree::File& file, tree::ExprId id) {
    std::vector<tree::ExprId> todo{id};
    while (!todo.empty()) {
        const tree::ExprId at = todo.back();
        todo.pop_back();
        if (at == tree::no_expr) continue;
        if (file.exprs[at].kind == tree::ExprKind::hole) return true;
        todo.push_back(file.exprs[at].left);
        todo.push_back(file.exprs[at].right);
    }
    return false;
}

bool takes_holes(const Context& context, At at) {
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        if (const auto* part = std::get_if<tree::Ingredient>(&line->body))
            if (part->name.hole || part->amount.ref.name.hole ||
                has_hole(context.file(at.file), part->amount.expr))
                return true;
        if (const auto* text = std::get_if<tree::Text>(&line->body))
            for (const tree::TextPiece& piece : text->pieces)
                if (piece.name && (piece.name.sym >= context.ingredient_of.size() ||
                                   context.ingredient_of[piece.name.sym] == no_ingredient))
                    return true;
    }
    return false;
}

/// A share, or as much as something: what a bulk of any size can be given.
bool addable(Context& context, const WorkPart& work, Finishing& out) {
    const bool weight = std::holds_alternative<Weight>(work.part.amount);
    const bool rest = std::holds_alternative<Rest>(work.part.amount);
    if (!weight && !rest && !std::holds_alternative<Enough>(work.part.amount)) return true;
    const std::string name = written_name(context.out.name(work.part.what));
    report(context,
           {.code = Code::finish_weight,
            .message = rest ? "A finish adds to a bulk that is whole: there is no rest."
                            : "A finish doesn't know how much bulk there is, so it adds a "
                              "share.",
            .span = work.part.span,
            .advice = fmt::format("Write `add 5 g per 100 g {0}`, or `add as much {0} as the "
                                  "base`.",
                                  name)});
    out.broken = true;
    return false;
}

void add_addition(Context& context, At at, const tree::Line& line, Env& env, Finishing& out) {
    if (line.form == Form::ingredient) {
        Span words = line.span;  // without `private`
        words.begin = std::get<tree::Ingredient>(line.body).amount.span.begin;
        report(context, {.code = Code::edit_plain_line,
                         .message = "A finish adds to the bulk: the line needs the word `add`.",
                         .span = line.span,
                         .fixes = {possible_fix(words, "add " + context.written(words))}});
        out.broken = true;
        return;
    }
    const ResolvedLine found = resolve_line(context, at.file, line, env, true);
    if (found.what == no_ingredient || !found.amount) {
        out.broken = true;
        return;
    }
    if (found.ambiguous) out.broken = true;
    WorkPart work;
    work.part.what = found.what;
    work.part.ambiguous = found.ambiguous;
    work.part.amount = *found.amount;
    work.part.span = found.amount_span;
    work.poured = found.poured;
    if (!addable(context, work, out)) return;
    const bool again = std::any_of(out.additions.begin(), out.additions.end(),
                                   [&](const Addition& one) { return one.what == found.what; });
    if (again) {
        report(context,
               {.code = Code::edit_twice,
                .message = fmt::format("add {} stands here twice.", context.out.name(found.what)),
                .span = found.name_span,
                .advice = "Write one line with both amounts added."});
        out.broken = true;
        return;
    }
    if (!weigh_poured(context, work)) {
        out.broken = true;
        return;
    }
    Addition addition;
    addition.what = found.what;
    if (const auto* size = std::get_if<Share>(&work.part.amount))
        addition.amount = *size;
    else
        addition.amount = std::get<AsMuch>(work.part.amount);
    addition.span = found.amount_span;
    addition.name_span = found.name_span;
    addition.estimated = work.part.estimated;
    addition.origin = add_origin(context, {.kind = OriginKind::added,
                                           .span = line.span,
                                           .before = add_filled(context, found.filled, no_origin),
                                           .value = amount_value(work.part.amount)});
    out.additions.push_back(std::move(addition));
}

FinishId finish_id(Context& context, At at) {
    const tree::Block& block = context.block(at);
    if (const auto known = context.finish_ids.find(block.name.sym);
        known != context.finish_ids.end())
        return known->second;
    Finish finish;
    finish.name = context.written(block.name.span);
    finish.sym = block.name.sym;
    finish.span = block.name.span;
    finish.library = context.files[at.file].library;
    context.out.finishes.push_back(std::move(finish));
    const auto id = static_cast<FinishId>(context.out.finishes.size() - 1);
    context.finish_ids.emplace(block.name.sym, id);
    return id;
}

}  // namespace

FinishingId finishing(Context& context, Name name, Env& env) {
    const At at = look(context.scope.finish, name.sym);
    if (!at) {
        report_unknown(context, {Code::finish_unknown,
                                 "finish",
                                 name,
                                 {&context.scope.finish},
                                 in(Heading::finish),
                                 fmt::format("Add a block `finish {}`.",
                                             shown(written_name(context.written(name.span))))});
        return nothing;
    }
    if (const auto known = context.finishings.find(name.sym); known != context.finishings.end())
        return known->second;
    context.asked = name.span;
    Finishing out;
    out.finish = finish_id(context, at);
    out.broken = context.block(at).formula_lost || at.ambiguous;
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form == Form::add || line->form == Form::ingredient)
            add_addition(context, at, *line, env, out);
        if (line->form == Form::step) out.steps.push_back(make_text(context, at.file, *line, env));
        if (line->form == Form::note) out.notes.push_back(make_text(context, at.file, *line, env));
        if (line->form == Form::rebalance) {
            report(context, {.code = Code::rebalance_misplaced,
                             .message = "A finish leaves the bulk's own ratios as they are.",
                             .span = line->word(),
                             .advice = "Leave this line out.",
                             .fixes = {certain_fix(line->span, "")}});
            out.broken = true;
        }
    }
    context.out.finishings.push_back(std::move(out));
    const auto id = static_cast<FinishingId>(context.out.finishings.size() - 1);
    if (!takes_holes(context, at)) context.finishings.emplace(name.sym, id);
    return id;
}

namespace {

void report_nothing(Context& context, Span span, const Quantity& value) {
    report(context, {.code = Code::batch_nothing,
                     .message = fmt::format("{} is no amount to make or weigh.",
                                            quantity_words(context, value)),
                     .span = span,
                     .advice = "Write a size above 0, as in `6 g`."});
}

bool set_amount(Context& context, Span span, const Quantity& value, BatchSize& out) {
    if (value.value.sign() <= 0 && value.kind != Kind::number) {
        report_nothing(context, span, value);
        return false;
    }
    if (value.kind == Kind::mass)
        out.amount = grams(value.value);
    else if (value.kind == Kind::volume)
        out.amount = millilitres(value.value);
    else if (value.kind == Kind::count && value.tag != parts_tag && value.tag != 0)
        out.amount = ContainerCount{value.tag - 1, value.value};
    else {
        const bool bare = value.kind == Kind::number;
        report(context,
               {.code = bare ? Code::quantity_bare : Code::quantity_kind,
                .message = bare ? "A batch's size needs a measure behind the number."
                                : fmt::format("A batch is a weight, a volume or a count of "
                                              "containers, and this is {}.",
                                              kind_words(value.kind)),
                .span = span,
                .example = "6 g, 50 mL or 48 slim tubes"});
        return false;
    }
    return true;
}

/// What the formula as written weighs, variants and finishes aside.
std::optional<Mass> written_sum(Context& context, const Shade& shade, Span span) {
    const Formula& formula = shade.versions[0].formula;
    const auto sum = sum_of_weights(formula);
    if (sum || !formula.solved()) return sum;  // what is wrong there is said
    report_of(context,
              {.code = Code::batch_unweighed,
               .message = fmt::format("{} has no weights in grams, so they have no sum.",
                                      shade.name),
               .span = span,
               .advice = "Write how much to make, such as `6 g`, or the amounts in grams."},
              shade.name, context.taker);
    return std::nullopt;
}

}  // namespace

std::optional<BatchSize> plain_size(Context& context, Span span, const Quantity& value) {
    BatchSize out;
    out.span = span;
    if (!set_amount(context, span, value, out)) return std::nullopt;
    return out;
}

std::optional<BatchSize> batch_size(Context& context, std::uint32_t file,
                                    const tree::BatchLine& line, Env& env, Span span,
                                    const Shade* shade) {
    BatchSize out;
    const auto& exprs = context.file(file).exprs;
    if (!line.sum) {
        out.span = span ? span : exprs[line.quantity].span;
        const auto value = evaluate(context, file, line.quantity, env);
        if (!value || !set_amount(context, exprs[line.quantity].span, *value, out))
            return std::nullopt;
    } else {
        out.span = line.sum;
        const auto sum = shade ? written_sum(context, *shade, line.sum) : std::nullopt;
        if (!sum) return std::nullopt;
        out.amount = *sum;
    }
    if (line.overage != tree::no_expr) {
        const auto over = evaluate_as(context, file, line.overage, env, Kind::share, "5 %");
        if (!over) return std::nullopt;
        out.overage = share(over->value);
        if (over->value.sign() < 0) {
            report(context, {.code = Code::amount_negative,
                             .message = "An overage can't be less than nothing.",
                             .span = exprs[line.overage].span,
                             .example = "overage 5 %"});
            return std::nullopt;
        }
    }
    if (line.holdback == tree::no_expr) return out;
    const auto held = evaluate(context, file, line.holdback, env);
    if (!held) return std::nullopt;
    const bool fits = held->kind == Kind::mass || held->kind == Kind::volume;
    if (held->value.sign() < 0 || !fits) {
        report(context, {.code = fits ? Code::amount_negative : Code::quantity_kind,
                         .message = fits ? "What stays in the bowl can't be less than nothing."
                                         : fmt::format("What stays in the bowl is a weight or a "
                                                       "volume, and this is {}.",
                                                       kind_words(held->kind)),
                         .span = exprs[line.holdback].span,
                         .example = "2 g or 3 mL"});
        return std::nullopt;
    }
    if (held->kind == Kind::mass)
        out.holdback = grams(held->value);
    else
        out.holdback = millilitres(held->value);
    return out;
}

}  // namespace levigate::resolving
