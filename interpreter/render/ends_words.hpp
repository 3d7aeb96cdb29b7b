#pragma once
// Ends of figures (formulary/ends.hpp) as they stand on a sheet and in its JSON.

#include <nlohmann/json_fwd.hpp>

#include "interpreter/expand/sheet.hpp"

namespace levigate {

/// "47.1 to 49.0", rounded outwards, so that no end is cut off.
std::string from_to(const Ends& ends, int places);
/// "It fills 47.1 to 49.0 slim tubes."; empty where the sheet doesn't tell.
std::string fills_words(const Formulary& formulary, const Sheet& sheet);
/// How much it fills, and what the ranges of the sheet mean; empty where no figure has ends.
std::string about_ends(const Formulary& formulary, const Sheet& sheet);

/// `least` and `most` beside an exact figure, where it isn't known outright; null where they can't
/// be told.
void put_ends(nlohmann::ordered_json& json, const std::optional<Ends>& ends);
/// `fills`: the container, and how many at least and at most.
void put_fills(nlohmann::ordered_json& json, const Formulary& formulary, const Sheet& sheet);

}  // namespace levigate
