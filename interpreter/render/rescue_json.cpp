#include <nlohmann/json.hpp>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json_parts.hpp"
#include "interpreter/render/rescue_document.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

Json mass_json(const Mass& mass, const GramsWriter& grams) {
    return {{"exact", in_grams(mass).fraction()}, {"grams", grams.rounded(mass)}};
}

Json line_json(const Formulary& formulary, const RescueLine& line, const GramsWriter& grams) {
    Json json;
    json["name"] = formulary.name(line.what);
    json["poured"] = mass_json(line.poured, grams);
    json["add"] = {{"exact", in_grams(line.add).fraction()}, {"grams", grams.text(line.steps)}};
    json["percent"] = percent_text(line.wanted);
    json["then"] = percent_text(line.weighed);
    json["off"] = line.off.fraction();
    return json;
}

Json bowls_json(const Formulary& formulary, const Rescue& rescue, const GramsWriter& grams) {
    Json out = Json::array();
    for (const Bowl& bowl : rescue.additions.bowls) {
        Json lines = Json::array();
        for (const SheetLine& line : bowl.lines)
            lines.push_back({{"name", formulary.name(line.what)},
                             {"exact", in_grams(line.exact).fraction()},
                             {"grams", grams.text(line.steps)}});
        out.push_back({{"name", bowl_name(formulary, rescue.additions, bowl)},
                       {"grams", grams.text(bowl.steps)},
                       {"lines", std::move(lines)}});
    }
    return out;
}

Json chain_json(const Rescue& rescue, const GramsWriter& grams) {
    Json out = Json::array();
    for (const RescuePour& pour : rescue.chain) {
        Json pours = Json::array();
        for (const Pour& one : pour.pours)
            pours.push_back({{"name", one.name}, {"exact", in_grams(one.mass).fraction()}});
        out.push_back({{"poured", std::move(pours)},
                       {"in_bowl", mass_json(pour.in_bowl, grams)},
                       {"restored_from", mass_json(pour.least, grams)}});
    }
    return out;
}

Json expects_json(const Rescue& rescue) {
    Json out = Json::array();
    for (const RescueExpect& expect : rescue.expects) {
        Json holds;
        if (expect.verdict != Verdict::unknown) holds = expect.verdict == Verdict::holds;
        out.push_back({{"expects", expect.wording},
                       {"holds", std::move(holds)},
                       {"why", text_or_null(expect.said)}});
    }
    return out;
}

Json one_json(const Formulary& formulary, const Rescue& rescue) {
    const GramsWriter grams(rescue.additions.reading);
    const SheetNames names = names_of(formulary, rescue.additions);
    Json json;
    json["shade"] = names.shade;
    json["variant"] = text_or_null(names.variant);
    json["finish"] = text_or_null(names.finish);
    json["batch"] = text_or_null(names.batch);
    json["restored"] = rescue.restored;
    json["in_bowl"] = mass_json(rescue.in_bowl, grams);
    json["total"] = {{"exact", in_grams(rescue.total).fraction()},
                     {"grams", grams.text(rescue.foot)}};
    json["planned"] = rescue.planned ? mass_json(*rescue.planned, grams) : Json();
    json["room"] = rescue.room ? mass_json(*rescue.room, grams) : Json();
    json["off"] = rescue.off.fraction();
    json["lines"] = Json::array();
    for (const RescueLine& line : rescue.lines)
        json["lines"].push_back(line_json(formulary, line, grams));
    json["opened"] = Json::array();
    for (const OpenedBlend& one : rescue.opened)
        json["opened"].push_back(
            {{"blend", formulary.name(one.blend)}, {"part", formulary.name(one.part)}});
    json["bowls"] = bowls_json(formulary, rescue, grams);
    json["chain"] = chain_json(rescue, grams);
    json["expectations"] = expects_json(rescue);
    json["fills"] = Json::array();
    for (const RescueFill& fill : rescue.fills)
        json["fills"].push_back({{"container", fill.container},
                                 {"count", fill.count.fraction()},
                                 {"over", mass_json(fill.over, grams)}});
    return json;
}

}  // namespace

std::string rescue_json(const Formulary& formulary, const Sources& sources,
                        const std::optional<Rescue>& rescue, const Findings& findings) {
    Json json;
    json["format"] = "levigate rescue 1";
    json["rescues"] = Json::array();
    if (rescue) json["rescues"].push_back(one_json(formulary, *rescue));
    json["findings"] = findings_json(sources, findings);
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace levigate
