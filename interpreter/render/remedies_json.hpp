#pragma once
// Remedies and dilutions for programs; what the keys mean stands in LANGUAGE.md.

#include <nlohmann/json_fwd.hpp>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/expand/stock.hpp"

namespace levigate {

/// {"least", "batch", "containers", "aliquot"}: what can be done about one line.
nlohmann::ordered_json remedy_json(const Formulary& formulary, const Sheet& sheet,
                                   const Remedy& remedy);

/// [{"line": "dilute …", "of", "percent", "in", "prepare", "weigh", "with", "serves", "leaves"}]
nlohmann::ordered_json stocks_json(const Formulary& formulary, const StockDilutions& stocks);

}  // namespace levigate
