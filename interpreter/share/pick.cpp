#include "interpreter/share/pick.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "interpreter/formulary/say.hpp"
#include "interpreter/share/tables.hpp"
#include "interpreter/share/ways.hpp"

namespace levigate::sharing {

namespace {

class Picker {
public:
    Picker(const Compiled& compiled, const Index& index, const std::set<std::string>& inside)
        : compiled_(compiled), formulary_(compiled.formulary), index_(index), inside_(inside),
          used_(formulary_.ingredients.size()) {
        out_.value.chosen.resize(formulary_.shades.size());
        out_.value.hidden.resize(formulary_.ingredients.size());
        for (ShadeId id = 0; id < formulary_.shades.size(); ++id)
            if (!formulary_.shades[id].member)
                shade_ids_.emplace(index.at(formulary_.shades[id].span), id);
    }

    Outcome<Picked> operator()(const std::vector<std::string>& wanted) {
        choose(wanted);
        for (ShadeId id = 0; id < formulary_.shades.size(); ++id)
            if (out_.value.chosen[id]) use_shade(formulary_.shades[id]);
        hide();
        list_shades();
        // What is mentioned and not used yet may bring more that is written as it stands.
        for (std::size_t before = 0; before != count_;) {
            before = count_;
            list_mixes();
            fresh_.clear();
            for (const Place place : written()) mention(place);
            mention_flat();
            mention_fresh();
        }
        out_.value.versions = version_order_;
        list_materials();
        add_tables(compiled_, index_, written(), out_.value);
        for (const Place place : written()) refuse_private(place);
        refuse_flat();
        return std::move(out_);
    }

private:
    void choose(const std::vector<std::string>& wanted);
    void use(IngredientId id);
    void use_shade(const Shade& shade);
    void use_version(Heading heading, Sym name);
    void hide();
    void list_mixes();
    void list_mix(IngredientId id, std::vector<bool>& listed);
    Way mix_way(IngredientId id) const;
    void list_shades();
    bool whole_family(Place family);
    std::vector<Place> written() const;
    void mention(Place place);
    void mention_flat();
    void mention_fresh();
    void mention_texts(const std::vector<TextId>& ids);
    void mention_role(Sym role);
    void use_open(IngredientId id) {
        if (id != no_ingredient && !out_.value.hidden[id]) use(id);
    }
    void list_materials();
    void refuse_private(Place place);
    void refuse_flat();

    ShadeId shade_at(Place place) const {
        const auto found = shade_ids_.find(place);
        return found == shade_ids_.end() ? nothing : found->second;
    }

