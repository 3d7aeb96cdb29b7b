#include "interpreter/formulary/say.hpp"

#include <array>

#include "interpreter/formulary/written_name.hpp"

namespace levigate {

namespace {

bool ends_in(std::string_view word, std::string_view end) {
    return word.size() >= end.size() && word.substr(word.size() - end.size()) == end;
}

/// Signs and short forms are the same behind any number: `2 mL`, `5 tsp`, `3 fl oz`.
bool short_form(std::string_view word) {
    constexpr std::array without_plural = {"percent", "kelvin", "gal", "floz"};
    for (const std::string_view one : without_plural)
        if (word == one) return true;
    return word.size() <= 2 || word.find_first_of("aeiouy") == std::string_view::npos;
}

std::string plural(std::string word) {
    std::string folded;
    fold_name(word, folded);
    const std::string_view last = std::string_view(folded).substr(folded.rfind(' ') + 1);
    const bool far = static_cast<unsigned char>(last.back()) >= 0x80;
    if (far || short_form(last)) return word;
    if (ends_in(last, "s") && !ends_in(last, "ss")) return word;  // `scoops` is one already
    for (const std::string_view end : {"ss", "x", "z", "ch", "sh"})
        if (ends_in(last, end)) return word + "es";
    const bool vowel = std::string_view("aeiou").find(last[last.size() - 2]) != last.npos;
    if (last.back() != 'y' || vowel) return word + "s";
    word.back() = 'i';
    return word + "es";
}

}  // namespace

std::string counted(const std::string& measure, const Exact& number) {
    const bool one = number.sign() > 0 && number <= Exact(1);
    if (one) return measure;
    // Of `jar of glass` there are jars.
    const std::size_t of = measure.find(" of ");
    if (of == std::string::npos) return plural(measure);
    return plural(measure.substr(0, of)) + measure.substr(of);
}

std::string exact_words(const Exact& number) {
    std::string text = number.exactly();
    return text.size() <= 12 ? text : number_words(number);
}

std::string number_words(const Exact& number) {
    constexpr int most_places = 6;
    int places = 0;
    const bool decimal = number.finite_decimal(places) && places <= most_places;
    const bool sixths = (number * 6).is_integer();  // thirds too
    std::string text = number.exactly();
    if ((decimal || sixths || !number.known()) && text.size() <= 12) return text;
    std::string near = number.decimal(4);
    if (near == "0" || near == "-0") near = number.decimal(12);
    return "about " + near;
}

std::string percent_words(const Share& share) { return number_words(in_percent(share)) + " %"; }

std::string exact_percent_words(const Share& share) {
    return exact_words(in_percent(share)) + " %";
}

std::string gram_words(const Mass& mass) { return number_words(in_grams(mass)) + " g"; }

std::string exact_gram_words(const Mass& mass) { return exact_words(in_grams(mass)) + " g"; }

std::string density_words(const Density& density, const Exact& by) {
    std::string out = in_grams_per_millilitre(density).exactly() + " g/mL";
    if (by.sign() > 0) out += " ± " + by.exactly() + " g/mL";
    return out;
}

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

std::string balances_words(const Formulary& formulary) {
    std::vector<std::string> names;
    for (const Balance& balance : formulary.balances) names.push_back(balance.name);
    return list_words(names);
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

namespace {

/// True if the line can be given the role: it has none, and its block is a person's own.
bool may_take_role(const Formulary& formulary, IngredientId id) {
    const Ingredient& entry = formulary.ingredients[id];
    if (entry.role != no_name || entry.kind == Ingredient::Kind::shade) return false;
    return entry.kind == Ingredient::Kind::blend || !formulary.materials[entry.index].library;
}

/// The line that is likeliest the base: of those without a role the rest, or else the largest.
const Part* role_taker(const Formulary& formulary, const Formula& formula) {
    const Part* best = nullptr;
    Exact most;
    for (std::size_t i = 0; i < formula.parts.size(); ++i) {
        const Part& part = formula.parts[i];
        if (!may_take_role(formulary, part.what)) continue;
        if (std::holds_alternative<Rest>(part.amount)) return &part;
        const Exact size = formula.solved() ? as_fraction(formula.shares[i]) : Exact();
        if (best && !(size > most)) continue;
        best = &part;
        most = size;
    }
    return best;
}

}  // namespace

std::string role_advice(const Formulary& formulary, const Names& names, const Formula& formula,
                        Sym role) {
    const std::string word = role_words(formulary, names, role);
    const Part* taker = role_taker(formulary, formula);
    if (!taker)
        return "Add a line of something with the role " + word + ", or write `role " + word +
               "` under the material that is the " + word;
    const Ingredient& entry = formulary.ingredients[taker->what];
    return "Write `role " + word + "` under `" +
           (entry.kind == Ingredient::Kind::blend ? "blend " : "material ") +
           written_name(entry.name) + "`, if that is the " + word;
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
