#include "interpreter/render/json.hpp"

#include <set>

#include <nlohmann/json.hpp>

#include "interpreter/formulary/dilute.hpp"
#include "interpreter/render/ends_words.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json_parts.hpp"
#include "interpreter/render/remedies.hpp"
#include "interpreter/render/remedies_json.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

// ---- Sheets ------------------------------------------------------------------------------------

Json amount_json(const Mass& mass, const GramsWriter& grams) {
    return {{"exact", in_grams(mass).fraction()}, {"grams", grams.rounded(mass)}};
}

Json bowl_json(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
               const GramsWriter& grams) {
    Json lines = Json::array();
    const OffBy off(formulary, sheet, bowl);
    for (const SheetLine& line : bowl.lines) {
        lines.push_back({{"name", formulary.name(line.what)},
                         {"exact", in_grams(line.exact).fraction()},
                         {"grams", grams.text(line.steps)},
                         {"percent", percent_text(line.share)},
                         {"rounding", off.text(line)}});
        if (!sheet.ends) continue;
        const auto number = static_cast<std::size_t>(&bowl - sheet.bowls.data());
        put_ends(lines.back(), sheet.ends->lines[number][lines.size() - 1]);
    }
    for (const Remedy& remedy : sheet.remedies)
        if (&sheet.bowls[remedy.bowl] == &bowl)
            lines[remedy.line]["remedies"] = remedy_json(formulary, sheet, remedy);
    Json json;
    json["name"] = bowl_name(formulary, sheet, bowl);
    json["grams"] = grams.text(bowl.steps);
    if (dilution_of(formulary, bowl.mix)) json["used"] = grams.text(bowl.asked);
    json["lines"] = std::move(lines);
    return json;
}

Json sheet_json(const Formulary& formulary, const Sources& sources, const Sheet& sheet) {
    SheetNames names = names_of(formulary, sheet);
    GramsWriter grams(sheet.reading);
    Json json;
    json["shade"] = names.shade;
    json["variant"] = text_or_null(names.variant);
    json["finish"] = text_or_null(names.finish);
    json["batch"] = text_or_null(names.batch);
    // What the balance reads in the end is the foot, not the total rounded by itself.
    Exact there;
    if (sheet.onto) there = steps_half_up(in_grams(*sheet.onto), in_grams(sheet.reading.step));
    json["total"] = {{"exact", in_grams(sheet.total).fraction()},
                     {"grams", grams.text(sheet.foot + there)}};
    if (sheet.ends) put_ends(json["total"], sheet.ends->total);
    put_fills(json, formulary, sheet);
    if (const auto sum = scaled_from(formulary, sheet))
        json["scaled_from"] = amount_json(*sum, grams);
    if (sheet.onto) json["onto"] = amount_json(*sheet.onto, grams);
    Json& bowls = json["bowls"] = Json::array();
    for (const Bowl& bowl : sheet.bowls) bowls.push_back(bowl_json(formulary, sheet, bowl, grams));
    Json& materials = json["materials"] = Json::array();
    for (const MaterialLine& line : sheet.materials)
        materials.push_back({{"name", formulary.name(line.what)},
                             {"exact", in_grams(line.exact).fraction()},
                             {"percent", percent_text(line.share)}});
    json["findings"] = findings_json(sources, sheet.findings);
    return json;
}

// ---- The overview ------------------------------------------------------------------------------

Json overview_row_json(const OverviewRow& row) {
    Json json;
    json["variant"] = text_or_null(row.variant);
    json["finish"] = text_or_null(row.finish);
    json["totals"] = Json::array();
    for (const BatchTotal& total : row.totals)
        json["totals"].push_back({{"batch", text_or_null(total.batch)},
                                  {"exact", in_grams(total.total).fraction()},
                                  {"grams", total.grams},
                                  {"estimate", total.estimated}});
    json["roles"] = Json::array();
    for (const RoleTotal& role : row.roles)
        json["roles"].push_back(
            {{"role", text_or_null(role.role)}, {"percent", percent_text(role.share)}});
    return json;
}

