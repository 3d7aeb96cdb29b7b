#pragma once
// What a sheet costs, as a person reads it and as a program does.

#include <optional>
#include <string>
#include <vector>

#include "grammar/source.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/money/costs.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

struct CostOrder {
    std::uint32_t into = 0;       ///< the currency that all of it is to be in; 0: as prices are
    std::optional<Share> margin;  ///< what the price is to leave over of itself, below 1
};

struct SheetCost {
    const Sheet& sheet;
    Costing all;    ///< materials as exactly needed, overage and holdback too, and containers
    Purse of_gram;  ///< what is known of the materials in a gram of what is filled
    bool gram_complete = true;  ///< no material lacks a price, whatever the container does
    std::optional<ContainerCount> filled;
};
/// `size`: what the sheet was made by.
SheetCost sheet_cost(const Formulary& formulary, const Sheet& sheet, const BatchSize& size,
                     const CostOrder& order);

/// Cost ÷ (1 − margin), so that the margin is a share of the price: rounded up to the minor unit.
Purse target_price(const Purse& cost, const Share& margin);

document::Document cost_document(const Formulary& formulary, const SheetCost& cost,
                                 const CostOrder& order);

/// shade,variant,finish,batch,item,amount,unit,cost,currency,exact,percent
std::string cost_csv_head();
void append_cost_csv(std::string& out, const Formulary& formulary, const SheetCost& cost);

/// One object, as in the list `sheets` of {"format": "levigate cost 1", "sheets": […],
/// "findings": […]}
std::string cost_json(const Formulary& formulary, const Sources& sources, const SheetCost& cost,
                      const CostOrder& order);

}  // namespace levigate
