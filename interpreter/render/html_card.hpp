#pragma once
// The bench page: sheets to work from, on a phone, a tablet or paper. A card is one shade under one
// variant and finish; its batches stand side by side in columns, and every amount can be ticked.

#include <string>
#include <string_view>
#include <vector>

#include "grammar/isolates.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/expand/stock.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/render/cautions.hpp"

namespace levigate {

struct Planned;

inline constexpr std::size_t largest_page = 4u << 20;  ///< bytes of cards

class BenchPage {
public:
    explicit BenchPage(const Formulary& formulary) : formulary_(formulary), cautions_(formulary) {}
    /// Sheets of one product, bowl by bowl alike, that follow each other share a card, up to three.
    void append(const Sheet& sheet);
    /// A plan's cards: what it needs, the blends that its batches share, and each batch's own bowl.
    void append(const Planned& plan);
    /// It holds more than any phone shows: nothing more was taken in, and nobody should print it.
    bool too_long() const { return cards_.size() > largest_page; }
    bool empty() const { return names_.empty() && open_.empty(); }
    /// All of it. `about` names the page in its heading, unless it is of an edition, which has a
    /// title. Names from right to left keep to themselves, in elements of their own.
    std::string page(std::string_view about, const Isolates& isolates = {});

private:
    void close_cards();
    /// What can be prepared so that small lines of these sheets can be weighed: a card of its own.
    void append_stocks();
    /// Its number, from 1; `content`: what the list at the top calls it.
    std::size_t next_card(std::string name, std::string content);

    const Formulary& formulary_;
    Cautions cautions_;
    StockDilutions stocks_;
    std::vector<Sheet> open_;                    ///< of the card that is being gathered
    std::vector<std::string> names_, contents_;  ///< of the cards, and with their batches
    std::string cards_;
};

}  // namespace levigate
