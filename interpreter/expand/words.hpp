#pragma once
// Steps and notes with their holes filled, and what a sheet is called in a finding.

#include <functional>
#include <string>
#include <vector>

#include "interpreter/expand/product.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// "Quince / sheer / matte".
std::string sheet_title(const Formulary& formulary, const Shade& shade, const Version& version,
                        FinishingId finishing);

/// Fills the steps and notes of every bowl, and the sheet's notes, once its bowls are made. An
/// ingredient's hole prints its name and what to weigh of it in the bowl that the text belongs to.
/// Where it is no line there, nothing of it is weighed by that text: then the lines that hold it
/// are named, "(in Windfall mica)", or the name stands alone. Under --onto the shade's own steps
/// are done already, and only those of the finish are given.
void fill_words(const Formulary& formulary, Sheet& sheet);

/// The same, with other words for the amount of an ingredient in the bowl that the text belongs to;
/// empty where it is no line there.
using AmountWords = std::function<std::string(const Bowl& here, IngredientId what)>;
void fill_words(const Formulary& formulary, Sheet& sheet, const AmountWords& amount);

}  // namespace levigate
