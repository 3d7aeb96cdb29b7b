#include "interpreter/expand/weighed.hpp"

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"

namespace levigate {

std::optional<TooLittle> weigh_diluted(const Formulary& formulary,
                                       const std::vector<Diluted>& dilutions,
                                       std::vector<FinishedLine>& lines) {
    if (dilutions.empty()) return std::nullopt;
    std::vector<IngredientId> what;
    std::vector<Share> shares;
    for (const FinishedLine& line : lines) {
        what.push_back(line.what);
        shares.push_back(line.share);
    }
    if (auto little = dilute(formulary, dilutions, what, shares)) return little;
    std::vector<FinishedLine> out;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (shares[i] == Share() && !(lines[i].share == Share())) continue;
        out.push_back(lines[i]);
        out.back().what = what[i];
        out.back().share = shares[i];
    }
    lines = std::move(out);
    return std::nullopt;
}

Finding say_little(const Formulary& formulary, const std::vector<Diluted>& dilutions,
                   const TooLittle& little, const std::string& title) {
    const Diluted& line = dilutions[little.which];
    const Dilution& one = formulary.dilutions[line.dilution];
    Finding out{Code::dilute_short,
                title + ": diluted to " + percent_words(one.strength) + ", " +
                    formulary.name(one.what) + " brings " + percent_words(little.due) + " of " +
                    formulary.name(one.base) + ", and there are " + percent_words(little.there) +
                    ": " + percent_words(little.due - little.there) + " are missing.",
                line.span};
    if (little.strength)
        out.fixes = {possible_fix(line.span, "dilute " + written_name(formulary.name(one.what)) +
                                                 " to " + strength_words(*little.strength) +
                                                 " in " + written_name(formulary.name(one.base)))};
    else
        out.advice = "Name another line that there is more of.";
    return out;
}

std::optional<DilutedLine> diluted_in(const Formulary& formulary, const Bowl& bowl,
                                      IngredientId what) {
    if (formulary.dilutions.empty()) return std::nullopt;
    for (const SheetLine& line : bowl.lines)
        if (const Dilution* one = dilution_of(formulary, line.what); one && one->what == what)
            return DilutedLine{&line, one, one->strength * line.exact};
    return std::nullopt;
}

}  // namespace levigate
