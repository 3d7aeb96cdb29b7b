// Prices of materials and containers, and what currencies come to in each other.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/measure/date.hpp"
#include "interpreter/measure/iso4217.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

/// What stands behind `per`, which is what is bought at once: of `14.20 USD per 30 g` the 30 g.
std::optional<Quantity> pack_of(Context& context, std::uint32_t file, tree::ExprId id) {
    const tree::Expr& expr = context.file(file).exprs[id];
    if (expr.kind != tree::ExprKind::per && expr.kind != tree::ExprKind::divide) return {};
    Env none;
    return evaluate(context, file, expr.right, none);
}

std::optional<Price> price(Context& context, std::uint32_t file, tree::ExprId expr,
                           const Quantity& amount, std::string_view example) {
    const Span span = context.file(file).exprs[expr].span;
    if (amount.value.sign() >= 0) return Price{amount, pack_of(context, file, expr), span};
    report(context, {.code = Code::amount_negative,
                     .message = "A price can't be less than nothing.",
                     .span = span,
                     .example = std::string(example)});
    return std::nullopt;
}

void report_kind(Context& context, std::string_view due, const Quantity& found, Span span,
                 std::string_view example) {
    report(context, {.code = Code::quantity_kind,
                     .message = fmt::format("{}, and this is {}.", due, kind_words(found.kind)),
                     .span = span,
                     .example = std::string(example)});
}

}  // namespace

std::optional<Price> material_price(Context& context, std::uint32_t file, const tree::Line& line) {
    constexpr std::string_view example = "14.20 USD per 30 g";
    const tree::ExprId expr = std::get<tree::QuantityLine>(line.body).expr;
    Env none;
    const auto value = evaluate(context, file, expr, none);
    if (!value) return std::nullopt;
    if (value->kind == Kind::money_per_mass || value->kind == Kind::money_per_volume)
        return price(context, file, expr, *value, example);
    report_kind(context, "A price is money per amount", *value, context.file(file).exprs[expr].span,
                example);
    return std::nullopt;
}

std::optional<Price> container_price(Context& context, std::uint32_t file, const tree::Line& line,
                                     const std::string& container, Sym sym) {
    constexpr std::string_view example = "0.35 USD";
    const tree::ExprId expr = std::get<tree::QuantityLine>(line.body).expr;
    const Span span = context.file(file).exprs[expr].span;
    Env none;
    auto value = evaluate(context, file, expr, none);
    if (!value) return std::nullopt;
    if (value->kind != Kind::money && value->kind != Kind::money_per_count) {
        report_kind(context, "The price of a container is money for one", *value, span, example);
        return std::nullopt;
    }
    const bool one = value->kind == Kind::money;
    value->kind = Kind::money_per_count;
    auto out = price(context, file, expr, *value, example);
    if (!out) return out;
    if (one || !out->pack) out->pack = Quantity{Kind::count, Exact(1), 0};
    const std::uint32_t own = context.container_of[sym] + 1;
    if (out->pack->tag == 0 || out->pack->tag == own) return out;
    report(context, {.code = Code::quantity_kind,
                     .message = fmt::format("The price of a {} is money for one of them, and this "
                                            "counts something else.",
                                            container),
                     .span = span,
                     .example = std::string(example)});
    return std::nullopt;
}

std::optional<Date> date(Context& context, Span written, bool day, std::string_view month_words) {
    const auto found = read_date(context.written(written));
    if (found && (found->day != 0 || !day)) return found;
    report(context, {.code = Code::date_wrong,
                     .message = found ? std::string(month_words) : "There is no such day.",
                     .span = written,
                     .example = "2026-10-01"});
    return std::nullopt;
}

namespace {

bool good_rate(Context& context, At at, const Rate& rate, const Quantity& value) {
    const tree::Block& block = context.block(at);
    const Span span = context.file(at.file).exprs[block.value].span;
    if (rate.from == 0) {
        report(context, {.code = Code::unit_unknown,
                         .message = fmt::format("No currency is called {}.",
                                                shown(context.written(block.name.span))),
                         .span = block.name.span,
                         .advice = "Write the three letters of ISO 4217, as in EUR."});
        return false;
    }
    const bool other = value.kind == Kind::money && rate.into != rate.from;
    if (other && value.value.sign() > 0) return true;
    report(context,
           {.code = value.kind == Kind::number ? Code::quantity_bare : Code::quantity_kind,
            .message = other ? "A rate is more than nothing."
                             : fmt::format("What one {} comes to in another currency is due here.",
                                           currency_code(rate.from)),
            .span = span,
            .example = fmt::format("rate {} = 1.08 {}, 2026-10-01", currency_code(rate.from),
                                   rate.from == currency_tag("USD") ? "EUR" : "USD")});
    return false;
}

void add_rate(Context& context, At at) {
    const tree::Block& block = context.block(at);
    if (block.value == tree::no_expr) return;
    Env none;
    const auto value = evaluate(context, at.file, block.value, none);
    if (!value) return;
    const std::string from = context.written(block.name.span);
    Rate rate{currency_tag(from), value->tag, value->value, context.written(block.date),
              block.span};
    if (!good_rate(context, at, rate, *value)) return;
    if (!date(context, block.date, true, "A rate is of one day.")) return;
    const auto same = [&](const Rate& one) {
        return (one.from == rate.from && one.into == rate.into) ||
               (one.from == rate.into && one.into == rate.from);
    };
    auto& rates = context.out.rates;
    if (const auto old = std::find_if(rates.begin(), rates.end(), same); old != rates.end())
        report(context, {.code = Code::block_twice,
                         .message = fmt::format("There are two rates between {} and {}.",
                                                currency_code(rate.from), currency_code(rate.into)),
                         .span = block.name.span,
                         .advice = "Take one of them out.",
                         .notes = {{old->span, "already there"}},
                         .here = "again here"});
    else
        rates.push_back(std::move(rate));
}

}  // namespace

void add_rates(Context& context) {
    each_block(context, Heading::rate, [&](At at) { add_rate(context, at); });
}

}  // namespace levigate::resolving
