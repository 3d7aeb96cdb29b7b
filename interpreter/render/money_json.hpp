#pragma once
// Money in JSON: rounded to the currency's minor unit, and exactly.

#include <nlohmann/json_fwd.hpp>

#include "interpreter/money/costs.hpp"

namespace levigate {

nlohmann::ordered_json coin_json(const Coin& coin);
nlohmann::ordered_json purse_json(const Purse& purse);
nlohmann::ordered_json lacking_json(const Formulary& formulary, const std::vector<Lack>& lacking);

}  // namespace levigate
