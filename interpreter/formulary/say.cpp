#include "interpreter/formulary/say.hpp"

namespace levigate {

std::string number_words(const Exact& number) {
    std::string text = number.exactly();
    if (text.size() <= 12) return text;
    std::string near = number.decimal(4);
    if (near == "0" || near == "-0") near = number.decimal(12);
    return "about " + near;
}

std::string percent_words(const Share& share) { return number_words(in_percent(share)) + " %"; }

std::string gram_words(const Mass& mass) { return number_words(in_grams(mass)) + " g"; }

std::string list_words(const std::vector<std::string>& names, std::size_t most) {
    std::size_t shown = names.size() <= most ? names.size() : most - 1;
    std::string text;
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
        text += names[i];
    }
    if (shown < names.size()) text += " and " + std::to_string(names.size() - shown) + " more";
    return text;
}

std::string role_words(const Formulary& formulary, const Names& names, Sym role) {
    if (role < formulary.role_names.size() && !formulary.role_names[role].empty())
        return formulary.role_names[role];
    return role < names.size() ? std::string(names.folded(role)) : std::string();
}

std::string ref_words(const Formulary& formulary, const Names& names, const Ref& ref) {
    switch (ref.kind) {
        case Ref::Kind::ingredient: return formulary.name(ref.ingredient);
        case Ref::Kind::role: return "the " + role_words(formulary, names, ref.role);
        case Ref::Kind::bulk: break;
    }
    return "the bulk";
}

const Mix* mix_of(const Formulary& formulary, IngredientId ingredient) {
    const Ingredient& entry = formulary.ingredients[ingredient];
    if (entry.kind == Ingredient::Kind::material) return nullptr;
    return entry.index < formulary.mixes.size() ? &formulary.mixes[entry.index] : nullptr;
}

bool ambiguous(const Formulary& formulary, const Part& part) {
    const Mix* mix = mix_of(formulary, part.what);
    return part.ambiguous || (mix && mix->formula.ambiguous);
}

bool usable(const Formulary& formulary, IngredientId ingredient) {
    if (ingredient >= formulary.ingredients.size()) return false;
    const Ingredient& entry = formulary.ingredients[ingredient];
    // A material that lost a line (a price, a density) can still be weighed.
    if (entry.kind == Ingredient::Kind::material) return true;
    const Mix* mix = mix_of(formulary, ingredient);
    return mix && !entry.damaged && mix->formula.solved();
}

}  // namespace levigate