    const Compiled& compiled_;
    const Formulary& formulary_;
    const Index& index_;
    const std::set<std::string>& inside_;
    std::vector<bool> used_;  ///< by IngredientId
    std::size_t count_ = 0;   ///< of what is used
    std::map<Place, ShadeId> shade_ids_;
    std::set<Place> versions_;
    std::vector<Place> version_order_;
    std::vector<IngredientId> fresh_;  ///< used since all was last looked through
    Outcome<Picked> out_;
    ShadeWays ways_{formulary_, index_, shade_ids_, out_.value.chosen};
};

// ---- What is used ------------------------------------------------------------------------------

void Picker::choose(const std::vector<std::string>& wanted) {
    std::vector<Sym> names;
    for (const std::string& name : wanted) names.push_back(compiled_.names.find(name));
    if (wanted.empty() && formulary_.edition) names = formulary_.edition->shades;
    std::vector<bool> met(names.size());
    for (ShadeId id = 0; id < formulary_.shades.size(); ++id) {
        const Shade& shade = formulary_.shades[id];
        if (!shade.own) continue;
        bool chosen = names.empty();
        for (std::size_t i = 0; i < names.size(); ++i)
            if (names[i] != no_name && (names[i] == shade.sym || names[i] == shade.family.sym))
                chosen = met[i] = true;
        out_.value.chosen[id] = chosen;
    }
    for (std::size_t i = 0; i < met.size(); ++i)
        if (!met[i])
            out_.findings.push_back(none_called(
                compiled_,
                i < wanted.size() ? wanted[i] : std::string(compiled_.names.folded(names[i])),
                wanted.empty()));
    if (names.empty() && std::find(out_.value.chosen.begin(), out_.value.chosen.end(), true) ==
                             out_.value.chosen.end())
        out_.findings.push_back({Code::choice_none, "This file has no shade that could go out.",
                                 Span{}, "Add a block `shade NAME`."});
}

void Picker::use(IngredientId first) {
    std::vector<IngredientId> due{first};
    while (!due.empty()) {
        const IngredientId id = due.back();
        due.pop_back();
        if (id == no_ingredient || used_[id]) continue;
        used_[id] = true;
        out_.value.hidden[id] = false;  // an open formula that goes out names it
        ++count_;
        fresh_.push_back(id);
        if (const Mix* mix = mix_of(formulary_, id))
            for (const Part& part : mix->formula.parts) due.push_back(part.what);
    }
}

void Picker::use_version(Heading heading, Sym name) {
    const Place place = index_.find(heading, name);
    if (place && !index_.library(place) && versions_.insert(place).second)
        version_order_.push_back(place);
}

void Picker::use_shade(const Shade& shade) {
    for (const Version& version : shade.versions) {
        if (!version.variant.empty()) use_version(Heading::variant, version.sym);
        for (const Part& part : version.formula.parts) use(part.what);
    }
    for (const ShadeFinish& finish : shade.finishes) {
        use_version(Heading::finish, finish.sym);
        if (finish.finishing == nothing) continue;
        for (const Addition& one : formulary_.finishings[finish.finishing].additions) use(one.what);
    }
}

/// What only sealed blends hold is not named, whoever mentions it.
void Picker::hide() {
    for (IngredientId id = 0; id < used_.size(); ++id)
        out_.value.hidden[id] =
            !used_[id] && inside_.contains(std::string(
                              compiled_.names.folded(formulary_.ingredients[id].sym)));
}

// ---- How it is written -------------------------------------------------------------------------

Way Picker::mix_way(IngredientId id) const {
    const Ingredient& ingredient = formulary_.ingredients[id];
    if (ingredient.kind == Ingredient::Kind::shade) return Way::flat;
    const std::vector<Place> chain = index_.chain(index_.at(ingredient.span));
    // All of a chain must be there, and a `let` only works where what it fills is there as written.
    for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
        const IngredientId parent = index_.ingredient(index_.block(chain[i]).name.sym);
        if (parent == no_ingredient || !used_[parent]) return Way::flat;
    }
    return Way::written;
}

void Picker::list_mix(IngredientId first, std::vector<bool>& listed) {
    std::vector<std::pair<IngredientId, bool>> due{{first, false}};
    while (!due.empty()) {
        const auto [id, ready] = due.back();
        due.pop_back();
        if (ready) {
            out_.value.mixes.push_back(
                {id, mix_way(id), index_.at(formulary_.ingredients[id].span)});
            continue;
        }
        const Mix* mix = mix_of(formulary_, id);
        if (!mix || listed[id] || !used_[id]) continue;
        listed[id] = true;
        due.push_back({id, true});
        for (auto part = mix->formula.parts.rbegin(); part != mix->formula.parts.rend(); ++part)
            due.push_back({part->what, false});
    }
}

void Picker::list_mixes() {
    out_.value.mixes.clear();
    std::vector<bool> listed(used_.size());
    for (IngredientId id = 0; id < used_.size(); ++id)
        if (used_[id]) list_mix(id, listed);
}

/// All its members go out, and so does what they are like.
bool Picker::whole_family(Place family) {
    const tree::Block& block = index_.block(family);
    for (ShadeId id = 0; id < formulary_.shades.size(); ++id)
        if (formulary_.shades[id].member && formulary_.shades[id].family.sym == block.name.sym &&
            !out_.value.chosen[id])
            return false;
    for (const tree::Line* line : index_.lines(family)) {
        std::vector<Sym> sources;
        if (line->form == Form::from)
            sources.push_back(std::get<tree::Reference>(line->body).name.sym);
        if (const auto* between = std::get_if<tree::Between>(&line->body))
            sources = {between->first.sym, between->last.sym};
        for (const Sym name : sources) {
            const ShadeId source = shade_at(index_.find(Heading::shade, name));
            if (source == nothing || !out_.value.chosen[source]) return false;
            if (line->form == Form::from && ways_.stands_on_flat(source)) return false;
        }
    }
    return true;
}

void Picker::list_shades() {
    out_.value.shades.clear();
    std::map<Place, bool> families;  // and whether it is written as one
    for (ShadeId id = 0; id < formulary_.shades.size(); ++id) {
        if (!out_.value.chosen[id]) continue;
        const Shade& shade = formulary_.shades[id];
        PickedShade one{id, ways_.of(id), index_.at(shade.span)};
        if (shade.member) {
            one.place = index_.find(Heading::family, shade.family.sym);
            const auto [seat, fresh] = families.emplace(one.place, false);
            if (fresh) seat->second = whole_family(one.place);
            one.family = seat->second;
            if (one.family) one.way = Way::written;
            if (one.family && !fresh) continue;
        }
        out_.value.shades.push_back(one);
    }
}

std::vector<Place> Picker::written() const {
    std::vector<Place> out = version_order_;
    for (const PickedMix& mix : out_.value.mixes)
        if (mix.way == Way::written) out.push_back(mix.place);
    for (const PickedShade& shade : out_.value.shades)
        if (shade.way == Way::written) out.push_back(shade.place);
    for (IngredientId id = 0; id < used_.size(); ++id)
        if (used_[id] && formulary_.ingredients[id].kind == Ingredient::Kind::material)
            out.push_back(index_.at(formulary_.ingredients[id].span));
    return out;
}

void Picker::mention(Place place) {
    for (const tree::Line* line : index_.lines(place)) {
        if (line->is_private) continue;
        for (const Name& name : names_in(*line)) {
            if (!name.hole) use_open(index_.ingredient(name.sym));
        }
    }
}

void Picker::mention_texts(const std::vector<TextId>& ids) {
    for (const TextId id : ids)
        if (!formulary_.texts[id].is_private)
            for (const TextPiece& piece : formulary_.texts[id].pieces) use_open(piece.ingredient);
}

/// A role that nothing in the edition would have: then something of it comes along.
void Picker::mention_role(Sym role) {
    const auto& all = formulary_.ingredients;
    IngredientId first = no_ingredient;
    for (IngredientId id = 0; id < all.size(); ++id) {
        if (all[id].role != role) continue;
        if (used_[id]) return;
        const bool material = all[id].kind == Ingredient::Kind::material;
        if (first == no_ingredient && material && !out_.value.hidden[id]) first = id;
    }
    use_open(first);
}

/// What is reckoned out names what its texts and expectations name.
void Picker::mention_flat() {
    for (const PickedMix& mix : out_.value.mixes) {
        if (mix.way != Way::flat) continue;
        mention_texts(mix_of(formulary_, mix.id)->steps);
        mention_texts(mix_of(formulary_, mix.id)->notes);
    }
    for (ShadeId id = 0; id < formulary_.shades.size(); ++id) {
        if (!out_.value.chosen[id]) continue;
        const Shade& shade = formulary_.shades[id];
        mention_texts(shade.versions[0].steps);
        mention_texts(shade.versions[0].notes);
        for (const Expectation& expect : shade.expects) {
            const tree::Line* line = index_.line_at(expect.span);
            if (line && line->is_private) continue;
            use_open(expect.ingredient);
            if (expect.measure == Expectation::Measure::role) mention_role(expect.role);
        }
    }
}

/// What was met on the way, and what that mentions: a long chain needs no pass for each of it.
void Picker::mention_fresh() {
    while (!fresh_.empty()) {
        const IngredientId id = fresh_.back();
        fresh_.pop_back();
        if (mix_of(formulary_, id) && mix_way(id) == Way::written)
            mention(index_.at(formulary_.ingredients[id].span));
    }
}

void Picker::list_materials() {
    for (IngredientId id = 0; id < used_.size(); ++id) {
        const Ingredient& ingredient = formulary_.ingredients[id];
        if (ingredient.kind != Ingredient::Kind::material || !used_[id]) continue;
        const Material& material = formulary_.materials[ingredient.index];
        out_.value.powder = out_.value.powder || material.powder;
        out_.value.flammable = out_.value.flammable || material.flammable;
        out_.value.materials.push_back(index_.at(ingredient.span));
    }
}

// ---- What must not go out ----------------------------------------------------------------------

void Picker::refuse_private(Place place) {
    for (const tree::Line* line : index_.lines(place)) {
        if (!line->is_private || !must_go_out(line->form)) continue;
        const bool again = std::any_of(out_.findings.begin(), out_.findings.end(),
                                       [&](const Finding& one) { return one.span == line->span; });
        if (!again) out_.findings.push_back(private_line(*line));
    }
}

/// What is reckoned out rests on all that it is like.
void Picker::refuse_flat() {
    const auto all_of = [&](Place place) {
        for (const Place one : index_.chain(place)) refuse_private(one);
    };
    for (const PickedMix& mix : out_.value.mixes)
        if (mix.way == Way::flat) all_of(mix.place);
    for (const PickedShade& shade : out_.value.shades) {
        if (shade.way != Way::flat) continue;
        all_of(shade.place);
        for (const tree::Line* line : index_.lines(shade.place)) {
            const auto source = [&](const Name& name) {
                if (const Place from = index_.find(Heading::shade, name.sym)) all_of(from);
            };
            if (line->form == Form::from) source(std::get<tree::Reference>(line->body).name);
            if (const auto* between = std::get_if<tree::Between>(&line->body))
                source(between->first), source(between->last);
        }
    }
}

}  // namespace

Outcome<Picked> pick(const Compiled& compiled, const Index& index,
                     const std::vector<std::string>& wanted,
                     const std::set<std::string>& inside) {
    return Picker(compiled, index, inside)(wanted);
}

}  // namespace levigate::sharing
