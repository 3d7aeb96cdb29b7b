// What was poured: names looked up in a formulary that is there already, volumes weighed.

#include <fmt/format.h>

#include "grammar/near.hpp"
#include "grammar/read.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/joined.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate {

using namespace resolving;

namespace {

/// Its name is looked up; `strict`: a name that nothing has is an error.
void name_pour(Joined& joined, Span name, bool strict, Pour& out) {
    Context& context = joined.context;
    const Sym sym = context.names.intern(context.sources.text(name));
    out.name = context.written(name);
    out.what = joined.ingredient(sym);
    out.shade = joined.shade(sym);
    if (!strict || out.what != no_ingredient || out.shade != nothing) return;
    const std::vector<std::string> near = near_ingredient(context, sym);
    report(context, {.code = Code::name_unknown,
                     .message = fmt::format("Nothing is called {}.", shown(out.name)),
                     .span = name,
                     .advice = near.empty() ? "Write a name as the files have it." : "",
                     .fixes = near_fix(name, near)});
}

/// Of the blends those that `name` is likely meant for.
std::vector<std::string> near_blends(const Joined& joined, const Name& name) {
    const Names& names = joined.context.names;
    Nearest nearest(names.folded(name.sym));
    for (IngredientId id = 0; id < joined.there.ingredients.size(); ++id) {
        const Ingredient& one = joined.there.ingredients[id];
        if (one.kind == Ingredient::Kind::blend && one.sym != no_name)
            nearest.offer(names.folded(one.sym), id);
    }
    std::vector<std::string> out;
    for (const std::size_t id : nearest.best())
        out.push_back(joined.there.name(static_cast<IngredientId>(id)));
    return out;
}

/// What it weighs. False where it can't be told; said.
bool weigh_pour(Joined& joined, Span amount, const Quantity& value, Pour& out) {
    Context& context = joined.context;
    if (value.kind == Kind::mass) {
        out.mass = grams(value.value);
        return true;
    }
    if (value.kind != Kind::volume) {
        report(context,
               {.code = value.kind == Kind::number ? Code::quantity_bare : Code::quantity_kind,
                .message = fmt::format("What was poured is a weight or a volume, and this "
                                       "is {}.",
                                       kind_words(value.kind)),
                .span = amount,
                .example = "6.2 g"});
        return false;
    }
    if (out.what == no_ingredient) return false;
    const DensityAnswer answer = density_of(joined.there, out.what, true);
    if (!answer.density) {
        report(context, {.code = Code::density_missing,
                         .message = fmt::format("A volume of {} can't be weighed: it has no "
                                                "density.",
                                                out.name),
                         .span = amount,
                         .advice = "Write a weight here."});
        return false;
    }
    out.estimated = true;
    out.mass = grams(value.value * in_grams_per_millilitre(*answer.density));
    return true;
}

}  // namespace

namespace {

/// "5.4 soft base": the words are a name, and what is missing is the measure before it.
void report_pour_without_measure(Joined& joined, const tree::Pour& pour) {
    Context& context = joined.context;
    const Sym sym = context.names.find(context.sources.text(pour.words));
    const bool named =
        sym != no_name && (joined.ingredient(sym) != no_ingredient || joined.shade(sym) != nothing);
    if (!named) return report_measure(context, pour.words);
    const std::string number(context.sources.text(pour.number));
    report(context,
           {.code = Code::quantity_bare,
            .message = fmt::format("Behind {} no measure stands.", shown(number)),
            .span = cover(pour.number, pour.words),
            .fixes = {possible_fix(cover(pour.number, pour.words),
                                   fmt::format("{} g {}", number, context.written(pour.words)))}});
}

}  // namespace

std::optional<Pour> resolving::resolve_pour(Joined& joined, const tree::Pour& pour, bool strict) {
    Context& context = joined.context;
    const auto split = split_measure(context, pour.words);
    if (!split) {
        report_pour_without_measure(joined, pour);
        return std::nullopt;
    }
    const bool in_words = split->name.begin != split->name.end;
    if (in_words == static_cast<bool>(pour.name)) {
        report(context, {.code = Code::line_malformed,
                         .message = "Here should stand a measure and one name.",
                         .span = pour.span,
                         .example = "6.2 g soft base"});
        return std::nullopt;
    }
    Pour out;
    out.span = pour.span;
    name_pour(joined, in_words ? split->name : pour.name.span, strict, out);
    const auto value = so_many(context, pour.number, split->one);
    if (!value || !weigh_pour(joined, cover(pour.number, split->measure), *value, out))
        return std::nullopt;
    if (pour.lot) out.lot = context.written(pour.lot.span);
    if (!pour.bowl) return out;
    out.bowl = context.written(pour.bowl.span);
    out.into = joined.ingredient(pour.bowl.sym);
    if (strict && (out.into == no_ingredient || !mix_of(joined.there, out.into)))
        report(context, {.code = Code::name_unknown,
                         .message = fmt::format("No blend is called {}.", shown(out.bowl)),
                         .span = pour.bowl.span,
                         .advice = near_blends(joined, pour.bowl).empty()
                                       ? "Behind `in` stands the blend that it went into."
                                       : "",
                         .fixes = near_fix(pour.bowl.span, near_blends(joined, pour.bowl))});
    return out;
}

Outcome<std::vector<Pour>> resolve_pours(const Sources& sources, SourceId source, Names& names,
                                         const std::vector<LoadedFile>& files,
                                         const Formulary& formulary) {
    Outcome<std::vector<Pour>> out;
    auto text = read_pours_text(sources, source, names);
    out.findings = std::move(text.findings);
    if (!out.findings.empty()) return out;
    Joined joined(sources, names, files, formulary, std::move(text.value.file), out.findings);
    for (const tree::Pour& pour : text.value.pours)
        if (auto made = resolve_pour(joined, pour, true)) out.value.push_back(std::move(*made));
    return out;
}

}  // namespace levigate
