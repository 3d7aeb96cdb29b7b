#include <nlohmann/json.hpp>

#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json_parts.hpp"
#include "interpreter/render/record_document.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

Json exact_or_null(const std::optional<Mass>& mass) {
    return mass ? Json(in_grams(*mass).fraction()) : Json();
}

Json line_json(const RecordLine& line) {
    return {{"bowl", text_or_null(line.bowl)},        {"name", line.name},
            {"planned", exact_or_null(line.planned)}, {"weighed", exact_or_null(line.weighed)},
            {"today", exact_or_null(line.today)},     {"lots", line.lots}};
}

Json record_json(const RecordReport& report) {
    const Record& record = report.record;
    Json json;
    json["day"] = record.day;
    json["made"] = record.title;
    json["code"] = text_or_null(record.code);
    json["by"] = text_or_null(record.by);
    json["formula"] = text_or_null(record.formula);
    json["changed"] = report.formula == RecordReport::Formula::unknown
                          ? Json()
                          : Json(report.formula == RecordReport::Formula::changed);
    json["damaged"] = record.damaged || record.cut;
    json["lines"] = Json::array();
    for (const RecordLine& line : report.lines) json["lines"].push_back(line_json(line));
    json["filled"] = text_or_null(report.filled);
    json["in"] = in_grams(report.in).fraction();
    json["out"] = exact_or_null(report.out);
    const bool yields = report.out && in_grams(report.in).sign() > 0;
    json["yield"] =
        yields ? Json(as_fraction(share_of(*report.out, report.in)).fraction()) : Json();
    json["deviations"] = record.deviations;
    json["notes"] = record.notes;
    json["stamp"] = text_or_null(record.stamp);
    json["state"] = state_word(record);
    json["whole"] = record.whole();
    json["made_things"] = Json::array();
    for (const Made& made : record.made)
        json["made_things"].push_back({{"amount", made.amount},
                                       {"name", text_or_null(made.name)},
                                       {"lot", text_or_null(made.lot)}});
    json["said"] = record.said;
    json["readings"] = record.readings;
    json["commit"] = text_or_null(record.commit);
    return json;
}

Json find_json(const Recall& recall) {
    return {{"lot", text_or_null(recall.order.lot)},
            {"of", text_or_null(recall.order.of)},
            {"batch", text_or_null(recall.order.batch)},
            {"others", recall.others},
            {"shelf", recall.shelf}};
}

void add_recalled(const Recall& recall, std::size_t i, Json& json) {
    json["asked_for"] = recall.batches[i].itself;
    json["ways"] = recall.batches[i].ways;
    const bool out = recall.in_edition[i];
    json["edition"] = out ? text_or_null(recall.edition) : Json();
    json["edition_date"] = out ? text_or_null(recall.edition_date) : Json();
}

}  // namespace

std::string records_json(const Sources& sources, const std::vector<RecordReport>& reports,
                         const Findings& findings, const Recall* recall) {
    Json json;
    json["format"] = "levigate record 1";
    if (recall) json["find"] = find_json(*recall);
    json["records"] = Json::array();
    for (std::size_t i = 0; i < reports.size(); ++i) {
        json["records"].push_back(record_json(reports[i]));
        if (recall) add_recalled(*recall, i, json["records"].back());
    }
    json["findings"] = findings_json(sources, findings);
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace levigate
