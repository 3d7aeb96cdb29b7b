// Expressions that don't go together as they are written, where it is plain what was meant.

#include <fmt/format.h>

#include "interpreter/resolve/slips.hpp"

namespace levigate::resolving {

namespace {

bool plain(const tree::Expr& expr) {
    return expr.kind == tree::ExprKind::quantity && expr.number && expr.words;
}

/// The expression that takes `id` as its left side; `no_expr` where none does.
tree::ExprId taker_of(const tree::File& file, tree::ExprId id) {
    for (tree::ExprId at = id + 1; at < file.exprs.size(); ++at)
        if (file.exprs[at].left == id) return at;
    return tree::no_expr;
}

/// The span with a bracket around all of it.
Span with_brackets(const Context& context, Span span) {
    const std::string_view text = context.sources[span.source].text;
    const bool both = span.begin > 0 && text[span.begin - 1] == '(' && span.end < text.size() &&
                      text[span.end] == ')';
    return both ? Span{span.source, span.begin - 1, span.end + 1} : span;
}

std::string sentence(std::string text) {
    const bool small = !text.empty() && text[0] >= 'a' && text[0] <= 'z';
    if (small) text[0] = static_cast<char>(text[0] - 32);
    return text;
}

/// `48 slim tubes + 5 %`: 5 % of them more. In a batch that is an overage, and a weight more stays
/// in the bowl.
std::optional<Finding> percent_more(Context& context, std::uint32_t file, tree::ExprId id, Op op,
                                    const Quantity& left, const Quantity& right) {
    const tree::Expr& expr = context.file(file).exprs[id];
    const tree::Expr& a = context.file(file).exprs[expr.left];
    const tree::Expr& b = context.file(file).exprs[expr.right];
    const bool amount =
        left.kind == Kind::mass || left.kind == Kind::volume || left.kind == Kind::count;
    if (!plain(a) || !plain(b) || !amount || (op != Op::add && op != Op::subtract))
        return std::nullopt;
    Finding out{.code = Code::quantity_kind,
                .message =
                    op == Op::add
                        ? sentence(fmt::format("{} and {} don't add up.", kind_words(left.kind),
                                               kind_words(right.kind)))
                        : sentence(fmt::format("{} can't be taken from {}.", kind_words(right.kind),
                                               kind_words(left.kind))),
                .span = expr.span};
    const tree::Line* line = line_at(context, expr.span);
    const auto* batch = line ? std::get_if<tree::BatchLine>(&line->body) : nullptr;
    const bool whole = batch && batch->quantity == id && op == Op::add;
    const bool kept = right.kind == Kind::mass || right.kind == Kind::volume;
    const Span all = with_brackets(context, expr.span);
    const std::string first = context.written(a.span), second = context.written(b.span);
    if (whole && right.kind == Kind::share && batch->overage == tree::no_expr)
        out.fixes = {possible_fix(all, fmt::format("{}, overage {}", first, second))};
    else if (whole && kept && batch->holdback == tree::no_expr)
        out.fixes = {possible_fix(all, fmt::format("{}, holdback {}", first, second))};
    else if (right.kind == Kind::share)
        out.fixes = {possible_fix(
            all, fmt::format(
                     "({} × {})", first,
                     (op == Op::add ? Exact(1) + right.value : Exact(1) - right.value).exactly()))};
    else
        return std::nullopt;
    return out;
}

/// `80 mL × 1.04 g/mL`, read from the left: the density needs brackets of its own.
std::optional<Finding> density_apart(Context& context, std::uint32_t file, tree::ExprId id,
                                     const Quantity& left, const Quantity& right) {
    const tree::File& tree = context.file(file);
    const bool divides = tree.exprs[id].kind == tree::ExprKind::divide;
    // Of `80 mL × 1.04 g` the unit follows, and of `(83 g / 1.04 g) / mL` it is refused itself.
    const tree::ExprId inner = divides ? tree.exprs[id].left : id;
    const tree::ExprId outer = divides ? id : taker_of(tree, id);
    if (inner == tree::no_expr || outer == tree::no_expr) return std::nullopt;
    const tree::Expr& product = tree.exprs[inner];
    const tree::Expr& quotient = tree.exprs[outer];
    if (product.right == tree::no_expr || quotient.kind != tree::ExprKind::divide)
        return std::nullopt;
    const tree::Expr& figure = tree.exprs[product.right];
    const tree::Expr& unit = tree.exprs[quotient.right];
    if (!plain(figure) || unit.kind != tree::ExprKind::unit) return std::nullopt;
    std::string folded;
    fold_name(context.sources.text(unit.words), folded);
    const Measure* per = measure(context, folded);
    const bool times = !divides && left.kind == Kind::volume && right.kind == Kind::mass;
    const bool over = divides && product.kind == tree::ExprKind::divide &&
                      left.kind == Kind::share && right.kind == Kind::volume;
    if (!per || per->one.kind != Kind::volume || (!times && !over)) return std::nullopt;
    const Span span{figure.span.source, figure.span.begin, unit.span.end};
    std::string text = fmt::format("({})", context.sources.text(span));
    return Finding{.code = Code::quantity_kind,
                   .message = fmt::format("× and / are worked out from the left, so that {} is "
                                          "taken before the {} behind it.",
                                          context.written(figure.span), context.written(unit.span)),
                   .span = tree.exprs[id].span,
                   .fixes = {possible_fix(span, std::move(text))}};
}

}  // namespace

std::optional<Finding> meant_otherwise(Context& context, std::uint32_t file, tree::ExprId id, Op op,
                                       const Quantity& left, const Quantity& right) {
    if (auto out = percent_more(context, file, id, op, left, right)) return out;
    if (op == Op::multiply || op == Op::divide)
        return density_apart(context, file, id, left, right);
    return std::nullopt;
}

}  // namespace levigate::resolving
