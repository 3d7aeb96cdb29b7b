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

document::Document plan_document(const Formulary& formulary, const Planned& plan,
                                 Cautions& cautions);

/// plan,item,unit,need,have,short,pack,packs,buy,cost,currency: what is needed and to be bought.
std::string plan_csv_head();
void append_plan_csv(std::string& out, const Formulary& formulary, const Planned& plan);

/// One object, as in the list `plans` of {"format": "levigate plan 1", …}.
std::string plan_json(const Formulary& formulary, const Sources& sources, const Planned& plan);

}  // namespace levigate
