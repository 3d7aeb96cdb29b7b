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
    json["damaged"] = record.damaged;
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
    return json;
}

}  // namespace

std::string records_json(const Sources& sources, const std::vector<RecordReport>& reports,
                         const Findings& findings) {
    Json json;
    json["format"] = "levigate record 1";
    json["records"] = Json::array();
    for (const RecordReport& report : reports) json["records"].push_back(record_json(report));
    json["findings"] = findings_json(sources, findings);
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace levigate
