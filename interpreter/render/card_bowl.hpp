#pragma once
// The bowls of a card. The inside of html_card.hpp.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/cautions.hpp"

namespace levigate {

/// Sheets of one product, bowl by bowl alike: the batches of a card. Never empty.
using CardSheets = std::vector<Sheet>;

/// What a column is called: the batch, or "weigh" where only an amount was asked for.
std::string_view batch_name(const Formulary& formulary, const Sheet& sheet);
/// The tick boxes that belong together: those of one batch on one card.
std::string tick_group(std::size_t card, std::size_t batch);

/// A rectangle in the swatch's colour, which a screen reader reads as `words`.
void append_patch(std::string& out, const Swatch& swatch, std::string_view words);
/// "Lab 38 61 32 at 5 % in soft base".
std::string swatch_words(const Formulary& formulary, const Swatch& swatch);

/// What a plan knows of a bowl, and a sheet doesn't.
struct PlannedBowl {
    std::size_t number = 1;  ///< of the plan's bowls, from 1
    /// By line: the bowl that it comes from, from 1; 0 where it isn't a blend of the plan.
    std::vector<std::size_t> from;
    std::vector<std::string> beside;  ///< by line: which lots it is taken from
    std::string portions;             ///< how it is parted; empty where it isn't
};

struct BowlPlace {
    std::size_t card = 1;  ///< from 1
    std::size_t bowl = 0;  ///< index in the sheets
    const PlannedBowl* planned = nullptr;

    std::size_t number() const { return planned ? planned->number : bowl + 1; }
};
/// Heading, cautions, what to weigh, steps and notes.
void append_bowl(std::string& out, const Formulary& formulary, Cautions& cautions,
                 const CardSheets& sheets, const BowlPlace& place);

/// Where a sheet keeps the texts that are meant.
using TextsOf = std::function<const std::vector<std::string>*(const Sheet&)>;
/// Notes of all batches, each once on the page, their amounts side by side where they differ.
void append_notes(std::string& out, const Formulary& formulary, Cautions& cautions,
                  const CardSheets& sheets, const TextsOf& texts);

}  // namespace levigate
