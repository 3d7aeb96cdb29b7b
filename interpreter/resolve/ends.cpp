#include "interpreter/resolve/ends.hpp"

#include <fmt/format.h>

namespace levigate::resolving {

namespace {

std::string_view figure_example(Kind kind) {
    if (kind == Kind::density) return "± 0.02 g/mL";
    return kind == Kind::volume ? "± 0.1 mL" : "± 0.02 g";
}

}  // namespace

bool bare_before_ends(Context& context, std::uint32_t file, const tree::Line& line) {
    const auto& body = std::get<tree::QuantityLine>(line.body);
    if (body.ends == tree::no_expr) return false;
    const auto& exprs = context.file(file).exprs;
    const std::string figure = context.written(exprs[body.expr].span);
    const std::string ends = context.written(exprs[body.ends].span);
    const std::size_t measure = ends.find_first_not_of("0123456789./ ");
    const bool bare = figure.find_first_not_of("0123456789./ ") == figure.npos;
    if (!bare || measure == ends.npos || ends[measure] == '%') return false;
    const Span both = cover(exprs[body.expr].span, exprs[body.ends].span);
    report(context, {.code = Code::quantity_bare,
                     .message = "Each of the two numbers needs its measure.",
                     .span = both,
                     .fixes = {possible_fix(
                         both, fmt::format("{} {} ± {}", figure, ends.substr(measure), ends))}});
    return true;
}

std::optional<Exact> half_width(Context& context, std::uint32_t file, const tree::Line& line,
                                const Quantity& figure) {
    const tree::ExprId expr = std::get<tree::QuantityLine>(line.body).ends;
    if (expr == tree::no_expr) return Exact();
    Env none;
    const auto by = evaluate(context, file, expr, none);
    if (!by) return std::nullopt;
    const Span span = context.file(file).exprs[expr].span;
    if (by->kind != Kind::share && by->kind != figure.kind) {
        const bool bare = by->kind == Kind::number;
        report(context,
               {.code = bare ? Code::quantity_bare : Code::quantity_kind,
                .message = bare ? "How much more or less it may be needs a measure."
                                : fmt::format("More or less by {}, or by a share of it, is meant "
                                              "here, and this is {}.",
                                              kind_words(figure.kind), kind_words(by->kind)),
                .span = span,
                .example = fmt::format("{}, or ± 2 %", figure_example(figure.kind))});
        return std::nullopt;
    }
    if (by->value.sign() < 0) {
        report(context, {.code = Code::amount_negative,
                         .message = "Behind `±` stands how much more and how much less, which is "
                                    "never below nothing.",
                         .span = span,
                         .example = std::string(figure_example(figure.kind))});
        return std::nullopt;
    }
    const Exact half = by->kind == Kind::share ? figure.value * by->value : by->value;
    // A balance may well be off by more than its step.
    if (line.form != Form::reads && half >= figure.value) {
        report(context, {.code = Code::ends_nothing,
                         .message = "So much less would be nothing, or less than nothing.",
                         .span = span,
                         .advice = "Write how far it may really be off, as in `± 10 %`."});
        return std::nullopt;
    }
    if (half.sign() > 0 && line.form != Form::reads) context.out.has_ends = true;
    return half;
}

}  // namespace levigate::resolving
