// Values as they were written, in the one canonical form: what a hole prints in a name, a step or
// a note.

#include "interpreter/formulary/say.hpp"
#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

namespace {

const Measure* measure_of(Context& context, const tree::Expr& expr) {
    std::string folded;
    fold_name(context.sources.text(expr.words), folded);
    return measure(context, folded);
}

/// The measure behind so many; `USD` is the same behind any.
std::string name_behind(const Measure& measure, const Exact& number) {
    return measure.one.kind == Kind::money ? measure.name : counted(measure.name, number);
}

/// `2 drops`, `1/2 part`, `mL` of a lone measure; a reading of temperature in both scales.
std::string literal_words(Context& context, const tree::Expr& expr, const Quantity& value) {
    const std::string number =
        expr.number ? canonical_number(context.sources.text(expr.number)) : std::string();
    if (!expr.words) return number;
    const Measure* known = measure_of(context, expr);
    if (!known || value.kind == Kind::temperature_point) return quantity_words(context, value);
    if (number.empty()) return known->name;
    const auto size = read_number(number);
    return number + ' ' + name_behind(*known, size ? *size : Exact(1));
}

void ask_hole(Context& context, Binding& binding, Env& env);

/// The measure that all literals below are in, holes filled. A stack, for sums are long.
Unit unit_of(Context& context, std::uint32_t file, tree::ExprId id, Env& env) {
    const auto& exprs = context.file(file).exprs;
    Unit unit;
    std::vector<tree::ExprId> open = {id};
    while (!open.empty() && !unit.mixed) {
        const tree::Expr& expr = exprs[open.back()];
        open.pop_back();
        Unit here;
        if (expr.kind == tree::ExprKind::hole) {
            if (Binding* binding = env.find(expr.hole)) {
                ask_hole(context, *binding, env);
                here = env.find(expr.hole)->unit;
            }
        } else if (expr.words) {
            here.one = measure_of(context, expr);
        }
        if (expr.right != tree::no_expr) open.push_back(expr.right);
        if (expr.left != tree::no_expr) open.push_back(expr.left);
        if (here.mixed || (here.one && unit.one && here.one->name != unit.one->name))
            return {nullptr, true};
        if (here.one) unit = here;
    }
    return unit;
}

/// What a reckoned value comes to: `7 %` of `3 % + 4 %`.
std::string result_words(Context& context, const Quantity& value, const Unit& unit) {
    const bool fits = unit.one && !unit.mixed && unit.one->one.kind == value.kind &&
                      unit.one->one.tag == value.tag && value.kind != Kind::temperature_point;
    if (!fits) return quantity_words(context, value);
    const Exact number = value.value / unit.one->one.value;
    return number.exactly() + ' ' + name_behind(*unit.one, number);
}

bool is_asked(const Binding& binding) { return !binding.quantity || !binding.words.empty(); }

void ask_one(Context& context, Sym hole, Env& env) {
    const Binding& binding = *env.find(hole);
    std::string words;
    Unit unit;
    if (binding.value.expr == tree::no_expr) {
        words = quantity_words(context, *binding.quantity);  // the number of a step
    } else {
        const std::uint32_t file = binding.file;
        const tree::ExprId expr = binding.value.expr;
        words = written_words(context, file, expr, env);
        unit = unit_of(context, file, expr, env);
    }
    Binding* filled = env.find(hole);
    filled->words = std::move(words);
    filled->unit = unit;
}

/// Words and measure of what the hole holds, found once, and before them those of all holes that it
/// is filled from: a stack of its own, however long the way.
void ask_hole(Context& context, Binding& binding, Env& env) {
    if (is_asked(binding)) return;
    std::vector<std::pair<Sym, bool>> open{{binding.hole, false}};
    while (!open.empty()) {
        auto& [hole, seen] = open.back();
        Binding* one = env.find(hole);
        if (!one || is_asked(*one)) {
            open.pop_back();
        } else if (seen) {
            const Sym last = hole;
            open.pop_back();
            ask_one(context, last, env);
        } else {
            seen = true;
            for (const Sym from : holes_in(context, *one)) open.push_back({from, false});
        }
    }
}

/// `2 drops per 10 g`, `1 in 1000`, `8 g/mL`: what stands behind is written as it is.
const char* joint_of(const tree::File& file, const tree::Expr& expr) {
    if (expr.kind == tree::ExprKind::per) return " per ";
    if (expr.kind == tree::ExprKind::in) return " in ";
    const bool unit = expr.kind == tree::ExprKind::divide &&
                      file.exprs[expr.right].kind == tree::ExprKind::unit;
    return unit ? "/" : nullptr;
}

}  // namespace

std::string written_words(Context& context, std::uint32_t file, tree::ExprId id, Env& env) {
    const auto value = evaluate(context, file, id, env);
    if (!value) return {};
    const tree::Expr expr = context.file(file).exprs[id];
    const auto words = [&](tree::ExprId inner) { return written_words(context, file, inner, env); };
    switch (expr.kind) {
        case tree::ExprKind::quantity:
        case tree::ExprKind::unit: return literal_words(context, expr, *value);
        case tree::ExprKind::hole: return hole_words(context, *env.find(expr.hole), env);
        case tree::ExprKind::negate: return '-' + words(expr.left);
        default: break;
    }
    if (!joint_of(context.file(file), expr))
        return result_words(context, *value, unit_of(context, file, id, env));
    // Joints lean to the left: a loop, as in `evaluate`.
    std::vector<tree::ExprId> spine;
    tree::ExprId at = id;
    while (joint_of(context.file(file), context.file(file).exprs[at])) {
        spine.push_back(at);
        at = context.file(file).exprs[at].left;
    }
    std::string out = words(at);
    for (; !spine.empty(); spine.pop_back()) {
        const tree::Expr joint = context.file(file).exprs[spine.back()];
        out += joint_of(context.file(file), joint) + words(joint.right);
    }
    return out;
}

std::string hole_words(Context& context, Binding& binding, Env& env) {
    if (binding.quantity) {
        ask_hole(context, binding, env);
        return env.find(binding.hole)->words;
    }
    if (!binding.name) return {};
    const Sym sym = binding.name.sym;
    if (sym < context.ingredient_of.size() && context.ingredient_of[sym] != no_ingredient)
        return context.out.name(context.ingredient_of[sym]);
    if (const At shade = look(context.scope.shade, sym))
        return context.written(context.block(shade).name.span);
    return context.written(binding.name.span);
}

}  // namespace levigate::resolving
