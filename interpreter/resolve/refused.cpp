// Kinds that don't go together: what is wrong in the maker's words, and an expression to write
// instead. Each such expression itself checks; a test works them all out.

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/measure/iso4217.hpp"
#include "interpreter/resolve/slips.hpp"

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

/// One side of an expression to write instead.
struct Side {
    std::string text;
    bool own = false;  ///< in the maker's words and numbers
};

Side from_example(Kind kind) { return {std::string(plain_example(kind)), false}; }

std::string written_with(const Context& context, const tree::Expr& number,
                         const tree::Expr& words) {
    return fmt::format("{} {}", context.sources.text(number.number),
                       context.sources.text(with_quotes(context, words.words)));
}

/// True if a bracket ends or begins between the sides: the span of both then cuts it in two.
bool cuts_brackets(const Context& context, const tree::Expr& a, const tree::Expr& b) {
    const Span between{a.span.source, a.span.end, b.span.begin};
    return context.sources.text(between).find_first_of("()") != std::string_view::npos;
}

/// Gives the finding an expression that works: a fix if both sides are the maker's own.
Finding with_expression(const Context& context, const tree::File& file, const tree::Expr& expr,
                        Op op, Kind left, Finding finding) {
    const tree::Expr& a = file.exprs[expr.left];
    const tree::Expr& b = file.exprs[expr.right];
    const bool plain_left = a.kind == tree::ExprKind::quantity;
    const bool plain_right = b.kind == tree::ExprKind::quantity && b.number;
    Side first = plain_left ? Side{context.written(a.span), true} : from_example(left);
    Side second;
    if (plain_right && plain_left && a.words && result_kind(op, left, left) && op != Op::divide)
        second = {written_with(context, b, a), true};  // 10 g + 5 %: 10 g + 5 g
    else if (plain_right && result_kind(op, left, Kind::number))
        second = {std::string(context.sources.text(b.number)), true};  // 2 g × 3 g: 2 g × 3
    else if (!result_kind(op, left, fitting(op, left)))
        first = {"10 g"}, second = from_example(fitting(op, Kind::mass));
    else if (fitting(op, left) == Kind::count)
        // Counts of two containers don't mix either: the same again is surely of one.
        second = {first.text};
    else
        second = from_example(fitting(op, left));
    if (op == Op::per) {
        if (!result_kind(op, left, Kind::mass)) first = {"1 g"};
        second = {"10 g"};
        if (plain_right) second = {fmt::format("{} g", context.sources.text(b.number)), true};
    }
    std::string text = fmt::format("({} {} {})", first.text, sign(op), second.text);
    if (first.own && second.own && !cuts_brackets(context, a, b))
        finding.fixes = {possible_fix(expr.span, std::move(text))};
    else
        finding.example = std::move(text);
    return finding;
}

}  // namespace

Finding refused(Context& context, std::uint32_t file, tree::ExprId id, const Refusal& refusal,
                const Quantity& left, const Quantity& right) {
    const tree::File& tree = context.file(file);
    const tree::Expr& expr = tree.exprs[id];
    if (refusal.why == Refusal::Why::by_zero)
        return {.code = Code::number_by_zero,
                .message = "A number can't be divided by zero.",
                .span = tree.exprs[expr.right].span,
                .advice = "Divide by an amount that is not nothing."};
    if (refusal.why == Refusal::Why::currencies)
        return {.code = Code::quantity_kind,
                .message = fmt::format("{} and {} don't add up: no rate stands between them.",
                                       currency_code(left.tag), currency_code(right.tag)),
                .span = expr.span,
                .example =
                    fmt::format("(2 {0} {1} 3 {0})", currency_code(left.tag), sign(refusal.op))};
    if (refusal.why == Refusal::Why::containers)
        return with_expression(
            context, tree, expr, refusal.op, left.kind,
            {.code = Code::quantity_kind,
             .message = fmt::format("{} and {} are counts of different things.",
                                    quantity_words(context, left), quantity_words(context, right)),
             .span = expr.span});
    if (refusal.op == Op::per && left.tag == parts_tag)
        return {.code = Code::quantity_kind,
                .message = "A weight or a volume stands before `per`, and here it is parts.",
                .span = expr.span,
                .advice = "Write `1 drop per 10 g`, or parts beside parts."};
    if (auto meant = meant_otherwise(context, file, id, refusal.op, left, right)) return *meant;
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
    return with_expression(
        context, tree, expr, refusal.op, left.kind,
        {.code = Code::quantity_kind, .message = std::move(message), .span = expr.span});
}

}  // namespace levigate::resolving
