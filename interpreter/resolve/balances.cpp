// Balances: in what they read, and what they weigh well.

#include <fmt/format.h>

#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/ends.hpp"

namespace levigate::resolving {

namespace {

struct Nothing {
    std::string_view message, example;
};

/// What a line of a balance can't say.
Nothing nothing_there(Form form) {
    switch (form) {
        case Form::up_to: return {"A balance weighs up to more than nothing.", "200 g"};
        case Form::least:
            return {"The least that a balance weighs well is more than nothing.", "0.2 g"};
        case Form::repeatability:
            return {"No balance repeats itself without any spread.", "0.003 g"};
        default: return {"A balance reads more than nothing.", "0.01 g"};
    }
}

/// `by`: how much more or less it may be, where the line says so.
std::optional<Mass> balance_mass(Context& context, At at, const tree::Line& line, Mass& by) {
    Env none;
    const tree::ExprId expr = std::get<tree::QuantityLine>(line.body).expr;
    if (bare_before_ends(context, at.file, line)) return std::nullopt;
    const auto value = evaluate_as(context, at.file, expr, none, Kind::mass, "0.01 g");
    if (!value) return std::nullopt;
    if (value->value.sign() > 0) {
        const auto half = half_width(context, at.file, line, *value);
        if (!half) return std::nullopt;
        by = grams(*half);
        return grams(value->value);
    }
    const Nothing nothing = nothing_there(line.form);
    report(context, {.code = Code::balance_step,
                     .message = std::string(nothing.message),
                     .span = context.file(at.file).exprs[expr].span,
                     .example = std::string(nothing.example)});
    return std::nullopt;
}

/// The relative error that is accepted: more than nothing, and at most all.
std::optional<Share> balance_error(Context& context, At at, const tree::Line& line) {
    Env none;
    const tree::ExprId expr = std::get<tree::QuantityLine>(line.body).expr;
    const auto value = evaluate_as(context, at.file, expr, none, Kind::share, "5 %");
    if (!value) return std::nullopt;
    const bool over = value->value > Exact(1);
    if (value->value.sign() > 0 && !over) return share(value->value);
    report(context, {.code = Code::share_impossible,
                     .message = over ? "This is more than all of what is weighed."
                                     : "No balance weighs without any error.",
                     .span = context.file(at.file).exprs[expr].span,
                     .example = "5 %"});
    return std::nullopt;
}

/// A line of the block that is a mass.
void set_balance_mass(Context& context, At at, const tree::Line& line, Balance& out) {
    Mass by;
    const auto mass = balance_mass(context, at, line, by);
    if (!mass)
        out.damaged = true;
    else if (line.form == Form::up_to)
        out.up_to = mass;
    else if (line.form == Form::least)
        out.least = mass;
    else if (line.form == Form::repeatability)
        out.repeatability = mass;
    else if (in_grams(*mass).finite_decimal(out.places))
        out.step = *mass, out.reads_by = by;
    else
        report(
            context,
            {.code = Code::balance_step,
             .message = "A balance reads in a step of a finite decimal.",
             .span = context.file(at.file).exprs[std::get<tree::QuantityLine>(line.body).expr].span,
             .example = "reads 0.01 g"}),
            out.damaged = true;
}

bool is_balance_mass(Form form) {
    return form == Form::reads || form == Form::up_to || form == Form::least ||
           form == Form::repeatability;
}

}  // namespace

void add_balance_block(Context& context, At at) {
    const tree::Block& block = context.block(at);
    Balance out;
    out.name = context.written(block.name.span);
    out.sym = block.name.sym;
    out.span = block.name.span;
    const At seat = look(context.scope.balance, block.name.sym);
    out.damaged = block.damaged || seat.ambiguous;
    out.step = grams(Exact(1, 100));
    bool reads = false;
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        reads = reads || line->form == Form::reads;
        if (is_balance_mass(line->form)) set_balance_mass(context, at, *line, out);
        if (line->form != Form::error) continue;
        out.error = balance_error(context, at, *line);
        out.damaged = out.damaged || !out.error;
    }
    if (!reads && !block.damaged) {
        report(context, {.code = Code::balance_step,
                         .message = fmt::format("Nothing says in which steps {} reads.", out.name),
                         .span = block.name.span,
                         .advice = "Add a line such as `reads 0.01 g`."});
        out.damaged = true;
    }
    const auto id = static_cast<BalanceId>(context.out.balances.size());
    if (context.balance_of[block.name.sym] == nothing) {
        context.balance_of[block.name.sym] = id;
        if (context.files[at.file].own) context.out.own_balances.push_back(id);
    }
    context.out.balances.push_back(std::move(out));
}

}  // namespace levigate::resolving
