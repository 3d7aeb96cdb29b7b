#include "interpreter/render/label_json.hpp"

#include <nlohmann/json.hpp>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json_parts.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

std::string_view group_key(Listed::Group group) {
    switch (group) {
        case Listed::Group::main: return "main";
        case Listed::Group::minor: return "minor";
        case Listed::Group::colourant: return "colourant";
        case Listed::Group::may_contain: return "may contain";
        case Listed::Group::named: return "named";
    }
    return {};
}

/// A share that the data leave open has no `percent`, only what it is at least and at most.
Json ingredient_json(const Formulary& formulary, const Listed& one) {
    Json json;
    const bool known = one.least == one.most;
    json["name"] = one.name.name;
    json["percent"] = known ? Json(percent_text(one.most)) : Json();
    json["exact"] = known ? Json(as_fraction(one.most).fraction()) : Json();
    if (!known) {
        json["least"] = as_fraction(one.least).fraction();
        json["most"] = as_fraction(one.most).fraction();
    }
    json["group"] = group_key(one.group);
    json["from"] = Json::array();
    for (const IngredientId what : one.from) json["from"].push_back(formulary.name(what));
    return json;
}

Json content_json(const NetContent& one) {
    Json json;
    json["shade"] = text_or_null(one.shade);
    json["batch"] = one.batch;
    json["container"] = one.container;
    json["text"] = one.text;
    json["grams"] = one.mass ? Json(in_grams(*one.mass).fraction()) : Json();
    json["millilitres"] = one.volume ? Json(in_millilitres(*one.volume).fraction()) : Json();
    json["needed"] = one.needed;
    return json;
}

Json label_json(const Formulary& formulary, const Sources& sources, const BoxLabel& label,
                const LabelWords& words) {
    Json json;
    json["shade"] = label.shades.size() == 1 ? Json(label.shades.front()) : Json();
    json["shades"] = label.shades;
    json["variant"] = text_or_null(label.variant);
    json["finish"] = text_or_null(label.finish);
    json["market"] = label.region->name.name;
    json["title"] = label.title;
    json["text"] = label.text;
    json["ingredients"] = Json::array();
    for (const Listed& one : label.list)
        json["ingredients"].push_back(ingredient_json(formulary, one));
    json["contents"] = Json::array();
    for (const NetContent& one : label.contents) json["contents"].push_back(content_json(one));
    json["batch"] = text_or_null(words.batch);
    json["code"] = text_or_null(words.code);
    json["opened"] = text_or_null(words.opened);
    json["warnings"] = label.warnings;
    json["conditions"] = label.conditions;
    json["findings"] = findings_json(sources, label.findings);
    return json;
}

}  // namespace

std::string labels_json(const Formulary& formulary, const Sources& sources,
                        const std::vector<BoxLabel>& labels, const LabelWords& words,
                        const Findings& outside) {
    std::string out = "{\"format\": \"levigate label 1\",\n \"labels\": [";
    for (const BoxLabel& label : labels)
        out += (&label == &labels.front() ? "\n  " : ",\n  ") +
               json_line(label_json(formulary, sources, label, words));
    return out + "],\n \"findings\": " + findings_array(sources, outside) + "}\n";
}

}  // namespace levigate
