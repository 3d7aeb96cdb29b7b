// What a line names: an ingredient, or a role such as `the mica`.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/slips.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

bool names_something(const Context& context, Sym sym) {
    return sym != no_name &&
           (look(context.scope.material_or_blend, sym) || look(context.scope.shade, sym));
}

IngredientId find_ingredient(Context& context, Name name, Env& env) {
    const Name real = resolve_name(context, name, env);
    if (!real) return no_ingredient;
    if (real.sym < context.ingredient_of.size() &&
        context.ingredient_of[real.sym] != no_ingredient) {
        const IngredientId found = context.ingredient_of[real.sym];
        if (context.out.ingredients[found].kind == Ingredient::Kind::blend)
            ensure_mix(context, found, real.span);
        return found;
    }
    if (const At shade = look(context.scope.shade, real.sym)) {
        const IngredientId found = shade_ingredient(context, shade);
        ensure_mix(context, found, real.span);
        return found;
    }
    // One unknown name is one slip, however often it stands.
    if (!context.unknown.insert(real.sym).second) return no_ingredient;
    if (report_more_than_name(context, real)) return no_ingredient;
    report_unknown(context,
                   {Code::name_unknown,
                    {},
                    real,
                    {&context.scope.material_or_blend, &context.scope.shade},
                    in(Heading::material) | in(Heading::blend) | in(Heading::shade),
                    fmt::format("Add a block `material {}`, or `use` the file or page that has it.",
                                written_name(shown(context.written(real.span))))});
    return no_ingredient;
}

bool ambiguous_name(Context& context, Name name, Env& env) {
    const Name real = resolve_name(context, name, env);
    if (!real) return false;
    const At block = look(context.scope.material_or_blend, real.sym);
    return block ? block.ambiguous : look(context.scope.shade, real.sym).ambiguous;
}

