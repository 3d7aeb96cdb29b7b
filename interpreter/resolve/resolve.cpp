#include "interpreter/resolve/resolve.hpp"

#include <unordered_map>

#include "grammar/read.hpp"
#include "interpreter/resolve/context.hpp"
#include "interpreter/resolve/empty_blocks.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate {

using namespace resolving;

namespace {

/// Names that a `like` or a family goes by: their recipes are kept for the children.
std::vector<bool> parent_names(const Context& context) {
    std::vector<bool> parents(context.names.size());
    for (const LoadedFile& file : context.files) {
        for (const tree::Block& block : file.tree.blocks)
            if (block.like) parents[block.like.sym] = true;
        for (const tree::Line& line : file.tree.lines) {
            if (line.form == Form::from)
                parents[std::get<tree::Reference>(line.body).name.sym] = true;
            if (const auto* between = std::get_if<tree::Between>(&line.body))
                parents[between->first.sym] = parents[between->last.sym] = true;
        }
    }
    return parents;
}

void add_shades_and_families(Context& context) {
    const std::vector<bool> parents = parent_names(context);
    const bool families = families_fit(context);
    for (std::uint32_t f = 0; f < context.files.size(); ++f) {
        const auto& blocks = context.files[f].tree.blocks;
        for (std::uint32_t b = 0; b < blocks.size(); ++b) {
            if (!blocks[b].name) continue;
            const At at{f, b};
            if (blocks[b].heading == Heading::family && families) add_family(context, at);
            if (blocks[b].heading != Heading::shade) continue;
            ShadeState& state = ensure_shade(context, at);
            state.shade = static_cast<std::uint32_t>(context.out.shades.size());
            add_shade(context, context.written(blocks[b].name.span), blocks[b].name.sym,
                      blocks[b].name.span, at, at, state.recipe, state.env, state.traits);
            state.broken = !context.out.shades.back().versions[0].formula.solved();
            context.out.shades.back().self = state.ingredient;
            if (!parents[blocks[b].name.sym]) release_recipe(context, at);
        }
    }
}

/// Two shades of one name, members of families among them, or the members of two families of one
/// name: nothing says which is meant, so that none of their sheets comes. Said where they are
/// named.
void leave_out_namesakes(Context& context) {
    Formulary& out = context.out;
    std::unordered_map<Sym, std::size_t> count;
    for (const Shade& shade : out.shades) ++count[shade.sym];
    for (Shade& shade : out.shades) {
        const bool family = look(context.scope.family, shade.family.sym).ambiguous;
        if (count[shade.sym] < 2 && !family) continue;
        shade.broken = true;
        for (Version& version : shade.versions) version.broken = true;
    }
}

}  // namespace

Outcome<Formulary> resolve(const Sources& sources, Names& names,
                           const std::vector<LoadedFile>& files, bool lost) {
    Outcome<Formulary> out;
    Context context{sources, names, files, out.value, out.findings};
    if (!files.empty()) out.value.file = files.front().tree.source;
    context.shades.resize(files.size());
    context.lost.file = lost;
    fill_scope(context);
    add_containers_and_balances(context);  // first: their names part amounts from ingredients
    if (is_hopeless(context)) return out;
    report_lookalikes(context);
    report_empty_blocks(context);
    add_materials(context);
    for (IngredientId id = 0; id < context.blend_at.size(); ++id)
        if (out.value.ingredients[id].kind == Ingredient::Kind::blend) ensure_mix(context, id);
    add_rates(context);
    add_shelves(context);
    add_shades_and_families(context);
    leave_out_namesakes(context);
    add_swatches(context);
    add_rules(context);
    name_what_lists_need(context);
    add_plans(context);
    add_edition(context);
    check_sealed(context);
    check_unused(context);
    report_depths(context);
    tell_members(context);
    if (out.findings.size() >= most_findings)
        out.findings.push_back({.code = Code::too_many_findings,
                                .message = "There is more; these come first.",
                                .span = {},
                                .advice = "Give the same command again when these are mended."});
    return out;
}

void with_measures(const Sources& sources, Names& names, const std::vector<LoadedFile>& files,
                   const std::function<void(const MeasureSplit&)>& then) {
    Formulary tables;
    Findings unsaid;
    Context context{sources, names, files, tables, unsaid};
    fill_scope(context);
    then([&](std::string_view words) { return measure_length(context, words); });
}

Outcome<std::optional<BatchSize>> resolve_size(const Sources& sources, SourceId source,
                                               Names& names, const std::vector<LoadedFile>& files) {
    Outcome<std::optional<BatchSize>> out;
    auto text = read_size_text(sources, source, names);
    out.findings = std::move(text.findings);
    if (!out.findings.empty()) return out;
    // The text joins the files as one more, so that its expressions are found like theirs.
    std::vector<LoadedFile> all = files;
    all.push_back({std::move(text.value.file), false, false});
    Formulary tables;
    Context context{sources, names, all, tables, out.findings};
    fill_scope(context);
    add_containers_and_balances(context);
    out.findings.clear();
    context.said.clear();
    tree::BatchLine line;
    line.quantity = text.value.quantity;
    line.overage = text.value.overage;
    line.holdback = text.value.holdback;
    Env none;
    const auto last = static_cast<std::uint32_t>(all.size() - 1);
    const auto size = static_cast<std::uint32_t>(sources[source].text.size());
    out.value = batch_size(context, last, line, none, {source, 0, size});
    return out;
}

}  // namespace levigate
