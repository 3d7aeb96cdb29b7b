#include "interpreter/render/cautions.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/walk.hpp"

namespace levigate {
namespace {

std::string listed(const std::vector<std::string_view>& names) {
    return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace

Cautions::Hazards Cautions::hazards_of(IngredientId id) const {
    const Ingredient& ingredient = formulary_.ingredients[id];
    Hazards all{true};
    if (ingredient.kind == Ingredient::Kind::material) {
        if (ingredient.index >= formulary_.materials.size()) return {};
        const Material& material = formulary_.materials[ingredient.index];
        all.powder = material.powder;
        all.flammable = material.flammable;
    } else if (ingredient.index < formulary_.mixes.size()) {
        for (const Part& part : formulary_.mixes[ingredient.index].formula.parts) {
            const bool mix = mix_of(formulary_, part.what) != nullptr;
            const Hazards inside = mix ? seen_[part.what] : hazards_of(part.what);
            all.powder |= inside.powder && ingredient.kind == Ingredient::Kind::blend;
            all.flammable |= inside.flammable;
        }
    }
    return all;
}

Cautions::Hazards Cautions::hazards(IngredientId id) {
    if (id >= formulary_.ingredients.size()) return {};
    seen_.resize(formulary_.ingredients.size());
    each_inner_first(
        formulary_, id, [&](IngredientId one) { return seen_[one].seen; },
        [&](IngredientId one) { seen_[one] = hazards_of(one); });
    if (!seen_[id].seen) seen_[id] = hazards_of(id);
    return seen_[id];
}

std::vector<std::string> Cautions::of(const Bowl& bowl) {
    std::vector<std::string_view> powders, flammables;
    for (const SheetLine& line : bowl.lines) {
        Hazards here = hazards(line.what);
        if (here.powder) powders.push_back(formulary_.name(line.what));
        if (here.flammable) flammables.push_back(formulary_.name(line.what));
    }
    std::vector<std::string> out;
    if (!powders.empty())
        out.push_back(fmt::format("Fine powder ({}): mask and gloves on, no draught, let the dust "
                                  "settle before the mask comes off.",
                                  listed(powders)));
    if (!flammables.empty())
        out.push_back(fmt::format("Flammable ({}): no flame and no spark, keep the lid on, let in "
                                  "fresh air, and never stir it into a phase that is hotter than "
                                  "its flash point.",
                                  listed(flammables)));
    return out;
}

std::vector<std::string> Cautions::fresh(const std::vector<std::string>& notes) {
    std::vector<std::string> out;
    for (const std::string& note : notes)
        if (notes_.insert(note).second) out.push_back(note);
    return out;
}

std::string closing_caution() {
    return "Cautions stand where the files name a hazard. A material without one is not thereby "
           "harmless: its hazard is unknown here. The supplier's safety sheet and the rules of "
           "your country go before anything on this page.";
}

}  // namespace levigate
