#include <nlohmann/json.hpp>

#include "interpreter/query/why_document.hpp"
#include "interpreter/render/findings_json.hpp"

namespace levigate {

namespace {

using Json = nlohmann::ordered_json;

std::string_view op_word(WhyOp op) {
    switch (op) {
        case WhyOp::start: return "start";
        case WhyOp::plus: return "plus";
        case WhyOp::minus: return "minus";
        case WhyOp::times: return "times";
        case WhyOp::divide: return "divide";
        case WhyOp::note: return "note";
    }
    return "";
}

std::string_view unit_word(WhySection::Unit unit) {
    if (unit == WhySection::Unit::grams) return "g";
    return unit == WhySection::Unit::share ? "share" : "number";
}

Json step_json(const Sources& sources, const WhyStep& step) {
    Json out;
    out["op"] = op_word(step.op);
    if (step.op != WhyOp::note) out["operand"] = step.operand.fraction();
    if (step.from != nothing) out["from"] = step.from;
    out["words"] = step.words;
    if (step.span) {
        out["file"] = sources[step.span.source].name;
        out["line"] = sources.position(step.span).line;
    }
    return out;
}

}  // namespace

std::string why_json(const Sources& sources, const std::optional<Why>& why,
                     const Findings& findings) {
    Json out;
    out["format"] = "levigate why 1";
    out["sections"] = Json::array();
    if (why) {
        out["ingredient"] = why->ingredient;
        out["shade"] = why->shade;
        out["variant"] = why->variant.empty() ? Json(nullptr) : Json(why->variant);
        out["finish"] = why->finish.empty() ? Json(nullptr) : Json(why->finish);
        out["share"] = why->share.fraction();
        for (const WhySection& section : why->sections) {
            Json one;
            one["title"] = section.title;
            one["unit"] = unit_word(section.unit);
            one["steps"] = Json::array();
            for (const WhyStep& step : section.steps)
                one["steps"].push_back(step_json(sources, step));
            one["result"] = section.result.fraction();
            out["sections"].push_back(std::move(one));
        }
        out["readings"] = Json::array();
        for (const WhyReading& one : why->readings) {
            Json reading = {{"batch", one.batch}, {"bowl", one.bowl}, {"grams", one.grams}};
            if (!one.as.empty()) reading["as"] = one.as;
            out["readings"].push_back(std::move(reading));
        }
    }
    out["findings"] = findings_json(sources, findings);
    return out.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace levigate
