// Materials, blends' own properties, containers and balances.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/ends.hpp"

namespace levigate::resolving {

namespace {

void set_role(Context& context, Ingredient& ingredient, const Name& role) {
    ingredient.role = role.sym;
    if (context.is_role.size() <= role.sym) context.is_role.resize(role.sym + 1);
    context.is_role[role.sym] = true;
    if (context.out.role_names.size() <= role.sym) context.out.role_names.resize(role.sym + 1);
    if (context.out.role_names[role.sym].empty())
        context.out.role_names[role.sym] = context.written(role.span);
}

std::optional<Density> density(Context& context, std::uint32_t file, const tree::Line& line,
                               Exact& by) {
    Env none;
    const tree::ExprId expr = std::get<tree::QuantityLine>(line.body).expr;
    if (bare_before_ends(context, file, line)) return std::nullopt;
    const auto value = evaluate_as(context, file, expr, none, Kind::density, "1.7 g/mL");
    if (!value) return std::nullopt;
    if (value->value.sign() > 0) {
        const auto half = half_width(context, file, line, *value);
        if (!half) return std::nullopt;
        by = *half;
        return grams_per_millilitre(value->value);
    }
    report(context, {.code = Code::amount_negative,
                     .message = "A density is more than nothing.",
                     .span = context.file(file).exprs[expr].span,
                     .example = "1.7 g/mL"});
    return std::nullopt;
}

/// What a material and a blend have in common. False where a line was lost on the way.
void common_line(Context& context, std::uint32_t file, const tree::Line& line, IngredientId id) {
    Ingredient& ingredient = context.out.ingredients[id];
    if (line.form == Form::role)
        set_role(context, ingredient, std::get<tree::Reference>(line.body).name);
    if (line.form == Form::density || line.form == Form::bulk) {
        const bool dense = line.form == Form::density;
        Exact by;
        auto value = density(context, file, line, by);
        if (!by.is_zero()) {
            Tolerance& all = context.out.tolerances[id];
            (dense ? all.density : all.bulk) = std::move(by);
        }
        if (!value)
            ingredient.damaged =
                ingredient.damaged || ingredient.kind == Ingredient::Kind::material;
        (dense ? ingredient.density : ingredient.bulk) = value;
    }
}

std::vector<std::string> near_hazards(std::string_view written) {
    constexpr std::array<std::string_view, 2> known = {"powder", "flammable"};
    Nearest nearest(written);
    for (std::size_t i = 0; i < known.size(); ++i) nearest.offer(known[i], i);
    std::vector<std::string> out;
    for (const std::size_t i : nearest.best()) out.emplace_back(known[i]);
    return out;
}

void set_hazards(Context& context, const tree::NameList& list, Material& material) {
    for (const Name& name : list.names) {
        const std::string_view word = context.names.folded(name.sym);
        if (word == "powder")
            material.powder = true;
        else if (word == "flammable")
            material.flammable = true;
        else
            report(context, {.code = Code::line_malformed,
                             .message = fmt::format("No hazard is called {} here.",
                                                    shown(context.written(name.span))),
                             .span = name.span,
                             .example = "powder or flammable",
                             .fixes = near_fix(name.span, near_hazards(word))});
    }
}

void colourant_line(Context& context, std::uint32_t file, const tree::Line& line, Material& out) {
    const auto& colourant = std::get<tree::Colourant>(line.body);
    if (!out.colourant_span) out.colourant_span = line.span;
    for (const Name& name : colourant.indices) out.colour_indices.push_back(called(context, name));
    out.strength = possible_share(context, file, colourant.strength, "35 %", false);
}

void contents_line(Context& context, std::uint32_t file, const tree::Line& line, Material& out) {
    const auto& written = std::get<tree::LabelLine>(line.body);
    for (const tree::LabelPart& part : written.parts) {
        if (part.share != tree::no_expr) continue;
        const std::string name = context.written(part.name.span);
        report(context,
               {.code = Code::quantity_bare,
                .message = fmt::format("How much {} it contains is due here.", shown(name)),
                .span = part.name.span,
                .example = fmt::format("contains {} 20 %", shown(written_name(name)))});
    }
    for (LabelPart& part : label_parts(context, file, written))
        if (part.share) out.contains.push_back(std::move(part));
}

/// A percentage is written and is none; said. Then the label doesn't say how much is what.
bool lost_share(const tree::LabelLine& written, const std::vector<LabelPart>& label) {
    for (std::size_t i = 0; i < label.size(); ++i)
        if (written.parts[i].share != tree::no_expr && !label[i].share) return true;
    return false;
}

/// More than all of it can't be in a label, whatever is asked of it.
void judge_label(Context& context, const tree::Line& line, const std::vector<LabelPart>& label) {
    Share given;
    std::vector<std::string> open;
    for (const LabelPart& part : label)
        if (part.share)
            given += part.share->least;
        else
            open.push_back(part.name);
    if (open.empty() ? !(given > share(1)) : given < share(1)) return;
    Finding finding{.code = Code::label_shares,
                    .message = fmt::format("The parts of this label come to {}.",
                                           percent_words(given)),
                    .span = line.span,
                    .advice = "Change the percentages so that they come to 100 %."};
    if (!open.empty())
        finding.message =
            fmt::format("The parts of this label come to {} already, and nothing is left for {}.",
                        percent_words(given), list_words(open));
    if (label.size() > open.size()) report(context, std::move(finding));
}

void material_line(Context& context, std::uint32_t file, const tree::Line& line, Material& out) {
    Env none;
    switch (line.form) {
        case Form::label:
            out.label = label_parts(context, file, std::get<tree::LabelLine>(line.body));
            judge_label(context, line, out.label);
            if (lost_share(std::get<tree::LabelLine>(line.body), out.label))
                context.out.ingredients[out.self].damaged = true;
            break;
        case Form::contains: contents_line(context, file, line, out); break;
        case Form::certified:
            out.certified = context.written(std::get<tree::Reference>(line.body).name.span);
            break;
        case Form::colourant: colourant_line(context, file, line, out); break;
        case Form::price:
            out.price = material_price(context, file, line);
            out.price_lost = !out.price;
            if (out.price) out.price->is_private = line.is_private;
            break;
        case Form::hazard: set_hazards(context, std::get<tree::NameList>(line.body), out); break;
        case Form::note: out.notes.push_back(make_text(context, file, line, none)); break;
        default: break;
    }
}

IngredientId register_ingredient(Context& context, At at, Ingredient::Kind kind) {
    const tree::Block& block = context.block(at);
    Ingredient ingredient;
    ingredient.kind = kind;
    ingredient.name = context.written(block.name.span);
    ingredient.sym = block.name.sym;
    ingredient.span = block.name.span;
    ingredient.damaged = kind == Ingredient::Kind::material && block.damaged;
    const auto id = static_cast<IngredientId>(context.out.ingredients.size());
    if (kind == Ingredient::Kind::material) {
        ingredient.index = static_cast<std::uint32_t>(context.out.materials.size());
        Material material;
        material.self = id;
        material.library = context.files[at.file].library;
        context.out.materials.push_back(std::move(material));
    } else {
        ingredient.index = static_cast<std::uint32_t>(context.out.mixes.size());
        Mix mix;
        mix.self = id;
        context.out.mixes.push_back(std::move(mix));
    }
    context.out.ingredients.push_back(std::move(ingredient));
    return id;
}

void sealed_line(Context& context, std::uint32_t file, const tree::Line& line, Ingredient& out) {
    out.sealed = true;
    out.within = possible_share(context, file, std::get<tree::Sealed>(line.body).within, "20 %",
                                false);
}

/// A blend's role and densities come from the nearest of its chain that states them.
void blend_properties(Context& context, IngredientId id) {
    At at = context.blend_at[id];
    bool role = false, dense = false, bulk = false;
    for (std::size_t depth = 0; at && depth < longest_chain; ++depth) {
        const auto [first, last] = lines_of(context, at);
        if (!count_lines(context, 0, context.block(at).count, context.block(at).name.span)) return;
        for (const tree::Line* line = first; line != last; ++line) {
            if (line->form == Form::sealed && at.is(context.blend_at[id]))
                sealed_line(context, at.file, *line, context.out.ingredients[id]);
            bool* known = line->form == Form::role      ? &role
                          : line->form == Form::density ? &dense
                          : line->form == Form::bulk    ? &bulk
                                                        : nullptr;
            if (!known || *known) continue;
            *known = true;
            common_line(context, at.file, *line, id);
        }
        const Name like = context.block(at).like;
        at = like ? look(context.scope.material_or_blend, like.sym) : At{};
    }
}

}  // namespace

void add_materials(Context& context) {
    Context& c = context;
    c.ingredient_of.assign(c.names.size(), no_ingredient);
    std::vector<At> blocks;
    for (const Heading heading : {Heading::material, Heading::blend}) {
        each_block(c, heading, [&](At at) {
            // Each block that something stands for; the ones that lost their name to another
            // file's are passed over.
            const At seat = look(c.scope.material_or_blend, c.block(at).name.sym);
            if (seat.file != at.file || seat.block != at.block) return;
            const auto kind =
                heading == Heading::material ? Ingredient::Kind::material : Ingredient::Kind::blend;
            const IngredientId id = register_ingredient(c, at, kind);
            c.ingredient_of[c.block(at).name.sym] = id;
            blocks.push_back(at);
        });
    }
    c.blend_at = blocks;
    c.mix_state.assign(blocks.size(), 0);
    // Other names, where nothing else took them.
    for (IngredientId id = 0; id < blocks.size(); ++id) {
        const auto [first, last] = lines_of(c, blocks[id]);
        for (const tree::Line* line = first; line != last; ++line) {
            if (line->form != Form::also_called) continue;
            for (const Name& name : std::get<tree::NameList>(line->body).names) {
                const At seat = look(c.scope.material_or_blend, name.sym);
                if (seat.file == blocks[id].file && seat.block == blocks[id].block)
                    c.ingredient_of[name.sym] = c.out.called[name.sym] = id;
            }
        }
    }
    for (IngredientId id = 0; id < blocks.size(); ++id) {
        if (c.out.ingredients[id].kind != Ingredient::Kind::material) {
            blend_properties(c, id);
            c.out.ingredients[id].damaged = false;
            continue;
        }
        c.mix_state[id] = 2;
        const auto [first, last] = lines_of(c, blocks[id]);
        for (const tree::Line* line = first; line != last; ++line) {
            common_line(c, blocks[id].file, *line, id);
            material_line(c, blocks[id].file, *line, c.out.materials[c.out.ingredients[id].index]);
        }
    }
}

namespace {

/// `holds 3`: 3 g or 3 mL.
void say_contents(const Context& context, Finding& finding) {
    const std::string figure = context.written(finding.span);
    if (figure.find_first_not_of("0123456789./") != figure.npos) return;
    finding.example.clear();
    finding.advice = fmt::format("Write {0} g or {0} mL.", figure);
    finding.fixes = {possible_fix(finding.span, figure + " g"),
                     possible_fix(finding.span, figure + " mL")};
}

void add_container(Context& context, At at) {
    const tree::Block& block = context.block(at);
    Container& out = context.out.containers[context.container_of[block.name.sym]];
    const auto [first, last] = lines_of(context, at);
    bool stated = false;
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form == Form::price) {
            out.price = container_price(context, at.file, *line, out.name, block.name.sym);
            if (out.price) out.price->is_private = line->is_private;
        }
        if (line->form != Form::holds) continue;
        stated = true;
        if (bare_before_ends(context, at.file, *line)) continue;
        Env none;
        const tree::ExprId expr = std::get<tree::QuantityLine>(line->body).expr;
        const auto value = evaluate(context, at.file, expr, none);
        if (!value) continue;
        const bool fits = value->kind == Kind::mass || value->kind == Kind::volume;
        if (fits && value->value.sign() > 0) {
            const auto half = half_width(context, at.file, *line, *value);
            if (!half) continue;
            out.holds_by = *half;
            if (value->kind == Kind::mass)
                out.holds = grams(value->value);
            else
                out.holds = millilitres(value->value);
            continue;
        }
        const bool bare = value->kind == Kind::number;
        Finding finding{
            .code = bare ? Code::quantity_bare : Code::quantity_kind,
            .message = fits ? "A container holds more than nothing."
                            : fmt::format("A container holds a weight or a volume, and this is {}.",
                                          kind_words(value->kind)),
            .span = context.file(at.file).exprs[expr].span,
            .example = "4.5 mL or 3.8 g"};
        if (bare) say_contents(context, finding);
        report(context, std::move(finding));
    }
    if (!stated && !block.damaged)
        report(context, {.code = Code::container_empty,
                         .message = fmt::format("Nothing says how much a {} holds.", out.name),
                         .span = block.name.span,
                         .advice = "Add a line such as `holds 4.5 mL`."});
}

}  // namespace

