// `dilute NAME to Q in BASE`: how a line of a formula is weighed. The lines are gathered while a
// formula is edited, and looked up in it once it is solved.

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/editing.hpp"

namespace levigate::resolving {

namespace {

/// False, said, where it is no dilution: nothing of it, or nothing of a base.
bool thins(Context& context, Span span, const Share& strength) {
    if (as_fraction(strength).sign() > 0 && strength < share(1)) return true;
    const bool pure = as_fraction(strength).sign() > 0;
    report(context,
           {.code = Code::dilute_strength,
            .message = fmt::format("A dilution of {} {}.", percent_words(strength),
                                   pure ? "leaves no room for a base" : "holds nothing of it"),
            .span = span,
            .advice = "Write a share above 0 % and below 100 %, as in `to 10 %`."});
    return false;
}

}  // namespace

void dilute_line(Editing& editing, const tree::Line& line) {
    Context& context = editing.context;
    const auto& written = std::get<tree::Dilute>(line.body);
    WorkDilution out;
    out.what = find_ingredient(context, written.what, editing.env);
    out.base = find_ingredient(context, written.base, editing.env);
    out.span = out.words = line.span;
    out.words.begin = line.word().begin;
    out.what_span = written.what.span;
    out.base_span = written.base.span;
    out.strength_span = context.file(editing.at.file).exprs[written.strength].span;
    const auto strength =
        evaluate_as(context, editing.at.file, written.strength, editing.env, Kind::share, "10 %");
    if (out.what == no_ingredient || out.base == no_ingredient || !strength)
        return editing.broken();
    out.strength = share(strength->value);
    if (!thins(context, out.strength_span, out.strength)) return editing.broken();
    if (twice(editing, Form::dilute, out.what, written.what.span)) return;
    for (WorkDilution& one : editing.recipe.dilutions)
        if (one.what == out.what) {
            one = out;
            return;
        }
    editing.recipe.dilutions.push_back(out);
}

void forget_dilution(Recipe& recipe, IngredientId gone) {
    std::erase_if(recipe.dilutions, [&](const WorkDilution& one) { return one.what == gone; });
}

void inherit_dilutions(const Recipe& from, Recipe& recipe) {
    std::unordered_set<IngredientId> there;
    for (const WorkPart& one : recipe.parts) there.insert(one.part.what);
    for (const WorkDilution& one : from.dilutions)
        if (there.contains(one.what) && there.contains(one.base)) recipe.dilutions.push_back(one);
}

void swap_dilutions(Recipe& recipe, IngredientId from, IngredientId to) {
    for (WorkDilution& one : recipe.dilutions) {
        if (one.what == from) one.what = to;
        if (one.base == from) one.base = to;
    }
}

namespace {

/// On a sheet and in a record nobody could tell the two apart.
void report_same_name(Context& context, const std::string& name, const WorkDilution& from) {
    const Sym sym = context.names.find(name);
    const At other = sym == no_name ? At{} : look(context.scope.material_or_blend, sym);
    if (!other) return;
    report(context,
           {.code = Code::block_twice,
            .message = fmt::format("What this line makes is called {}, and so is a block.", name),
            .span = from.span,
            .advice = "Give the block another name.",
            .notes = {{context.block(other).name.span, "the other"}}});
}

/// It has no block, and nothing but a `dilute` line speaks of it: no name leads to it.
std::uint32_t add_dilution(Context& context, const WorkDilution& from) {
    const std::string key =
        fmt::format("{} {} {}", from.what, from.base, as_fraction(from.strength).fraction());
    const auto [known, fresh] =
        context.dilution_of.emplace(key, static_cast<std::uint32_t>(context.out.dilutions.size()));
    if (!fresh) return known->second;
    Formulary& out = context.out;
    Ingredient ingredient;
    ingredient.kind = Ingredient::Kind::blend;
    ingredient.name = fmt::format("{} {} in {}", out.name(from.what),
                                  exact_percent_words(from.strength), out.name(from.base));
    ingredient.index = static_cast<std::uint32_t>(out.mixes.size());
    ingredient.span = from.span;
    report_same_name(context, ingredient.name, from);
    Mix mix;
    mix.self = static_cast<IngredientId>(out.ingredients.size());
    mix.dilution = known->second;
    for (const auto& [what, size, name] :
         {std::tuple(from.what, from.strength, from.what_span),
          std::tuple(from.base, share(1) - from.strength, from.base_span)}) {
        Part part;
        part.what = what;
        part.amount = size;
        part.span = from.span;
        part.name_span = name;
        mix.formula.parts.push_back(part);
        mix.formula.shares.push_back(size);
    }
    out.dilutions.push_back({mix.self, from.what, from.base, from.strength});
    out.ingredients.push_back(std::move(ingredient));
    mix.roles = roles_of(out, mix.formula);
    out.mixes.push_back(std::move(mix));
    context.blend_at.resize(out.ingredients.size());
    context.mix_state.resize(out.ingredients.size());
    context.mix_state[out.ingredients.size() - 1] = 2;
    return known->second;
}

struct Settling {
    Context& context;
    const Recipe& recipe;
    const Formula& formula;
    const std::string& whose;
    bool quiet;
    std::unordered_map<IngredientId, const Part*> parts{};
    std::unordered_map<IngredientId, const WorkDilution*> diluted{};
    std::unordered_set<IngredientId> gone{};

