// Plans, kept for the phases that use them; and names in variants that no shade takes.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/slips.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

ShadeId find_shade(const Context& context, Sym sym) {
    for (ShadeId id = 0; id < context.out.shades.size(); ++id)
        if (context.out.shades[id].sym == sym) return id;
    return nothing;
}

void report_no_shade(Context& context, const Name& name) {
    report_unknown(context, {Code::shade_unknown,
                             "shade",
                             name,
                             {&context.scope.shade},
                             in(Heading::shade) | in(Heading::family),
                             "Write the name of a shade.",
                             true});
}

/// A name behind ` / ` is a variant or a finish, in this order.
void place_under(Context& context, const Name& name, bool finish_only, PlanLine& out) {
    if (!name) return;
    if (!finish_only && look(context.scope.variant, name.sym)) {
        out.variant = name.sym;
        return;
    }
    if (look(context.scope.finish, name.sym)) {
        out.finish = name.sym;
        return;
    }
    const Scope& scope = context.scope;
    const std::uint32_t holders = in(Heading::finish) | in(Heading::variant);
    const char* advice = "Write the name of a finish.";
    if (finish_only)
        report_unknown(context,
                       {Code::finish_unknown, "finish", name, {&scope.finish}, holders, advice});
    else
        report_unknown(context, {Code::finish_unknown,
                                 "variant or finish",
                                 name,
                                 {&scope.variant, &scope.finish},
                                 holders,
                                 advice});
}

}  // namespace

bool two_finishes(Context& context, const tree::Make& make) {
    if (!make.finish || look(context.scope.variant, make.variant_or_finish.sym) ||
        !look(context.scope.finish, make.variant_or_finish.sym))
        return false;
    report(context,
           {.code = Code::line_malformed,
            .message = fmt::format("{} is a finish; one variant and one finish can be named.",
                                   shown(context.written(make.variant_or_finish.span))),
            .span = make.finish.span,
            .advice = "Write a line of its own for each finish."});
    return true;
}

bool part_make(Context& context, std::uint32_t file, tree::Make& make, PlanLine& out) {
    const tree::Expr& expr = context.file(file).exprs[make.quantity];
    const auto split = split_at_of(context, expr.words);
    if (!split) {
        Span words = expr.words;
        const std::string_view text = context.sources.text(words);
        for (std::size_t i = 1; i + 2 < text.size(); ++i) {
            if (text[i] != ' ' || (text[i + 1] | 0x20) != 'o' || (text[i + 2] | 0x20) != 'f')
                continue;
            words.end = words.begin + static_cast<std::uint32_t>(i);
            break;
        }
        report_measure(context, words);
        return false;
    }
    const bool in_words = split->name.begin != split->name.end;
    if (in_words == static_cast<bool>(make.shade)) {
        report(context, {.code = Code::line_malformed,
                         .message = "A shade's name is missing here.",
                         .span = make.shade ? make.shade.span : split->name,
                         .example = "make full of Quince / satin"});
        return false;
    }
    if (in_words)
        make.shade = {context.names.intern(context.sources.text(split->name)), split->name, false};
    const Span size{expr.span.source, expr.span.begin, split->measure.end};
    const auto value = so_many(context, expr.number, split->one);
    if (value) out.size = plain_size(context, size, *value);
    return true;
}

