#include <nlohmann/json.hpp>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/cost_sheet.hpp"
#include "interpreter/render/ends_words.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json_parts.hpp"
#include "interpreter/render/money_json.hpp"

namespace levigate {

using Json = nlohmann::ordered_json;

Json coin_json(const Coin& coin) {
    return {{"currency", currency_code(coin.currency)},
            {"amount", coin.amount.fixed(currency_places(coin.currency))},
            {"exact", coin.amount.fraction()}};
}

Json purse_json(const Purse& purse) {
    Json list = Json::array();
    for (const Coin& coin : purse.coins()) list.push_back(coin_json(coin));
    return list;
}

Json lacking_json(const Formulary& formulary, const std::vector<Lack>& lacking) {
    Json list = Json::array();
    for (const Lack& lack : lacking) {
        const bool price = lack.why == Lack::Why::price, rate = lack.why == Lack::Why::rate;
        list.push_back({{"name", name_of(formulary, lack.of)},
                        {"amount", lack.of.amount.fraction()},
                        {"lacks", price  ? "price"
                                  : rate ? "rate"
                                         : "density"}});
    }
    return list;
}

namespace {

Json line_json(const Formulary& formulary, const CostLine& line) {
    Json json;
    json["name"] = name_of(formulary, line.of);
    json[line.of.material != no_ingredient ? "grams" : "pieces"] = line.of.amount.fraction();
    json["cost"] = coin_json(line.cost);
    json["percent"] = (line.part * 100).decimal(4);
    if (!line.rate) return json;
    json["paid"] = coin_json(line.paid);
    const Rate& rate = *line.rate->rate;
    json["rate"] = {{"from", currency_code(rate.from)},
                    {"into", currency_code(rate.into)},
                    {"exact", rate.factor.fraction()},
                    {"date", rate.date}};
    return json;
}

Json filled_json(const Formulary& formulary, const SheetCost& cost) {
    if (!cost.filled) return {};
    return {{"container", formulary.containers[cost.filled->container].name},
            {"pieces", cost.filled->count.fraction()},
            {"each", purse_json(cost.all.sum.times(1 / cost.filled->count))}};
}

}  // namespace

std::string cost_json(const Formulary& formulary, const Sources& sources, const SheetCost& cost,
                      const CostOrder& order) {
    const SheetNames names = names_of(formulary, cost.sheet);
    Json json;
    json["shade"] = names.shade;
    json["variant"] = text_or_null(names.variant);
    json["finish"] = text_or_null(names.finish);
    json["batch"] = text_or_null(names.batch);
    json["grams"] = in_grams(cost.sheet.total).fraction();
    json["estimate"] = cost.sheet.estimated;
    json["costs"] = purse_json(cost.all.sum);
    json["complete"] = cost.all.complete();
    json["filled"] = filled_json(formulary, cost);
    put_fills(json, formulary, cost.sheet);
    json["gram"] = purse_json(cost.of_gram);
    json["margin"] = Json();
    if (order.margin)
        json["margin"] = {{"percent", percent_text(*order.margin)},
                          {"price", purse_json(target_price(cost.all.sum, *order.margin))}};
    json["lines"] = Json::array();
    for (const CostLine& line : cost.all.lines) json["lines"].push_back(line_json(formulary, line));
    json["lacking"] = lacking_json(formulary, cost.all.lacking);
    json["findings"] = findings_json(sources, cost.sheet.findings);
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace levigate