void add_containers_and_balances(Context& context) {
    context.container_of.assign(context.names.size(), nothing);
    context.balance_of.assign(context.names.size(), nothing);
    std::vector<At> containers;
    each_block(context, Heading::container, [&](At at) {
        const tree::Block& block = context.block(at);
        const At seat = look(context.scope.container, block.name.sym);
        if (seat.file != at.file || seat.block != at.block) return;
        context.container_of[block.name.sym] =
            static_cast<ContainerId>(context.out.containers.size());
        context.out.containers.push_back(
            {context.written(block.name.span), block.name.sym, {}, {}, block.name.span});
        containers.push_back(at);
    });
    for (const At& at : containers) add_container(context, at);
    each_block(context, Heading::balance, [&](At at) { add_balance_block(context, at); });
    // Of FILE; where it has none, of the files that it uses.
    if (context.out.own_balances.size() == 1)
        context.out.only_balance = context.out.own_balances.front();
    else if (context.out.own_balances.empty() && context.out.balances.size() == 1)
        context.out.only_balance = 0;
}

std::vector<Swatch> swatches_in(Context& context, At at) {
    std::vector<Swatch> out;
    const auto [first, last] = lines_of(context, at);
    for (const tree::Line* line = first; line != last; ++line) {
        if (line->form != Form::swatch) continue;
        const auto& written = std::get<tree::Swatch>(line->body);
        Swatch swatch;
        swatch.span = line->span;
        swatch.is_private = line->is_private;
        Env none;
        bool whole = true;
        for (std::size_t i = 0; i < 3; ++i) {
            const auto value = evaluate(context, at.file, written.lab[i], none);
            whole = whole && value && value->kind == Kind::number;
            if (value) swatch.lab[i] = value->value;
        }
        swatch.at = share(Exact(1));
        if (written.at != tree::no_expr) {
            const auto value = evaluate_as(context, at.file, written.at, none, Kind::share, "5 %");
            whole = whole && value;
            if (value) swatch.at = share(value->value);
        }
        if (written.in) swatch.in = find_ingredient(context, written.in, none);
        if (whole) out.push_back(swatch);
    }
    return out;
}

void add_swatches(Context& context) {
    for (IngredientId id = 0; id < context.blend_at.size(); ++id) {
        const Ingredient& ingredient = context.out.ingredients[id];
        if (ingredient.kind != Ingredient::Kind::material) continue;
        context.out.materials[ingredient.index].swatches =
            swatches_in(context, context.blend_at[id]);
    }
}

}  // namespace levigate::resolving
