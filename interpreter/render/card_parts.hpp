#pragma once
// What every card of a bench page has around its bowls. The inside of html_card.hpp.

#include <string>
#include <string_view>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// "Quince · sheer · matte".
std::string card_name(const Formulary& formulary, const Sheet& sheet);
/// The card's element, its head and the heading; what follows stands in the head.
void open_card(std::string& out, std::size_t card, std::string_view name);
/// Below what the head says; the head stays open for a swatch.
inline constexpr std::string_view start_over =
    "<button type=\"button\" class=\"start-over\" hidden>Start over</button>\n</div>\n";
/// The shade's measured colours.
void append_swatch(std::string& out, const Formulary& formulary, const Sheet& sheet);
/// What was found about a sheet. Ways to weigh a line stand at its bowl and aren't told here too.
Findings looks_of(const Sheet& sheet);
/// What is to be looked at before weighing.
void append_looks(std::string& out, const Findings& findings);
/// The cautions that stand below all bowls.
void close_card(std::string& out);

}  // namespace levigate
