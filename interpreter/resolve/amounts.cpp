// One ingredient line: what it names, and its amount as a share, a weight, a rest, or by
// another line.

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/resolve/slips.hpp"

namespace levigate::resolving {

OriginId add_origin(Context& context, Origin origin) {
    context.out.origins.push_back(std::move(origin));
    return static_cast<OriginId>(context.out.origins.size() - 1);
}

OriginId add_filled(Context& context, const std::vector<Span>& filled, OriginId before) {
    for (const Span span : filled)
        before = add_origin(
            context, {.kind = OriginKind::filled, .span = span, .before = before, .value = {}});
    return before;
}

Exact amount_value(const PartAmount& amount) {
    if (const auto* share = std::get_if<Share>(&amount)) return as_fraction(*share);
    if (const auto* weight = std::get_if<Weight>(&amount)) return in_grams(weight->mass);
    if (const auto* as_much = std::get_if<AsMuch>(&amount)) return as_much->factor;
    if (const auto* enough = std::get_if<Enough>(&amount)) return as_fraction(enough->share);
    return Exact();
}

namespace {

/// The innermost quantity of an open line: the one whose words hold the measure and the name.
const tree::Expr& open_expr(const tree::File& file, tree::ExprId id) {
    const tree::Expr& expr = file.exprs[id];
    return expr.kind == tree::ExprKind::per ? file.exprs[expr.right] : expr;
}

/// An open line's quantity, parted from its name.
std::optional<Quantity> open_quantity(Context& context, std::uint32_t file,
                                      const tree::Ingredient& line, Env& env, Span& name,
                                      Span& amount) {
    const tree::Expr& whole = context.file(file).exprs[line.amount.expr];
    const tree::Expr& open = open_expr(context.file(file), line.amount.expr);
    const auto split = split_measure(context, open.words);
    if (!split) {
        report_no_measure(context, open,
                          whole.kind == tree::ExprKind::per ? Bare::behind_per : Bare::amount);
        return std::nullopt;
    }
    name = split->name;
    amount = {whole.span.source, whole.span.begin, split->measure.end};
    const auto right = so_many(context, open.number, split->one);
    if (!right) return std::nullopt;
    const Quantity& value = *right;
    if (whole.kind != tree::ExprKind::per) return value;
    const auto left = evaluate(context, file, whole.left, env);
    if (!left) return std::nullopt;
    auto result = combine(Op::per, *left, value);
    if (const auto* refusal = std::get_if<Refusal>(&result)) {
        Finding wrong = refused(context, file, line.amount.expr, *refusal, *left, value);
        wrong.span =
            refusal->why == Refusal::Why::by_zero ? cover(open.number, split->measure) : amount;
        for (Fix& fix : wrong.fixes) fix.span = amount;
        report(context, std::move(wrong));
        return std::nullopt;
    }
    return std::get<Quantity>(result);
}

/// What kinds of quantity can be an amount of something.
std::optional<PartAmount> as_amount(Context& context, Span span, Quantity value,
                                    std::optional<Quantity>& poured) {
    if (value.value.sign() < 0) {
        report(context, {.code = Code::amount_negative,
                         .message = fmt::format("This comes to {}, less than nothing.",
                                                quantity_words(context, value)),
                         .span = span,
                         .advice = "Write an amount above 0."});
        return std::nullopt;
    }
    if (value.kind == Kind::count && value.tag != parts_tag && value.tag != 0) {
        const Container& container = context.out.containers[value.tag - 1];
        if (const auto* mass = std::get_if<Mass>(&container.holds))
            value = {Kind::mass, value.value * in_grams(*mass), 0};
        if (const auto* volume = std::get_if<Volume>(&container.holds))
            value = {Kind::volume, value.value * in_millilitres(*volume), 0};
    }
    switch (value.kind) {
        case Kind::share: return share(value.value);
        case Kind::mass: return Weight{grams(value.value), false};
        case Kind::count:
            if (value.tag == parts_tag) return Weight{grams(value.value), true};
            break;
        case Kind::volume: poured = value; return Weight{};
        case Kind::volume_per_mass: poured = value; return Share{};
        default: break;
    }
    const bool bare = value.kind == Kind::number;
    report(context, {.code = bare ? Code::quantity_bare : Code::quantity_kind,
                     .message = bare ? "A number alone is no amount."
                                     : fmt::format("An amount is a share, a weight or a volume, "
                                                   "and this is {}.",
                                                   kind_words(value.kind)),
                     .span = span,
                     .advice = value.kind == Kind::density
                                   ? "Write a weight behind `per`, as in `1 g per 10 g`."
                                   : "",
                     .example = "8 parts, 8 g or 8 %"});
    return std::nullopt;
}

std::optional<PartAmount> as_much(Context& context, std::uint32_t file, const tree::Amount& amount,
                                  Env& env, bool finish) {
    Exact factor(amount.times, amount.over);
    if (amount.expr != tree::no_expr) {
        const auto times = evaluate_factor(context, file, amount.expr, env);
        if (!times) return std::nullopt;
        factor *= *times;
    }
    const auto ref = resolve_ref(context, amount.ref, finish, env);
    if (!ref) return std::nullopt;
    return AsMuch{factor, *ref};
}

}  // namespace

namespace {

/// A bare name that begins with a number; in quotes it may.
bool begins_with_digit(const Context& context, Span name) {
    const std::string_view text = context.sources[name.source].text;
    const auto digit = [&](std::uint32_t at) { return text[at] >= '0' && text[at] <= '9'; };
    if (name.begin >= name.end || !digit(name.begin)) return false;
    if (name.begin == 0) return true;
    const auto before = static_cast<unsigned char>(text[name.begin - 1]);
    return before != '"' && before != 0x9C && before != 0x9D && before != 0x9E;
}

}  // namespace

namespace {

/// A name of the maker's own, for an example.
std::string some_name(const Context& context) {
    for (const LoadedFile& file : context.files)
        for (const tree::Block& block : file.tree.blocks)
            if (!file.library && block.name &&
                (block.heading == Heading::material || block.heading == Heading::blend))
                return shown(context.written(block.name.span));
    return "NAME";
}

/// `2 g + 3 g vanilla`: behind the measure the sum goes on, and no name begins.
bool sum_goes_on(Context& context, Span amount, Span rest) {
    const std::string_view text = context.sources.text(rest);
    if (text.size() < 3 || (text[0] != '+' && text[0] != '-') || text[1] != ' ') return false;
    const std::size_t next = text.find_first_not_of(" \t", 1);
    if (next == text.npos || text[next] < '0' || text[next] > '9') return false;
    Finding out{.code = Code::line_malformed,
                .message = "An amount that is reckoned out stands in brackets.",
                .span = {rest.source, rest.begin, rest.begin + 1},
                .example = "(2 × 3 %)"};
    const std::size_t word =
        text.find_first_not_of(" \t", text.find_first_not_of("0123456789./", next));
    if (word != text.npos) {
        const auto begin = rest.begin + static_cast<std::uint32_t>(word);
        if (const auto other = split_measure(context, {rest.source, begin, rest.end})) {
            const Span sum{rest.source, amount.begin, other->measure.end};
            out.fixes = {possible_fix(sum, fmt::format("({})", context.sources.text(sum)))};
            out.example.clear();
        }
    }
    report(context, std::move(out));
    return true;
}

/// The lines that fill `{depth}`, or `{drops} per {whole}`.
std::vector<Span> filled_by(const tree::File& file, tree::ExprId id, Env& env) {
    std::vector<Span> out;
    const auto look_at = [&](const tree::Expr& expr) {
        if (expr.kind != tree::ExprKind::hole) return;
        if (const Binding* binding = env.find(expr.hole)) out.push_back(binding->span);
    };
    const tree::Expr& whole = file.exprs[id];
    look_at(whole);
    if (whole.kind == tree::ExprKind::per)
        look_at(file.exprs[whole.left]), look_at(file.exprs[whole.right]);
    return out;
}

}  // namespace

ResolvedLine resolve_line(Context& context, std::uint32_t file, const tree::Line& line, Env& env,
                          bool finish) {
    const auto& written = std::get<tree::Ingredient>(line.body);
    ResolvedLine out;
    Name name = written.name;
    std::optional<Quantity> value;
    const tree::Amount& amount = written.amount;
    out.amount_span = amount.span;
    if (amount.kind == tree::AmountKind::quantity) {
        if (written.open) {
            Span rest{};
            value = open_quantity(context, file, written, env, rest, out.amount_span);
            if (value && rest.begin == rest.end) {
                report(context, {.code = Code::line_malformed,
                                 .message = "The name of an ingredient is missing here.",
                                 .span = {rest.source, line.span.end, line.span.end},
                                 .example = fmt::format("{}  {}", context.written(line.span),
                                                        some_name(context))});
                return out;
            }
            if (value && sum_goes_on(context, out.amount_span, rest)) return out;
            if (rest) name = {context.names.intern(context.sources.text(rest)), rest, false};
        } else {
            value = evaluate(context, file, amount.expr, env);
        }
        if (value) out.amount = as_amount(context, out.amount_span, *value, out.poured);
        out.filled = filled_by(context.file(file), amount.expr, env);
    } else if (amount.kind == tree::AmountKind::rest) {
        out.amount = Rest{};
    } else if (amount.kind == tree::AmountKind::as_much) {
        out.amount = as_much(context, file, amount, env, finish);
    } else {
        const auto ref = resolve_ref(context, amount.ref, finish, env);
        const auto due = evaluate_as(context, file, amount.expr, env, Kind::share, "5 %");
        if (ref && due) out.amount = Enough{*ref, share(due->value)};
    }
    if (amount.kind == tree::AmountKind::quantity && name && !name.hole &&
        begins_with_digit(context, name.span)) {
        // A name that nothing has may be a slip of more than the quotes.
        report(context,
               {.code = Code::line_malformed,
                .message = "Behind an amount, a name that begins with a number could be read as "
                           "part of the amount.",
                .span = name.span,
                .fixes = {{name.span, fmt::format("\"{}\"", context.written(name.span)),
                           names_something(context, name.sym)}}});
        out.amount.reset();
        return out;
    }
    // The name is looked up even where the amount is broken: it may be unknown as well.
    if (name) {
        out.name_span = name.span;
        out.what = find_ingredient(context, name, env);
        out.ambiguous = ambiguous_name(context, name, env);
    }
    return out;
}

}  // namespace levigate::resolving
