// Expressions to quantities, checked by kind before anything is reckoned.

#include <fmt/format.h>

#include "grammar/lines.hpp"
#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/measure/iso4217.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/slips.hpp"

namespace levigate::resolving {

std::optional<Quantity> so_many(Context& context, Span written, const Quantity& one) {
    const auto number =
        written ? read_number(context.sources.text(written)) : std::optional<Exact>(Exact(1));
    if (!number) {
        report(context, {.code = Code::number_malformed,
                         .message = "This is not a number that can be read.",
                         .span = written,
                         .example = "0.5, 1/2 or 2 1/2"});
        return std::nullopt;
    }
    if (number->by_zero()) {
        report(context, {.code = Code::number_by_zero,
                         .message = "A number can't be divided by zero.",
                         .span = written,
                         .advice = "Divide by 1 or more."});
        return std::nullopt;
    }
    if (number->capped()) {
        report(context, {.code = Code::number_too_long,
                         .message = "This number has more digits than can be reckoned with.",
                         .span = written,
                         .advice = "Write a number of at most 1000 digits."});
        return std::nullopt;
    }
    // A reading in Fahrenheit has its own zero; the tag 1 marks it until it is Celsius.
    if (one.kind == Kind::temperature_point)
        return Quantity{one.kind, one.tag == 1 ? celsius_from_fahrenheit(*number) : *number, 0};
    return Quantity{one.kind, *number * one.value, one.tag};
}

namespace {

std::optional<Quantity> literal(Context& context, const tree::Expr& expr) {
    const Quantity plain{Kind::number, Exact(1), 0};
    if (!expr.words) return so_many(context, expr.number, plain);
    std::string folded;
    fold_name(context.sources.text(expr.words), folded);
    const Measure* known = measure(context, folded);
    if (known) return so_many(context, expr.number, known->one);
    if (so_many(context, expr.number, plain)) report_measure(context, expr.words);
    return std::nullopt;
}

/// A hole that holds a name where an amount is due, or the other way round. What a family fills it
/// with is looked at there; a `let`, where it is used.
void report_hole_kind(Context& context, Sym hole, Span used, const Binding& binding) {
    const bool amount = binding.quantity.has_value();
    const bool family = !binding.hole_span;
    const std::string_view held = amount ? "an amount" : "a name";
    report(context,
           {.code = Code::hole_kind,
            .message =
                fmt::format("{{{}}} holds {}, and {} is due {}.", context.names.folded(hole), held,
                            amount ? "a name" : "a quantity", family ? "where it stands" : "here"),
            .span = family ? binding.span : used,
            .advice = family ? fmt::format("Write {} here.", amount ? "a name" : "an amount")
                             : fmt::format("Write a hole that holds {}.",
                                           amount ? "a name" : "an amount"),
            .notes = {family ? Note{used, "it stands here"}
                             : Note{binding.span, fmt::format("it holds {}", held)}}});
}

std::optional<Quantity> hole(Context& context, const tree::Expr& expr, Env& env) {
    Name name{expr.hole, expr.span, true};
    Binding* binding = settle(context, name, env);
    if (!binding) return std::nullopt;
    if (binding->quantity) return binding->quantity;
    if (binding->name) report_hole_kind(context, expr.hole, expr.span, *binding);
    return std::nullopt;
}

Op op_of(tree::ExprKind kind) {
    switch (kind) {
        case tree::ExprKind::add: return Op::add;
        case tree::ExprKind::subtract: return Op::subtract;
        case tree::ExprKind::multiply: return Op::multiply;
        case tree::ExprKind::divide: return Op::divide;
        default: return Op::per;
    }
}

}  // namespace

std::optional<Quantity> join_values(Context& context, std::uint32_t file, tree::ExprId id,
                                    const Quantity& left, const Quantity& right) {
    const tree::Expr& expr = context.file(file).exprs[id];
    if (expr.kind == tree::ExprKind::in) {
        if (left.kind == Kind::number && right.kind == Kind::number && !right.value.is_zero())
            return Quantity{Kind::share, left.value / right.value, 0};
        const bool zero = right.value.is_zero();
        report(context, {.code = zero ? Code::number_by_zero : Code::quantity_kind,
                         .message = zero ? "A number can't be divided by zero."
                                         : "Plain numbers stand on both sides of `in`.",
                         .span = context.file(file).exprs[expr.right].span,
                         .example = "1 in 1000"});
        return std::nullopt;
    }
    auto result = combine(op_of(expr.kind), left, right);
    if (const auto* refusal = std::get_if<Refusal>(&result)) {
        report(context, refused(context, file, id, *refusal, left, right));
        return std::nullopt;
    }
    const auto& value = std::get<Quantity>(result);
    if (value.value.capped()) {
        report(context, {.code = Code::number_too_long,
                         .message = "This comes to more digits than can be reckoned with.",
                         .span = expr.span,
                         .advice = "Use simpler numbers."});
        return std::nullopt;
    }
    return value;
}

std::optional<Quantity> evaluate(Context& context, std::uint32_t file, tree::ExprId id, Env& env) {
    const tree::Expr& expr = context.file(file).exprs[id];
    switch (expr.kind) {
        case tree::ExprKind::quantity:
        case tree::ExprKind::unit: return literal(context, expr);
        case tree::ExprKind::hole: return hole(context, expr, env);
        case tree::ExprKind::negate: {
            auto inner = evaluate(context, file, expr.left, env);
            if (inner) inner->value = -inner->value;
            return inner;
        }
        default: break;
    }
    // A long sum leans to the left: it is walked along its spine, not by recursion, so that a
    // file of a million terms needs no deep stack.
    std::vector<tree::ExprId> spine;
    tree::ExprId at = id;
    const auto& exprs = context.file(file).exprs;
    while (exprs[at].left != tree::no_expr && exprs[at].kind != tree::ExprKind::negate) {
        spine.push_back(at);
        at = exprs[at].left;
    }
    auto left = evaluate(context, file, at, env);
    for (; !spine.empty(); spine.pop_back()) {
        const tree::ExprId here = spine.back();
        const auto right = evaluate(context, file, exprs[here].right, env);
        if (!left || !right)
            left = std::nullopt;
        else
            left = join_values(context, file, here, *left, *right);
    }
    return left;
}

void in_her_figure(const Context& context, Finding& finding) {
    const std::string_view figure = context.sources.text(finding.span);
    constexpr std::string_view number = "0123456789./";
    const std::size_t measure = finding.example.find_first_not_of(number);
    if (figure.empty() || figure.find_first_not_of(number) != figure.npos ||
        measure == std::string::npos || measure == 0 ||
        finding.example.find_first_of("0123456789", measure) != std::string::npos)
        return;
    finding.fixes = {possible_fix(
        finding.span, fmt::format("{}{}", figure, finding.example.substr(measure)))};
    finding.example.clear();
}

std::optional<Quantity> evaluate_as(Context& context, std::uint32_t file, tree::ExprId expr,
                                    Env& env, Kind kind, std::string_view example) {
    const auto value = evaluate(context, file, expr, env);
    if (!value || value->kind == kind) return value;
    const bool bare = value->kind == Kind::number;
    const bool poured = kind == Kind::share && value->kind == Kind::volume_per_mass;
    std::string message =
        bare ? fmt::format("{} is due here, and this number has no measure.", kind_words(kind))
             : fmt::format("{} is due here, and this is {}.", kind_words(kind),
                           kind_words(value->kind));
    if (message[0] >= 'a' && message[0] <= 'z') message[0] = static_cast<char>(message[0] - 32);
    Finding finding{
        .code = bare ? Code::quantity_bare : Code::quantity_kind,
        .message = std::move(message),
        .span = context.file(file).exprs[expr].span,
        .advice = poured ? "Weigh what the volume comes to, and write `0.1 g per 10 g` or `1 %`."
                         : "",
        .example = std::string(example)};
    if (bare) in_her_figure(context, finding);
    report(context, std::move(finding));
    return std::nullopt;
}

std::optional<Exact> evaluate_factor(Context& context, std::uint32_t file, tree::ExprId expr,
                                     Env& env) {
    const auto value = evaluate(context, file, expr, env);
    if (!value) return std::nullopt;
    if (value->kind != Kind::number && value->kind != Kind::share) {
        report(context, {.code = Code::quantity_kind,
                         .message = fmt::format("A plain number is due here, and this is {}.",
                                                kind_words(value->kind)),
                         .span = context.file(file).exprs[expr].span,
                         .example = "1/2 or 50 %"});
        return std::nullopt;
    }
    if (value->value.sign() < 0) {
        report(context, {.code = Code::amount_negative,
                         .message = "A factor can't be less than nothing.",
                         .span = context.file(file).exprs[expr].span,
                         .example = "1/2 or 50 %"});
        return std::nullopt;
    }
    return value->value;
}

Span with_braces(const Context& context, Span hole) {
    if (!hole) return hole;
    const std::string_view text = context.sources[hole.source].text;
    const auto size = static_cast<std::uint32_t>(text.size());
    const std::uint32_t begin = trim_end(text, 0, hole.begin);
    const std::uint32_t end = skip_blanks(text, hole.end, size);
    if (begin == 0 || text[begin - 1] != '{' || end == size || text[end] != '}') return hole;
    return {hole.source, begin - 1, end + 1};
}

std::vector<Fix> near_hole(const Context& context, const Env& env, const Name& hole) {
    Nearest nearest(context.names.folded(hole.sym));
    for (const Binding& binding : env.bindings)
        nearest.offer(context.names.folded(binding.hole), binding.hole);
    std::vector<Fix> out;
    for (const std::size_t id : nearest.best())
        out.push_back(
            possible_fix(with_braces(context, hole.span),
                         fmt::format("{{{}}}", context.names.folded(static_cast<Sym>(id)))));
    return out;
}

std::vector<Sym> holes_in(const Context& context, const Binding& binding) {
    std::vector<Sym> out;
    if (binding.value.expr == tree::no_expr) {
        if (binding.value.name.hole) out.push_back(binding.value.name.sym);
        return out;
    }
    const auto& exprs = context.file(binding.file).exprs;
    std::vector<tree::ExprId> todo{binding.value.expr};
    while (!todo.empty()) {
        const tree::Expr& expr = exprs[todo.back()];
        todo.pop_back();
        if (expr.kind == tree::ExprKind::hole) out.push_back(expr.hole);
        if (expr.right != tree::no_expr) todo.push_back(expr.right);
        if (expr.left != tree::no_expr) todo.push_back(expr.left);
    }
    return out;
}

namespace {

/// All that it is filled from is done, or under way.
void settle_one(Context& context, Sym hole, Env& env) {
    Binding* binding = env.find(hole);
    const std::uint32_t file = binding->file;
    const tree::Value value = binding->value;
    if (value.expr == tree::no_expr) {
        const Name name = resolve_name(context, value.name, env);
        binding = env.find(hole);
        binding->name = name;
    } else if (const auto& expr = context.file(file).exprs[value.expr];
               expr.kind == tree::ExprKind::hole) {
        // A hole that holds a hole holds what that one holds, an amount or a name.
        const Binding* other = settle(context, {expr.hole, expr.span, true}, env);
        binding = env.find(hole);
        if (other) binding->quantity = other->quantity, binding->name = other->name;
    } else {
        const auto quantity = evaluate(context, file, value.expr, env);
        binding = env.find(hole);
        binding->quantity = quantity;
    }
    binding->state = Binding::State::done;
}

/// A hole and all that it is filled from, the last first: a stack of its own, however long the way.
void settle_all(Context& context, Binding& first, Env& env) {
    struct Frame {
        Sym hole;
        std::vector<Sym> from;
        std::size_t next = 0;
    };
    std::vector<Frame> open;
    const auto enter = [&](Binding& binding) {
        binding.state = Binding::State::working;
        open.push_back({binding.hole, holes_in(context, binding)});
    };
    enter(first);
    while (!open.empty()) {
        Frame& top = open.back();
        if (top.next == top.from.size()) {
            const Sym hole = top.hole;
            settle_one(context, hole, env);
            open.pop_back();
        } else if (Binding* one = env.find(top.from[top.next++]);
                   one && one->state == Binding::State::fresh) {
            enter(*one);
        }
    }
}

}  // namespace

Binding* settle(Context& context, Name hole, Env& env) {
    Binding* binding = env.find(hole.sym);
    if (!binding && env.lost) return nullptr;
    if (!binding) {
        const std::vector<Fix> near = near_hole(context, env, hole);
        const auto name = context.names.folded(hole.sym);
        report(context,
               {.code = Code::hole_unknown,
                .message = fmt::format("Nothing fills the hole {{{}}} here.", name),
                .span = hole.span,
                .advice = near.empty() ? fmt::format("Add a line `let {{{}}} = …`.", name) : "",
                .fixes = near});
        return nullptr;
    }
    if (binding->state == Binding::State::done) return binding;
    if (binding->state == Binding::State::working) {
        report(context, {.code = Code::let_loop,
                         .message = fmt::format("{{{}}} is reckoned from itself.",
                                                context.names.folded(hole.sym)),
                         .span = binding->hole_span ? binding->hole_span : binding->span,
                         .advice = "Use only other holes in this `let`."});
        return nullptr;
    }
    settle_all(context, *binding, env);
    return env.find(hole.sym);
}

Name resolve_name(Context& context, const Name& name, Env& env) {
    if (!name.hole) return name;
    const Binding* binding = settle(context, name, env);
    if (!binding) return {};
    if (binding->quantity) {
        report_hole_kind(context, name.sym, name.span, *binding);
        return {};
    }
    return binding->name;  // with the place where the hole was filled: a slip stands there
}

std::string quantity_words(const Context& context, const Quantity& quantity) {
    const std::string number = quantity.value.exactly();
    switch (quantity.kind) {
        case Kind::number: return number;
        case Kind::share: return (quantity.value * 100).exactly() + " %";
        case Kind::mass: return number + " g";
        case Kind::volume: return number + " mL";
        case Kind::count:
            if (quantity.tag == parts_tag) return number + ' ' + counted("part", quantity.value);
            if (quantity.tag == 0 || quantity.tag > context.out.containers.size())
                return number + ' ' + counted("piece", quantity.value);
            return number + ' ' +
                   counted(context.out.containers[quantity.tag - 1].name, quantity.value);
        case Kind::money: return fmt::format("{} {}", number, currency_code(quantity.tag));
        case Kind::density: return number + " g/mL";
        case Kind::volume_per_mass: return number + " mL per g";
        case Kind::money_per_mass:
            return fmt::format("{} {} per g", number, currency_code(quantity.tag));
        case Kind::money_per_volume:
            return fmt::format("{} {} per mL", number, currency_code(quantity.tag));
        case Kind::money_per_count:
            return fmt::format("{} {} each", number, currency_code(quantity.tag));
        case Kind::temperature_step: return number + " K";
        case Kind::temperature_point:
            return fmt::format("{} °C ({} °F)", number,
                               fahrenheit_from_celsius(quantity.value).decimal(1));
    }
    return number;
}

}  // namespace levigate::resolving
