#include "interpreter/render/remedies_json.hpp"

#include <nlohmann/json.hpp>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/json_parts.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

Json uses_json(const Formulary& formulary, const std::vector<StockUse>& uses) {
    Json list = Json::array();
    for (const StockUse& use : uses) {
        Sheet sheet;
        sheet.shade = use.shade;
        sheet.version = use.version;
        sheet.finishing = use.finishing;
        sheet.batch = use.batch;
        const SheetNames names = names_of(formulary, sheet);
        list.push_back({{"shade", names.shade},
                        {"variant", text_or_null(names.variant)},
                        {"finish", text_or_null(names.finish)},
                        {"batch", text_or_null(names.batch)},
                        {"bowl", use.mix == no_ingredient ? std::string(names.shade)
                                                          : formulary.name(use.mix)}});
    }
    return list;
}

}  // namespace

Json remedy_json(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy) {
    const GramsWriter grams(sheet.reading);
    Json json;
    json["least"] = grams.rounded(remedy.least);
    json["batch"] = remedy.batch ? Json(grams.rounded(*remedy.batch)) : Json();
    if (const auto& count = remedy.containers)
        json["containers"] = {{"count", count->count.fraction()},
                              {"container", formulary.containers[count->container].name}};
    if (remedy.bowl_steps) json["bowl"] = grams.text(*remedy.bowl_steps);
    if (remedy.further) json["further"] = percent_text(*remedy.further);
    if (!remedy.aliquot) {
        json["aliquot"] = nullptr;
        return json;
    }
    const AliquotRemedy& made = *remedy.aliquot;
    json["aliquot"] = {{"factor", made.factor.fraction()},
                       {"weigh", grams.text(made.weigh)},
                       {"with", grams.text(made.with)},
                       {"of", formulary.name(sheet.bowls[remedy.bowl].lines[remedy.diluent].what)},
                       {"take", grams.text(made.take)},
                       {"less", grams.text(made.less)},
                       {"reads", grams.text(made.reads)}};
    return json;
}

Json stocks_json(const Formulary& formulary, const StockDilutions& stocks) {
    Json list = Json::array();
    const Stocks settled = stocks.settle();
    for (const StockDilution& stock : settled.dilutions) {
        const GramsWriter grams(stock.reading);
        list.push_back({{"line", dilute_line(formulary, stock)},
                        {"of", formulary.name(stock.of)},
                        {"percent", (Exact(100) / stock.parts).exactly()},
                        {"in", formulary.name(stock.in)},
                        {"prepare", grams.text(stock.weigh + stock.with)},
                        {"weigh", grams.text(stock.weigh)},
                        {"with", grams.text(stock.with)},
                        {"serves", uses_json(formulary, stock.serves)},
                        {"leaves", uses_json(formulary, stock.leaves)}});
    }
    return list;
}

}  // namespace levigate
