#pragma once
// What amounts of materials and counts of containers cost, exactly, by the prices that files state.
// What has no price has no cost, which is said: it is never a silent nothing.

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/money/purse.hpp"

namespace levigate {

/// So many grams of a material, or so many of a container.
struct Needed {
    IngredientId material = no_ingredient;
    ContainerId container = nothing;
    Exact amount;
};
const std::string& name_of(const Formulary& formulary, const Needed& needed);

/// Why a cost, or a part of it, can't be told.
struct Lack {
    enum class Why : std::uint8_t {
        price,
        density,  ///< the price is by volume
        rate,     ///< no rate leads to the currency that was asked for
    } why = Why::price;
    Needed of;
    std::uint32_t currency = 0;  ///< of the price that no rate leads away from
    bool operator==(const Lack& other) const {
        return why == other.why && of.material == other.of.material &&
               of.container == other.of.container;
    }
};

using Cost = std::variant<Coin, Lack>;
Cost cost_of(const Formulary& formulary, const Needed& needed);

/// A rate as it is used: the file's own, or turned round.
struct Exchange {
    const Rate* rate = nullptr;
    Exact factor;
};
/// Nothing where neither the one nor the other way is there.
std::optional<Exchange> exchange(const Formulary& formulary, std::uint32_t from,
                                 std::uint32_t into);
/// "1 EUR = 1.08 USD, 2026-10-01", as the file has it.
std::string rate_words(const Rate& rate);

struct CostLine {
    Needed of;
    Coin paid;                     ///< in the currency of its price
    Coin cost;                     ///< in the one that was asked for; else the same
    std::optional<Exchange> rate;  ///< by which it was turned into that
    Exact part;                    ///< of all that is known in its currency; 0 of nothing
};

/// All that something costs.
struct Costing {
    std::vector<CostLine> lines;  ///< the largest first, a currency after the other
    Purse sum;                    ///< of what is known
    std::vector<Lack> lacking;    ///< empty: that is all of it
    bool complete() const { return lacking.empty(); }
};
/// `into`: the currency that all of it is to be in, where rates lead there; 0: as the prices are.
Costing costing(const Formulary& formulary, std::span<const Needed> needed, std::uint32_t into = 0);

/// "copper mica and slim tube have no price, and light thinner has no density"
std::string lacking_words(const Formulary& formulary, const std::vector<Lack>& lacking);
std::string lacking_advice(const Formulary& formulary, const std::vector<Lack>& lacking,
                           std::uint32_t currency = 0);
/// Where to look: at most six materials and containers without a price or a density.
std::vector<Note> lacking_notes(const Formulary& formulary, const std::vector<Lack>& lacking);

}  // namespace levigate