Json edition_json(const Edition& edition) {
    Json number;
    if (edition.number.sign() > 0) number = edition.number.exactly();
    return {{"title", edition.title},
            {"number", std::move(number)},
            {"date", text_or_null(edition.date)},
            {"unaltered", *edition.unaltered}};
}

Json places_json(const std::vector<MendedPlace>& places) {
    Json list = Json::array();
    for (const MendedPlace& one : places) {
        list.push_back({{"code", one.code},
                        {"line", one.begin.line},
                        {"column", one.begin.column},
                        {"end_line", one.end.line},
                        {"end_column", one.end.column},
                        {"was", one.was},
                        {"text", one.text}});
        if (one.why.empty()) continue;
        list.back()["because"] = one.because;
        list.back()["why"] = one.why;
    }
    return list;
}

Json check_json(const CheckReport& report) {
    Json expectations = Json::array();
    for (const ExpectResult& result : report.expects) {
        Json holds;
        if (result.verdict != Verdict::unknown) holds = result.verdict == Verdict::holds;
        expectations.push_back({{"file", result.file},
                                {"line", result.line},
                                {"expects", result.wording},
                                {"holds", holds}});
        if (!result.why.empty()) expectations.back()["why"] = result.why;
    }
    Json json = {{"file", report.file}, {"expectations", std::move(expectations)}};
    if (report.mended) {
        json["made"] = places_json(report.made);
        json["left"] = places_json(report.left);
    }
    if (report.edition) json["edition"] = edition_json(*report.edition);
    return json;
}

}  // namespace

void SheetsJson::open(std::string& out) const {
    out += "{\"format\": \"levigate weigh 1\",\n \"sheets\": [";
}

void SheetsJson::append(const Sheet& sheet, std::string& out) { append(sheet, out, {}); }

void SheetsJson::append(const Sheet& sheet, std::string& out, const PutMore& more) {
    out += first_ ? "\n  " : ",\n  ";
    first_ = false;
    Json json = sheet_json(formulary_, sources_, sheet);
    if (more) more(json);
    out += json_line(json);
    stocks_.add(formulary_, sheet);
}

void SheetsJson::close(const Findings& outside, std::string& out) const {
    out += "],\n ";
    if (!stocks_.empty())
        out += "\"dilutions\": " + json_line(stocks_json(formulary_, stocks_)) + ",\n ";
    out += "\"findings\": " + json_line(findings_json(sources_, outside)) + "}\n";
}

std::string overview_json(const Sources& sources, const std::vector<ShadeOverview>& shades,
                          const Findings& findings) {
    Json json;
    json["format"] = "levigate shades 1";
    json["shades"] = Json::array();
    for (const ShadeOverview& overview : shades) {
        Json rows = Json::array();
        for (const OverviewRow& row : overview.rows) rows.push_back(overview_row_json(row));
        json["shades"].push_back({{"shade", overview.shade->name}, {"versions", std::move(rows)}});
    }
    json["findings"] = findings_json(sources, findings);
    return json_line(json) + "\n";
}

std::string checks_json(const std::vector<CheckReport>& reports) {
    Json json;
    json["format"] = "levigate check 1";
    json["files"] = Json::array();
    json["findings"] = Json::array();
    std::set<std::string> seen;  // two files may use a third, and then both report it
    for (const CheckReport& report : reports) {
        json["files"].push_back(check_json(report));
        for (const Finding& finding : report.findings) {
            Json next = finding_json(*report.sources, finding);
            if (seen.insert(json_line(next)).second) json["findings"].push_back(std::move(next));
        }
    }
    return json_line(json) + "\n";
}

std::string nothing_json(std::string_view verb, std::string_view list, const Sources& sources,
                         const Findings& findings) {
    Json json;
    json["format"] = "levigate " + std::string(verb) + " 1";
    json[std::string(list)] = Json::array();
    json["findings"] = findings_json(sources, findings);
    return json_line(json) + "\n";
}

}  // namespace levigate
