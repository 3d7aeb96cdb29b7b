#pragma once
// What every card of a bench page has around its bowls. The inside of html_card.hpp.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/money/costs.hpp"

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
/// The page may lie about in the workshop: no private price is on it, nor a cost that holds one.
bool has_private_price(const Formulary& formulary, const Needed& needed);
Findings without_private_costs(const Formulary& formulary, Findings findings);
/// What was found about a sheet. Ways to weigh a line are at its bowl and aren't told here too.
Findings looks_of(const Formulary& formulary, const Sheet& sheet);
/// What is to be looked at before weighing, by batch: what only some of them have is shown with
/// these alone.
void append_looks(std::string& out, const std::vector<Findings>& batches);
void close_card(std::string& out);

}  // namespace levigate
