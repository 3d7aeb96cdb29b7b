#include <nlohmann/json.hpp>

#include "interpreter/formulary/dilute.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json_parts.hpp"
#include "interpreter/render/money_json.hpp"
#include "interpreter/render/plan_sheet.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

Json batch_json(const Formulary& formulary, const PlanBatch& batch) {
    const SheetNames names = names_of(formulary, batch.sheet);
    Json json;
    json["shade"] = names.shade;
    json["variant"] = text_or_null(names.variant);
    json["finish"] = text_or_null(names.finish);
    json["batch"] = text_or_null(names.batch);
    json["exact"] = in_grams(batch.sheet.total).fraction();
    json["container"] =
        batch.filled ? Json(formulary.containers[batch.filled->container].name) : Json();
    json["pieces"] = batch.filled ? Json(batch.filled->count.fraction()) : Json();
    json["largest"] = Json();
    if (!batch.alone.times) return json;
    json["largest"] = {{"exact", batch.alone_grams.fraction()},
                       {"pieces", batch.filled ? Json(batch.alone_count.fraction()) : Json()},
                       {"by", name_of(formulary, batch.alone.by)}};
    return json;
}

Json bowl_json(const Formulary& formulary, const Planned& plan, const PlanBowl& bowl,
               const GramsWriter& grams) {
    Json json;
    json["name"] = bowl_title(formulary, plan, bowl);
    json["grams"] = grams.text(bowl.bowl.steps);
    json["asked"] = bowl.batch == nothing ? Json(grams.text(bowl.bowl.asked)) : Json();
    if (dilution_of(formulary, bowl.bowl.mix)) {
        json["used"] = json["asked"];
        json["kept"] = grams.text(bowl.kept);
    }
    json["lines"] = Json::array();
    for (const SheetLine& line : bowl.bowl.lines)
        json["lines"].push_back({{"name", formulary.name(line.what)},
                                 {"exact", in_grams(line.exact).fraction()},
                                 {"grams", grams.text(line.steps)}});
    json["portions"] = Json::array();
    for (const Portion& portion : bowl.portions)
        json["portions"].push_back({{"into", portion.into}, {"grams", grams.text(portion.steps)}});
    return json;
}

Json taken_json(const Taken& taken) {
    return {{"lot", text_or_null(taken.stock->lot.name)},
            {"best_before",
             taken.stock->best_before ? Json(date_words(*taken.stock->best_before)) : Json()},
            {"into", taken.bowl},
            {"exact", taken.amount.fraction()}};
}

Json supply_json(const Formulary& formulary, const Supply& one) {
    Json json;
    json["name"] = name_of(formulary, one.need);
    json["unit"] = one.need.material != no_ingredient ? "g" : "piece";
    json["need"] = one.need.amount.fraction();
    json["have"] = one.have.fraction();
    json["short"] = one.lacking.fraction();
    json["pack"] = one.pack ? Json(one.pack->fraction()) : Json();
    json["packs"] = one.packs ? Json(one.packs->fraction()) : Json();
    json["buy"] = one.bought.fraction();
    const Coin* coin = one.cost ? std::get_if<Coin>(&*one.cost) : nullptr;
    json["cost"] = coin ? coin_json(*coin) : Json();
    json["lots"] = Json::array();
    for (const Taken& taken : one.taken) json["lots"].push_back(taken_json(taken));
    return json;
}

}  // namespace

std::string plan_json(const Formulary& formulary, const Sources& sources, const Planned& plan) {
    const GramsWriter grams(plan.reading);
    Json json;
    json["plan"] = plan.plan->name;
    json["on"] = plan.plan->on ? Json(date_words(*plan.plan->on)) : Json();
    json["exact"] = in_grams(plan.total).fraction();
    json["batches"] = Json::array();
    for (const PlanBatch& batch : plan.batches)
        json["batches"].push_back(batch_json(formulary, batch));
    json["left_out"] = plan.left_out;
    json["bowls"] = Json::array();
    for (const PlanBowl& bowl : plan.bowls)
        json["bowls"].push_back(bowl_json(formulary, plan, bowl, grams));
    json["supplies"] = Json::array();
    for (const Supply& one : plan.supplies) json["supplies"].push_back(supply_json(formulary, one));
    json["costs"] = purse_json(plan.to_buy);
    json["complete"] = plan.lacking.empty();
    json["lacking"] = lacking_json(formulary, plan.lacking);
    json["largest"] = Json();
    if (plan.all.times)
        json["largest"] = {{"times", plan.all.times->fraction()},
                           {"by", name_of(formulary, plan.all.by)}};
    json["findings"] = findings_json(sources, plan.findings);
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace levigate