namespace {

bool known_role(const Context& context, Sym sym) {
    return sym < context.is_role.size() && context.is_role[sym];
}

/// A role as declared; `lakes` for `lake` is allowed.
Sym find_role(const Context& context, Sym sym) {
    if (known_role(context, sym)) return sym;
    std::string_view name = context.names.folded(sym);
    if (name.size() > 2 && name.back() == 's') {
        const Sym singular = context.names.find_folded(name.substr(0, name.size() - 1));
        if (singular != no_name && known_role(context, singular)) return singular;
    }
    return no_name;
}

std::string near_role(const Context& context, Sym written) {
    Nearest nearest(context.names.folded(written));
    for (Sym sym = 1; sym < context.is_role.size(); ++sym)
        if (context.is_role[sym]) nearest.offer(context.names.folded(sym), sym);
    const auto best = nearest.best(1);
    if (best.empty()) return {};
    return fmt::format("the {}",
                       written_name(context.names.folded(static_cast<Sym>(best.front()))));
}

std::string all_roles(const Context& context) {
    std::vector<std::string> roles;
    for (Sym sym = 1; sym < context.is_role.size(); ++sym)
        if (context.is_role[sym]) roles.push_back(fmt::format("the {}", context.names.folded(sym)));
    return roles.empty() ? "name a line."
                         : fmt::format("write a role that is there: {}.", list_words(roles));
}

/// What is to have the role: the person's own materials and blends that have none.
std::string role_takers(const Context& context, const Name& role) {
    std::vector<std::string> takers;
    for (const Ingredient& one : context.out.ingredients)
        if (one.kind != Ingredient::Kind::shade && one.role == no_name && one.sym != no_name &&
            !context.library(one.span))
            takers.push_back(fmt::format("`{} {}`",
                                         one.kind == Ingredient::Kind::blend ? "blend" : "material",
                                         written_name(one.name)));
    const std::string word = context.written(role.span);
    if (takers.size() == 1)
        return fmt::format("Write `role {0}` under {1}, if that is the {0}", word, takers.front());
    return fmt::format("Write `role {0}` under the material or blend that is the {0}{1}{2}", word,
                       takers.empty() ? "" : ": ", list_words(takers, 4));
}

/// What makes up the rest in the block that asked: the likeliest to have the role. Empty where it
/// has no such line.
std::string role_of_rest(const Context& context, const Name& role, Span place) {
    for (std::uint32_t file = 0; file < context.files.size(); ++file) {
        const tree::File& tree = context.files[file].tree;
        if (tree.source != place.source) continue;
        for (const tree::Block& block : tree.blocks) {
            const auto first = tree.lines.begin() + block.first, last = first + block.count;
            if (std::none_of(first, last, [&](const tree::Line& line) {
                    return line.span.begin <= place.begin && place.end <= line.span.end;
                }))
                continue;
            for (auto line = first; line != last; ++line) {
                const auto* part = std::get_if<tree::Ingredient>(&line->body);
                if (!part || part->amount.kind != tree::AmountKind::rest || !part->name) continue;
                const std::string word = context.written(role.span);
                const std::string name = written_name(context.written(part->name.span));
                const At own = look(context.scope.material_or_blend, part->name.sym);
                if (own && context.files[own.file].library)
                    return fmt::format("Add a block `material {}` of your own with `role {}` in it",
                                       name, word);
                if (own)
                    return fmt::format("Write `role {0}` under `{1} {2}`, if that is the {0}", word,
                                       levigate::word(context.block(own).heading), name);
            }
        }
    }
    return {};
}

/// A role that nothing has. `place` is where to look: what the library asks for is missing in the
/// file that takes it.
void report_no_role(Context& context, const tree::Ref& ref, Span place) {
    const std::string near = near_role(context, ref.name.sym);
    if (near.empty() && (context.lost.role || context.lost.file)) return;
    const bool elsewhere = place != ref.span;
    Finding finding{
        .code = Code::role_empty,
        .message = fmt::format("Nothing has the role {}.", shown(context.written(ref.name.span))),
        .span = place};
    if (elsewhere) {
        const std::string rest = role_of_rest(context, ref.name, place);
        finding.advice = (rest.empty() ? role_takers(context, ref.name) : rest) + ".";
    } else if (near.empty())
        finding.advice =
            fmt::format("{}; or {}", role_takers(context, ref.name), all_roles(context));
    else
        finding.fixes = {possible_fix(ref.span, near)};
    report(context, std::move(finding));
}

/// `expect lake under 8 %`: the lake is meant, which is a role.
void report_bare_role(Context& context, const Name& name) {
    const std::string written = shown(context.written(name.span));
    report(context, {.code = Code::name_unknown,
                     .message = fmt::format("Nothing is called {0}: it is a role.", written),
                     .span = name.span,
                     .fixes = {possible_fix(with_quotes(context, name.span), "the " + written)}});
}

}  // namespace

std::optional<Ref> resolve_ref(Context& context, const tree::Ref& ref, bool finish, Env& env) {
    Ref out;
    out.span = ref.span;
    if (ref.role && !ref.name.hole) {
        if (finish && context.names.folded(ref.name.sym) == "bulk") {
            out.kind = Ref::Kind::bulk;
            return out;
        }
        if (const Sym role = find_role(context, ref.name.sym); role != no_name) {
            out.kind = Ref::Kind::role;
            out.role = role;
            return out;
        }
        // `The Pink Base` may be a name.
        const Sym whole = context.names.find(context.sources.text(ref.span));
        if (!names_something(context, whole)) {
            const bool asked = context.library(ref.span) && context.asked;
            report_no_role(context, ref, asked ? context.asked : ref.span);
            return std::nullopt;
        }
        out.ingredient = find_ingredient(context, {whole, ref.span, false}, env);
    } else if (!ref.role && !ref.name.hole && !names_something(context, ref.name.sym) &&
               find_role(context, ref.name.sym) != no_name) {
        report_bare_role(context, ref.name);
        return std::nullopt;
    } else {
        out.ingredient = find_ingredient(context, ref.name, env);
    }
    if (out.ingredient == no_ingredient) return std::nullopt;
    return out;
}

}  // namespace levigate::resolving
