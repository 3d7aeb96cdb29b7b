#pragma once
// A plan as a person reads it and as programs do.

#include <string>
#include <vector>

#include "grammar/source.hpp"
#include "interpreter/plan/plan.hpp"
#include "interpreter/render/cautions.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// "Quince · satin · full"; of a quantity "Quince · satin · 20.00 g".
std::string batch_title(const Formulary& formulary, const PlanBatch& batch);
/// Of a bowl: the blend, or the batch.
std::string bowl_title(const Formulary& formulary, const Planned& plan, const PlanBowl& bowl);

/// "Portions: 31.75 g for Quince · full and 6.00 g for Damson · full."
std::string portion_words(const Formulary& formulary, const Planned& plan, const PlanBowl& bowl);
/// Grams as the balance shows them, `up`: never less than what is due, else never more than is
/// there; pieces as they are.
std::string supply_amount(const Planned& plan, const Needed& of, const Exact& amount, bool up);
/// What a lot gives.
std::string taken_amount(const Planned& plan, const Supply& one, const Exact& amount);
/// What is needed, there and short, as they stand beside each other.
std::string supply_needed(const Planned& plan, const Supply& one);
std::string supply_have(const Planned& plan, const Supply& one);
std::string supply_short(const Planned& plan, const Supply& one);
/// "Needed is all that is weighed, with what is kept: 1.70 g of …"; empty where nothing is kept.
std::string kept_words(const Formulary& formulary, const Planned& plan);
/// "2 × 50.00 g", "no pack known"; empty where nothing is to be bought.
std::string supply_to_buy(const Planned& plan, const Supply& one);
/// "14.20 USD", "no price"; empty where nothing is to be bought.
std::string supply_cost(const Supply& one);
/// "lot 24-117", "no lot written"
std::string stock_words(const Stock& stock);

document::Document plan_document(const Formulary& formulary, const Planned& plan,
                                 Cautions& cautions);

/// plan,item,unit,need,have,short,pack,packs,buy,cost,currency: what is needed and to be bought.
std::string plan_csv_head();
void append_plan_csv(std::string& out, const Formulary& formulary, const Planned& plan);

/// One object, as in the list `plans` of {"format": "levigate plan 1", …}.
std::string plan_json(const Formulary& formulary, const Sources& sources, const Planned& plan);

}  // namespace levigate
