// Blends and shades that stand as ingredients: their lines, and what they come to.

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

namespace {

void resolve_blend(Context& context, IngredientId id) {
    const At at = context.blend_at[id];
    const std::vector<At> chain = chain_of(context, at, context.scope.material_or_blend);
    Recipe recipe;
    recipe.broken = true;
    Env env;
    if (!chain.empty()) {
        for (const At& one : chain) add_lets(context, one, env);
        recipe = build_recipe(context, chain, env);
    }
    const std::string name = context.out.name(id);
    Formula formula;
    const bool lost = recipe.broken;
    const bool solved =
        finish_formula(context, recipe, formula, name, context.out.ingredients[id].span, lost) &&
        settle_depth(context, id, formula);
    if (!solved) formula.shares.clear();
    if (!solved) context.out.ingredients[id].damaged = true;
    if (solved) check_texts(context, recipe.steps, formula, nullptr, name);
    Mix& mix = context.out.mixes[context.out.ingredients[id].index];
    mix.formula = std::move(formula);
    mix.steps = std::move(recipe.steps);
    mix.notes = std::move(recipe.notes);
    if (!solved) return;
    mix.roles = roles_of(context.out, mix.formula);
    dilute_mix(context, recipe, false, id);
}

void resolve_shade_mix(Context& context, IngredientId id) {
    ShadeState& state = ensure_shade(context, context.blend_at[id]);
    Recipe recipe = state.recipe;
    Formula formula;
    const std::string name = context.out.name(id);
    // Said where the shade itself is added, not here.
    const bool solved =
        finish_formula(context, recipe, formula, name, context.out.ingredients[id].span, true) &&
        settle_depth(context, id, formula);
    if (!solved) formula.shares.clear();
    if (!solved) context.out.ingredients[id].damaged = true;
    Mix& mix = context.out.mixes[context.out.ingredients[id].index];
    mix.formula = std::move(formula);
    mix.steps = recipe.steps;
    mix.notes = recipe.notes;
    if (!solved) return;
    mix.roles = roles_of(context.out, mix.formula);
    dilute_mix(context, recipe, true, id);
}

}  // namespace

void report_blend_loop(Context& context, At again, Span mention) {
    std::string ring;
    bool on = false;
    for (const At& open : context.open) {
        on = on || (open.file == again.file && open.block == again.block);
        if (on) ring += context.written(context.block(open).name.span) + " holds ";
    }
    report(context, {.code = Code::blend_loop,
                     .message = fmt::format("These hold each other in a ring: {}{}.", ring,
                                            context.written(context.block(again).name.span)),
                     .span = mention ? mention : context.block(again).name.span,
                     .advice = "Take one of these lines out."});
}

namespace {

void report_holes(Context& context, At at, Span span) {
    report(context, {.code = Code::nesting_too_deep,
                     .message = fmt::format("{} has more than {} holes.",
                                            context.written(context.block(at).name.span),
                                            most_holes),
                     .span = span,
                     .advice = "Write amounts that are used once where they are used."});
}

}  // namespace

void add_lets(Context& context, At at, Env& env) {
    env.lost = env.lost || context.block(at).formula_lost;
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form != Form::let) continue;
        const auto& let = std::get<tree::Let>(line->body);
        if (let.hole.sym < context.ingredient_of.size() &&
            context.ingredient_of[let.hole.sym] != no_ingredient)
            report(context,
                   {.code = Code::let_clash,
                    .message = fmt::format("{{{}}} is the name of an ingredient too.",
                                           context.names.folded(let.hole.sym)),
                    .span = let.hole.span,
                    .advice = "Give the hole another name.",
                    .notes = {{context.out.ingredients[context.ingredient_of[let.hole.sym]].span,
                               "the ingredient"}}});
        Binding binding{let.hole.sym, at.file, let.value, line->span, let.hole.span};
        if (env.bindings.size() >= most_holes) {
            env.lost = true;
            if (!env.full) report_holes(context, at, line->span);
            env.full = true;
            return;
        }
        Binding* twin = env.find(let.hole.sym);
        if (twin && twin->file == at.file && first->span.begin <= twin->span.begin &&
            twin->span.begin < line->span.begin)
            report(context, {.code = Code::line_twice,
                             .message = fmt::format("{{{}}} is given twice in this block.",
                                                    context.names.folded(let.hole.sym)),
                             .span = let.hole.span,
                             .advice = "Leave one of the two lines out.",
                             .notes = {{twin->hole_span, "already there"}},
                             .here = "again here"});
        if (Binding* old = env.find(let.hole.sym))
            *old = binding;
        else
            env.bindings.push_back(binding);
    }
}

void count_parts(Context& context, std::size_t parts, Span where) {
    const bool said = context.parts_made > most_parts;
    context.parts_made += parts;
    if (context.parts_made <= most_parts || said) return;
    report(context,
           {.code = Code::formula_too_long,
            .message = fmt::format("All formulas together have more than {} lines.", most_parts),
            .span = where,
            .advice = "Spread it over several files."});
}

Recipe build_recipe(Context& context, const std::vector<At>& chain, Env& env,
                    const std::string& whose, const std::string& blamed) {
    Recipe recipe;
    std::string outer = std::exchange(context.blamed, blamed);
    for (std::size_t i = 0; i < chain.size(); ++i) {
        if (context.parts_made > most_parts) {
            recipe.broken = true;
            break;
        }
        recipe.ambiguous = recipe.ambiguous || chain[i].ambiguous;
        const std::string own = context.written(context.block(chain[i]).name.span);
        apply_block(context, chain[i], env, recipe, i > 0, whose.empty() ? own : whose);
    }
    context.blamed = std::move(outer);
    return recipe;
}

IngredientId shade_ingredient(Context& context, At at) {
    ShadeState& state = context.shades[at.file][at.block];
    if (state.ingredient != no_ingredient) return state.ingredient;
    const tree::Block& block = context.block(at);
    Ingredient ingredient;
    ingredient.kind = Ingredient::Kind::shade;
    ingredient.name = context.written(block.name.span);
    ingredient.sym = block.name.sym;
    ingredient.index = static_cast<std::uint32_t>(context.out.mixes.size());
    ingredient.span = block.name.span;
    state.ingredient = static_cast<IngredientId>(context.out.ingredients.size());
    Mix mix;
    mix.self = state.ingredient;
    context.out.mixes.push_back(std::move(mix));
    context.out.ingredients.push_back(std::move(ingredient));
    context.blend_at.resize(context.out.ingredients.size());
    context.mix_state.resize(context.out.ingredients.size());
    context.blend_at[state.ingredient] = at;
    return state.ingredient;
}

void ensure_mix(Context& context, IngredientId id, Span mention) {
    if (context.mix_state[id] == 0 && context.open.empty()) prepare(context, context.blend_at[id]);
    if (context.mix_state[id] == 2) return;
    const At at = context.blend_at[id];
    const bool shade = context.out.ingredients[id].kind == Ingredient::Kind::shade;
    if (context.mix_state[id] == 1 ||
        (shade && context.shades[at.file][at.block].state == ShadeState::State::working)) {
        report_blend_loop(context, at, mention);
        context.out.ingredients[id].damaged = true;
        return;
    }
    context.mix_state[id] = 1;
    if (shade) {
        resolve_shade_mix(context, id);
    } else {
        context.open.push_back(at);
        resolve_blend(context, id);
        context.open.pop_back();
    }
    context.mix_state[id] = 2;
}

}  // namespace levigate::resolving
