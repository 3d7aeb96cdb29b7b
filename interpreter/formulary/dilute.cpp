#include "interpreter/formulary/dilute.hpp"

#include <unordered_map>

#include "interpreter/formulary/say.hpp"

namespace levigate {

std::optional<TooLittle> dilute(const Formulary& formulary, const std::vector<Diluted>& lines,
                                std::vector<IngredientId>& what, std::vector<Share>& shares) {
    if (lines.empty()) return std::nullopt;
    std::unordered_map<IngredientId, std::size_t> places;
    for (std::size_t i = 0; i < what.size(); ++i) places.emplace(what[i], i);
    const auto place = [&](IngredientId of) {
        const auto found = places.find(of);
        return found == places.end() ? what.size() : found->second;
    };
    for (std::uint32_t i = 0; i < lines.size(); ++i) {
        const Dilution& one = formulary.dilutions[lines[i].dilution];
        const std::size_t thin = place(one.what), base = place(one.base);
        if (thin == what.size() || base == what.size() || shares[thin] == Share()) continue;
        const Share size = shares[thin] / as_fraction(one.strength);
        const Share due = size - shares[thin];
        if (shares[base] < due) {
            TooLittle out{i, shares[base], due, {}};
            if (as_fraction(shares[base]).sign() > 0)
                out.strength =
                    share(as_fraction(shares[thin]) / as_fraction(shares[thin] + shares[base]));
            return out;
        }
        what[thin] = one.self;
        shares[thin] = size;
        shares[base] = shares[base] - due;
    }
    return std::nullopt;
}

std::string strength_words(const Share& least) {
    const Exact percent = in_percent(least);
    Exact unit = 1;
    for (int places = 0; places < 6; ++places, unit = unit / 10) {
        const Exact up = (percent / unit).ceil() * unit;
        if (up < Exact(100) && up <= percent * Exact(11, 10)) return up.exactly() + " %";
    }
    return exact_percent_words(least);
}

Formula diluted(const Formulary& formulary, const std::vector<Diluted>& lines,
                const Formula& formula) {
    std::vector<IngredientId> what;
    for (const Part& part : formula.parts) what.push_back(part.what);
    std::vector<Share> shares = formula.shares;
    Formula out;
    if (dilute(formulary, lines, what, shares)) return out;
    for (std::size_t i = 0; i < what.size(); ++i) {
        if (shares[i] == Share() && !(formula.shares[i] == Share())) continue;
        out.parts.push_back(formula.parts[i]);
        out.parts.back().what = what[i];
        out.shares.push_back(shares[i]);
    }
    return out;
}

const Dilution* dilution_of(const Formulary& formulary, IngredientId ingredient) {
    if (ingredient >= formulary.ingredients.size()) return nullptr;
    const Mix* mix = mix_of(formulary, ingredient);
    return mix && mix->dilution != nothing ? &formulary.dilutions[mix->dilution] : nullptr;
}

}  // namespace levigate
