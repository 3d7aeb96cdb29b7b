#pragma once
// What to do about each line of a sheet that is too small to be weighed well: a larger batch, or an
// aliquot of a dilution.

#include <optional>
#include <string>

#include "interpreter/expand/blueprint.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/expand/weighable.hpp"

namespace levigate {

/// What a sheet was made by.
struct MadeBy {
    const Formulary& formulary;
    Sym base_role;  ///< of what dilutes before all else
    const Blueprint& blueprint;
    const BatchSize* size;           ///< none under --onto
    std::optional<Density> density;  ///< of the mix, where the size needs it
};

/// What the sheet's balance does. Where it says nothing of how little it weighs well, the usual
/// error of pharmacies stands for that.
Scale scale_of(const Reading& reading);

/// On one sheet: more than anybody dilutes, and no file takes long by it.
inline constexpr std::size_t most_remedies = 60;
/// Fills `sheet.remedies`, once its bowls are made: for lines under the least weight, and for those
/// that read nothing.
void find_remedies(const MadeBy& by, Sheet& sheet);

/// In a finding: "Make 12.00 g or more, or weigh 0.12 g of it with …"; empty where there is no way.
std::string remedy_sentence(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy);

/// True where it is a blend of this sheet.
bool has_bowl(const Sheet& sheet, IngredientId what);

/// Why a balance weighs no less than this well: "0.01 g is 5 % of that"; empty where it was stated.
std::string why_no_less(const Least& least, const Reading& reading);

/// "12.00 g", as the sheet's balance reads it.
std::string read_words(const Exact& steps, const Reading& reading);
/// What to type in its place: "6 slim tubes, overage 4 % (27.00 g)", "12.00 g", "30.00 g of the
/// bulk".
std::string batch_words(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy);

}  // namespace levigate
