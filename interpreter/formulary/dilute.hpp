#pragma once
// What is weighed of a bowl some of whose lines are diluted: their dilutions stand in their place,
// and the bases are weighed less what these bring. What the bowl holds stays the same, exactly.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

/// A base of which there is less than a dilution takes.
struct TooLittle {
    std::uint32_t which = 0;        ///< in the list of `dilute` lines
    Share there;                    ///< of the base, less what other dilutions take
    Share due;                      ///< what this one takes
    std::optional<Share> strength;  ///< from which on it would do; none where no base is left
};

/// That strength as it is to be written: a little more, as a number that is read at a glance.
std::string strength_words(const Share& least);

/// Rewrites names and shares of a bowl's lines. A line of nothing stays as it is, and so does what
/// isn't in the bowl together with its base. A base that is used up keeps a line of nothing.
std::optional<TooLittle> dilute(const Formulary& formulary, const std::vector<Diluted>& lines,
                                std::vector<IngredientId>& what, std::vector<Share>& shares);

/// The same of a solved formula, without bases that are used up. Unsolved where there is too
/// little of one.
Formula diluted(const Formulary& formulary, const std::vector<Diluted>& lines,
                const Formula& formula);

/// The dilution behind an ingredient; none for any other.
const Dilution* dilution_of(const Formulary& formulary, IngredientId ingredient);

}  // namespace levigate