    void index() {
        for (const Part& one : formula.parts) parts.emplace(one.what, &one);
        for (const WorkDilution& one : recipe.dilutions) diluted.emplace(one.what, &one);
    }
    void say(Finding finding) const {
        if (!quiet) report_of(context, std::move(finding), whose, context.taker);
    }
    std::string lines() const {
        std::vector<std::string> names;
        for (const Part& one : formula.parts) names.push_back(context.out.name(one.what));
        return list_words(names);
    }
    bool has(const WorkDilution& one);
    bool plain_base(const WorkDilution& one) const;
    void say_little(const WorkDilution& one, const TooLittle& little) const;
    void say_strength(const WorkDilution& one, const std::optional<Share>& strength,
                      Finding& finding) const;
};

bool Settling::has(const WorkDilution& one) {
    const bool base = parts.contains(one.what);  // then it is the base that may be missing
    const IngredientId missing = base ? one.base : one.what;
    if (parts.contains(missing)) return true;
    if (base && !gone.insert(missing).second) return false;  // one base that is gone is one slip
    say({.code = Code::dilute_missing,
         .message =
             fmt::format("{} is no line of {}, so that {}.", context.out.name(missing), whose,
                         base ? "nothing can be diluted in it" : "it can't be diluted there"),
         .span = base ? one.base_span : one.what_span,
         .advice = fmt::format("Name one of its lines, {}; or leave this line out.", lines())});
    return false;
}

/// What stands in the place of a base is weighed itself: one dilution doesn't hang on another.
bool Settling::plain_base(const WorkDilution& one) const {
    const auto other = diluted.find(one.base);
    if (other == diluted.end()) return true;
    const bool itself = one.what == one.base;
    Finding finding{
        .code = Code::dilute_base,
        .message = itself
                       ? fmt::format("{} can't be diluted in itself.", context.out.name(one.what))
                       : fmt::format("{} is diluted itself in {}, so that nothing can be diluted "
                                     "in it.",
                                     context.out.name(one.base), whose),
        .span = one.base_span,
        .advice = "Name another of its lines, one that is weighed as it is."};
    if (!itself) finding.notes = {{other->second->span, "diluted here"}};
    say(std::move(finding));
    return false;
}

/// The shade whose block holds the line; empty where it is a blend's or a variant's.
std::string shade_around(Context& context, Span line) {
    for (const LoadedFile& loaded : context.files) {
        if (loaded.tree.source != line.source) continue;
        for (const tree::Block& block : loaded.tree.blocks)
            for (std::uint32_t i = 0; i < block.count && block.heading == Heading::shade; ++i)
                if (loaded.tree.lines[block.first + i].span == line)
                    return context.written(block.name.span);
    }
    return {};
}

void Settling::say_little(const WorkDilution& one, const TooLittle& little) const {
    const std::string &what = context.out.name(one.what), &base = context.out.name(one.base);
    const Part* part = parts.at(one.what);
    const Share& size = formula.shares[static_cast<std::size_t>(part - formula.parts.data())];
    const bool alone = recipe.dilutions.size() == 1;
    Finding finding{
        .code = Code::dilute_short,
        .message =
            fmt::format("Diluted to {}, the {} of {} bring {} of {}, and {} {} {}: {} are missing.",
                        percent_words(one.strength), percent_words(size), what,
                        percent_words(little.due), base, whose, alone ? "holds" : "has left for it",
                        percent_words(little.there), percent_words(little.due - little.there)),
        .span = one.span,
        .notes = {{part->span, "what is diluted"}, {parts.at(one.base)->span, "the base"}}};
    say_strength(one, little.strength, finding);
    say(std::move(finding));
}

/// The line with a strength that there is enough of the base for.
void Settling::say_strength(const WorkDilution& one, const std::optional<Share>& strength,
                            Finding& finding) const {
    if (!strength) {
        finding.advice = "Name another line that there is more of.";
        return;
    }
    std::string text =
        fmt::format("dilute {} to {} in {}", written_name(context.out.name(one.what)),
                    strength_words(*strength), written_name(context.out.name(one.base)));
    // What is right in the shade that it comes from is to stay there.
    const std::string from = shade_around(context, one.span);
    if (from.empty() || whose.starts_with(from))
        finding.fixes = {possible_fix(one.words, std::move(text))};
    else
        finding.advice = fmt::format("Write `{}` into {}: it comes from {}, where it may be right.",
                                     text, whose, from);
}

}  // namespace

bool settle_dilutions(Context& context, const Recipe& recipe, const Formula& formula,
                      const std::string& whose, bool quiet, std::vector<Diluted>& out) {
    if (recipe.dilutions.empty()) return true;
    Settling settling{context, recipe, formula, whose, quiet};
    settling.index();
    bool whole = true;
    for (const WorkDilution& one : recipe.dilutions)
        whole = settling.has(one) && settling.plain_base(one) && whole;
    if (!whole) return false;
    for (const WorkDilution& one : recipe.dilutions)
        out.push_back({add_dilution(context, one), one.span});
    std::vector<IngredientId> what;
    for (const Part& part : formula.parts) what.push_back(part.what);
    std::vector<Share> shares = formula.shares;
    const auto little = dilute(context.out, out, what, shares);
    if (little) settling.say_little(recipe.dilutions[little->which], *little);
    return !little;
}

void dilute_mix(Context& context, const Recipe& recipe, bool quiet, IngredientId id) {
    if (recipe.dilutions.empty()) return;
    // Dilutions join the tables that the mix stands in.
    const std::uint32_t index = context.out.ingredients[id].index;
    const Formula formula = context.out.mixes[index].formula;
    const std::string whose = context.out.name(id);
    std::vector<Diluted> lines;
    if (!settle_dilutions(context, recipe, formula, whose, quiet, lines)) {
        context.out.ingredients[id].damaged = true;
        return;
    }
    Mix& mix = context.out.mixes[index];
    mix.weighed = diluted(context.out, lines, formula);
    mix.dilutions = std::move(lines);
}

}  // namespace levigate::resolving