namespace {

void report_no_batch(Context& context, const Shade& shade, const Name& name) {
    const std::string written = context.written(name.span);
    const std::size_t digit = written.find_first_of("0123456789");
    const bool negative = !written.empty() && digit != written.npos && digit > 0 &&
                          (written[0] == '-' || written.starts_with("\u2212"));
    std::vector<std::string> names, near;
    Nearest nearest(context.names.folded(name.sym));
    for (const Batch& batch : shade.batches) {
        nearest.offer(context.names.folded(batch.sym), names.size());
        names.push_back(batch.name);
    }
    for (const std::size_t id : nearest.best()) near.push_back(names[id]);
    Finding finding{
        .code = negative ? Code::batch_nothing : Code::batch_unknown,
        .message = negative ? "What is made is more than nothing."
                            : fmt::format("{} has no batch called {}.", shade.name, shown(written)),
        .span = name.span};
    if (negative)
        finding.fixes = {possible_fix(name.span, written.substr(digit))};
    else if (names.size() == 1 || !near.empty())
        finding.fixes = near_fix(name.span, near.empty() ? names : near);
    else if (names.empty())
        finding.advice = "Write a quantity, as in `make 50 g of …`.";
    else
        finding.advice =
            fmt::format("Name one of its batches, {}; or write a quantity.", list_words(names));
    report(context, std::move(finding));
}

void plan_line(Context& context, std::uint32_t file, const tree::Line& line, Plan& plan) {
    auto make = std::get<tree::Make>(line.body);
    PlanLine out;
    out.span = line.span;
    if (make.open && !part_make(context, file, make, out)) return;
    if (make.open && !out.size) return;
    out.shade = find_shade(context, make.shade.sym);
    if (out.shade == nothing) return report_no_shade(context, make.shade);
    if (two_finishes(context, make)) return;
    place_under(context, make.variant_or_finish, false, out);
    place_under(context, make.finish, true, out);
    if (make.quantity != tree::no_expr && !make.open) {
        Env none;
        tree::BatchLine size;
        size.quantity = make.quantity;
        out.size = batch_size(context, file, size, none, {});
        if (!out.size) return;
    } else if (!make.open) {
        out.batch = make.batch.sym;
        const Shade& shade = context.out.shades[out.shade];
        const auto same = [&](const Batch& batch) { return batch.sym == make.batch.sym; };
        if (!shade.damaged && std::none_of(shade.batches.begin(), shade.batches.end(), same)) {
            report_no_batch(context, shade, make.batch);
            return;
        }
    }
    plan.lines.push_back(std::move(out));
}

}  // namespace

void add_plans(Context& context) {
    each_block(context, Heading::plan, [&](At at) {
        Plan plan;
        plan.name = context.written(context.block(at).name.span);
        plan.sym = context.block(at).name.sym;
        plan.span = context.block(at).name.span;
        const auto [first, last] = lines_of(context, at);
        for (const tree::Line* line = first; line != last; ++line)
            if (line->form == Form::make)
                plan_line(context, at.file, *line, plan);
            else if (line->form == Form::on)
                plan.on = date(context, std::get<tree::Day>(line->body).date, true,
                               "A plan is made on one day.");
        context.out.plans.push_back(std::move(plan));
    });
}

namespace {

/// Names and amounts of one line, without a formula that it would be applied to. A role says
/// nothing there: the shade that takes the line may have it.
void check_line(Context& context, std::uint32_t file, const tree::Line& line) {
    Env none;
    if (context.sources.text(line.span).find('{') != std::string_view::npos) return;
    if (const auto* part = std::get_if<tree::Ingredient>(&line.body)) {
        if (!part->amount.ref.role)
            resolve_line(context, file, line, none, true);
        else if (part->name)
            find_ingredient(context, part->name, none);
    }
    if (const auto* without = std::get_if<tree::Without>(&line.body))
        find_ingredient(context, without->name, none);
    if (const auto* dilute = std::get_if<tree::Dilute>(&line.body)) {
        find_ingredient(context, dilute->what, none);
        find_ingredient(context, dilute->base, none);
    }
    if (const auto* swap = std::get_if<tree::Swap>(&line.body)) {
        find_ingredient(context, swap->old_name, none);
        find_ingredient(context, swap->new_name, none);
    }
}

}  // namespace

void check_unused(Context& context) {
    // Measures of the person's own that nothing uses.
    each_block(context, Heading::unit, [&](At at) {
        if (context.files[at.file].library) return;
        measure(context, context.names.folded(context.block(at).name.sym));
    });
    // A finish or a variant that no shade takes is still looked through. One with holes only makes
    // sense in a shade that fills them.
    for (const Heading heading : {Heading::finish, Heading::variant}) {
        each_block(context, heading, [&](At at) {
            if (context.files[at.file].library) return;
            const auto [first, last] = lines_of(context, at);
            for (const tree::Line* line = first; line != last; ++line)
                check_line(context, at.file, *line);
        });
    }
}

}  // namespace levigate::resolving
