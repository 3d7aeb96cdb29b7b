#pragma once
// The lines of a shade's own bowl as they are weighed, and how much of a dilution is made.

#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/expand/finished.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/dilute.hpp"

namespace levigate {

/// Puts dilutions in the place of what they dilute. A finish may add so much of it that a base
/// isn't enough; then the lines are left as they are.
std::optional<TooLittle> weigh_diluted(const Formulary& formulary,
                                       const std::vector<Diluted>& dilutions,
                                       std::vector<FinishedLine>& lines);

Finding say_little(const Formulary& formulary, const std::vector<Diluted>& dilutions,
                   const TooLittle& little, const std::string& title);

/// What goes into a batch's bowl of a name that is diluted there; none where it isn't.
struct DilutedLine {
    const SheetLine* line = nullptr;  ///< of the dilution
    const Dilution* dilution = nullptr;
    Mass exact;  ///< of the name in it
};
std::optional<DilutedLine> diluted_in(const Formulary& formulary, const Bowl& bowl,
                                      IngredientId what);

}  // namespace levigate
