// Kinds that don't go together: what is wrong in the maker's words, and an expression to write
// instead. Each remedy in backticks is itself an expression that checks; a test reckons them out.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/measure/iso4217.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

std::string_view sign(Op op) {
    switch (op) {
        case Op::add: return "+";
        case Op::subtract: return "-";
        case Op::multiply: return "×";
        case Op::divide: return "/";
        case Op::per: return "per";
    }
    return "";
}

/// A plain example of each kind, for where the written words give none.
std::string_view plain_example(Kind kind) {
    switch (kind) {
        case Kind::number: return "2";
        case Kind::share: return "5 %";
        case Kind::mass: return "10 g";
        case Kind::volume: return "1 mL";
        case Kind::count: return "2 parts";
        case Kind::money: return "3 USD";
        case Kind::density: return "(0.9 g/mL)";
        case Kind::volume_per_mass: return "(1 mL per 10 g)";
        case Kind::money_per_mass: return "(3 USD per 10 g)";
        case Kind::money_per_volume: return "(3 USD per 10 mL)";
        case Kind::money_per_count: return "(3 USD per piece)";
        case Kind::temperature_step: return "5 kelvin";
        case Kind::temperature_point: return "75 °C";
    }
    return "2";
}

/// What of the right-hand kinds would go with the left one, the likeliest first.
Kind fitting(Op op, Kind left) {
    if (op == Op::per) return Kind::mass;
    if (op == Op::divide && result_kind(op, left, Kind::number)) return Kind::number;
    for (const Kind kind : {left, Kind::number, Kind::mass, Kind::temperature_step, Kind::share})
        if (result_kind(op, left, kind)) return kind;
    return Kind::number;
}

std::string written_with(const Context& context, const tree::Expr& number,
                         const tree::Expr& words) {
    return fmt::format("{} {}", context.sources.text(number.number),
                       context.sources.text(words.words));
}

std::string remedy(const Context& context, const tree::File& file, const tree::Expr& expr, Op op,
                   Kind left, Kind right) {
    const tree::Expr& a = file.exprs[expr.left];
    const tree::Expr& b = file.exprs[expr.right];
    const bool plain_left = a.kind == tree::ExprKind::quantity;
    const bool plain_right = b.kind == tree::ExprKind::quantity && b.number;
    std::string first = plain_left ? context.written(a.span) : std::string(plain_example(left));
    std::string second;
    if (plain_right && plain_left && a.words && result_kind(op, left, left) && op != Op::divide)
        second = written_with(context, b, a);  // 10 g + 5 %: 10 g + 5 g
    else if (plain_right && result_kind(op, left, Kind::number))
        second = std::string(context.sources.text(b.number));  // 2 g × 3 g: 2 g × 3
    else if (result_kind(op, left, fitting(op, left)))
        // Counts of two containers don't mix either: the same again is surely of one.
        second = fitting(op, left) == Kind::count ? first
                                                  : std::string(plain_example(fitting(op, left)));
    else
        first = "10 g", second = std::string(plain_example(fitting(op, Kind::mass)));
    if (op == Op::per) {
        if (!result_kind(op, left, Kind::mass)) first = "1 g";
        second = plain_right ? fmt::format("{} g", context.sources.text(b.number)) : "10 g";
    }
    (void)right;
    return fmt::format("`({} {} {})`", first, sign(op), second);
}

}  // namespace

Finding refused(const Context& context, std::uint32_t file, tree::ExprId id, const Refusal& refusal,
                const Quantity& left, const Quantity& right) {
    const tree::File& tree = context.file(file);
    const tree::Expr& expr = tree.exprs[id];
    if (refusal.why == Refusal::Why::by_zero)
        return {.code = "number-by-zero",
                .message = "A number can't be divided by zero.",
                .span = tree.exprs[expr.right].span,
                .remedy = "Divide by an amount that is not "
                          "nothing."};
    if (refusal.why == Refusal::Why::currencies)
        return {.code = "quantity-kind",
                .message = fmt::format("{} and {} don't add up: no rate stands between them.",
                                       currency_code(left.tag), currency_code(right.tag)),
                .span = expr.span,
                .remedy =
                    fmt::format("`(2 {0} {1} 3 {0})`", currency_code(left.tag), sign(refusal.op))};
    if (refusal.why == Refusal::Why::containers)
        return {.code = "quantity-kind",
                .message =
                    fmt::format("{} and {} are counts of different things.",
                                quantity_words(context, left), quantity_words(context, right)),
                .span = expr.span,
                .remedy = remedy(context, tree, expr, refusal.op, left.kind, right.kind)};
    if (refusal.op == Op::per && left.tag == parts_tag)
        return {.code = "quantity-kind",
                .message = "A weight or a volume stands before `per`, and here it is parts.",
                .span = expr.span,
                .remedy = "Write `1 drop per 10 g`, or parts beside parts."};
    std::string message;
    const auto a = kind_words(left.kind), b = kind_words(right.kind);
    switch (refusal.op) {
        case Op::add: message = fmt::format("{} and {} don't add up.", a, b); break;
        case Op::subtract: message = fmt::format("{} can't be taken from {}.", b, a); break;
        case Op::multiply: message = fmt::format("{} can't be multiplied by {}.", a, b); break;
        case Op::divide: message = fmt::format("{} can't be divided by {}.", a, b); break;
        case Op::per:
            message = right.kind == Kind::mass
                          ? fmt::format("A weight or a volume stands before `per`, and here it is "
                                        "{}.",
                                        a)
                          : fmt::format("A weight stands behind `per`, and here it is {}.", b);
            break;
    }
    if (left.kind == right.kind && left.kind == Kind::temperature_point && refusal.op == Op::add)
        message = "Two readings of temperature don't add up.";
    if (!message.empty() && message[0] >= 'a' && message[0] <= 'z')
        message[0] = static_cast<char>(message[0] - 32);
    return {.code = "quantity-kind",
            .message = std::move(message),
            .span = expr.span,
            .remedy = remedy(context, tree, expr, refusal.op, left.kind, right.kind)};
}

}  // namespace levigate::resolving
