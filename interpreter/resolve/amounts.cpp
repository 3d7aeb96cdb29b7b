// One ingredient line: what it names, and its amount as a share, a weight, a rest, or by
// another line.

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/resolve/context.hpp"

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

/// True where the first words name a measure that has a block: what is wrong was said there.
bool begins_with_block(Context& context, Span words) {
    const std::string_view text = context.sources.text(words);
    for (std::size_t end = text.find(' ');; end = text.find(' ', end + 1)) {
        std::string folded;
        fold_name(text.substr(0, end), folded);
        if (has_measure_block(context, folded)) return true;
        if (end == std::string_view::npos) return false;
    }
}

/// `8 copper mica`: nothing says 8 of what.
void report_bare(Context& context, Span bare, bool behind_per) {
    const auto number = context.sources.text(bare);
    Finding finding{.code = Code::quantity_bare,
                    .message = fmt::format("{} of what? A number alone is no amount.", number),
                    .span = bare};
    if (!behind_per) {
        finding.advice = fmt::format("Write {0} parts, {0} g or {0} %.", number);
        finding.fixes.push_back(possible_fix(bare, fmt::format("{} parts", number)));
    }
    finding.fixes.push_back(possible_fix(bare, fmt::format("{} g", number)));
    if (!behind_per) finding.fixes.push_back(possible_fix(bare, fmt::format("{} %", number)));
    report(context, std::move(finding));
}

void report_no_measure(Context& context, const tree::Expr& expr, Span words, bool behind_per) {
    if (!expr.number) {
        report(context, {.code = Code::quantity_kind,
                         .message = "A weight stands behind `per`, and this is none.",
                         .span = words,
                         .advice = "Write a weight, as in `per 10 g`; a name that begins with "
                                   "`per` stands in double quotes."});
        return;
    }
    // The words are a name, and the measure is missing.
    if (names_something(context, context.names.find(context.sources.text(words))))
        return report_bare(context, expr.number, behind_per);
    if (begins_with_block(context, words)) return;  // a broken measure, said at its block
    // The first word is taken for the measure; more words would only blur the place.
    const std::string_view text = context.sources.text(words);
    const std::size_t first = text.find_first_of(" \t");
    const auto end =
        static_cast<std::uint32_t>(first == std::string_view::npos ? text.size() : first);
    report_measure(context, {words.source, words.begin, words.begin + end});
}

/// An open line's quantity, parted from its name.
std::optional<Quantity> open_quantity(Context& context, std::uint32_t file,
                                      const tree::Ingredient& line, Env& env, Span& name,
                                      Span& amount) {
    const tree::Expr& whole = context.file(file).exprs[line.amount.expr];
    const tree::Expr& open = open_expr(context.file(file), line.amount.expr);
    const auto split = split_measure(context, open.words);
    if (!split) {
        report_no_measure(context, open, open.words, whole.kind == tree::ExprKind::per);
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

/// `2 g + 3 g vanilla`: behind the measure the sum goes on, and no name begins.
bool sum_goes_on(Context& context, Span rest) {
    const std::string_view text = context.sources.text(rest);
    if (text.size() < 3 || (text[0] != '+' && text[0] != '-') || text[1] != ' ') return false;
    const std::size_t next = text.find_first_not_of(" \t", 1);
    if (next == text.npos || text[next] < '0' || text[next] > '9') return false;
    report(context, {.code = Code::line_malformed,
                     .message = "An amount that is reckoned out stands in brackets.",
                     .span = {rest.source, rest.begin, rest.begin + 1},
                     .example = "(2 × 3 %) Dusk mica"});
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
                report(context,
                       {.code = Code::line_malformed,
                        .message = "Here should stand the name of an ingredient.",
                        .span = {rest.source, line.span.end, line.span.end},
                        .example = fmt::format("{}  Windfall mica", context.written(line.span))});
                return out;
            }
            if (value && sum_goes_on(context, rest)) return out;
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
