#pragma once
// One sheet as a page for the bench.

#include <optional>
#include <string>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/cautions.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// The bowls in the order of making, each with what to weigh, the running reading for someone who
/// never tares, its cautions, steps and notes; then what was found about this sheet.
document::Document sheet_document(const Formulary& formulary, const Sheet& sheet,
                                  Cautions& cautions);

/// "Weighed on bench balance, in steps of 0.01 g."
std::string about_balance(const Formulary& formulary, const Sheet& sheet);
/// What a formula of weights weighs as it is written, where this sheet makes another amount of it.
std::optional<Mass> scaled_from(const Formulary& formulary, const Sheet& sheet);
/// "Scaled from 6.12 g, the sum of the weights as written."; empty where it isn't.
std::string about_scaling(const Formulary& formulary, const Sheet& sheet);
/// What is to be looked at before weighing, under a heading of its own; nothing where all is well.
inline constexpr std::string_view looks_heading = "To look at before weighing";
std::string look_words(const Finding& finding);
void add_findings(document::Document& out, const Findings& findings);

/// What stands once below all sheets.
document::Document sheets_closing();

}  // namespace levigate
