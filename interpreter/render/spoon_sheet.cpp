#include "interpreter/render/spoon_sheet.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/ends_words.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate {

using Json = nlohmann::ordered_json;

namespace {

using namespace document;
using BowlNumbers = std::map<IngredientId, std::size_t>;

constexpr std::string_view estimate =
    "Measured by volume, this is an estimate: how a powder is packed changes it, and so do drops "
    "from another bottle. Don't keep records by it, and don't go by it where a colourant is near "
    "a limit.";

std::string with_words(const Spoons& spoons) {
    std::vector<std::string> names;
    for (const Spoon& spoon : spoons) names.push_back(spoon_name(spoon));
    return "Measured with " + list_words(names, names.size()) +
           "; spoons are struck level, not pressed.";
}

/// "+3.1 %": signed, to a tenth of a per cent.
std::string off_words(const Exact& off) {
    const std::string text = (off * 100).fixed(1);
    const bool nothing = text == "0.0";
    return nothing ? "0 %" : (off.sign() > 0 ? "+" : "") + text + " %";
}

/// Two places, or three where a line of the sheet would look like nothing.
int gram_places(const MeasuredSheet& sheet) {
    for (const MeasuredBowl& bowl : sheet.bowls)
        for (const MeasuredLine& line : bowl.lines)
            if (line.comes_to && line.grams.sign() > 0 && line.grams < Exact(1, 10)) return 3;
    return 2;
}

std::string grams_cell(const MeasuredLine& line, int places) {
    if (!line.comes_to) return {};
    std::string out = line.grams.fixed(places);
    if (line.comes_to->open()) out += " (" + from_to(*line.comes_to, places) + ")";
    return out;
}

Table measuring_table(const Formulary& formulary, const Bowl& bowl, const MeasuredBowl& measured,
                      int places, const Spoons& spoons, const BowlNumbers& numbers) {
    Table table;
    table.columns = {{"measure", Align::left},
                     {"ingredient", Align::left},
                     {"comes to, g", Align::right},
                     {"off by", Align::right}};
    for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
        const MeasuredLine& line = measured.lines[i];
        std::string name = formulary.name(bowl.lines[i].what);
        if (const auto own = numbers.find(bowl.lines[i].what); own != numbers.end())
            name += fmt::format(" (bowl {})", own->second);
        table.rows.push_back({spoon_words(spoons, line.counts), std::move(name),
                              grams_cell(line, places), line.off ? off_words(*line.off) : ""});
    }
    if (measured.known) table.foot = {"", "in the bowl", measured.grams.fixed(places), ""};
    return table;
}

std::string bowl_heading(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
                         std::size_t number) {
    const std::string_view name = bowl_name(formulary, sheet, bowl);
    if (bowl.mix == no_ingredient && sheet.onto)
        return fmt::format("Bowl {}: additions to {} g of {}", number,
                           GramsWriter(sheet.reading).rounded(*sheet.onto), name);
    return fmt::format("Bowl {}: {}", number, name);
}

}  // namespace

Document spoon_document(const Formulary& formulary, const Sheet& sheet, const Spoons& spoons,
                        const MeasuredSheet& measured, Cautions& cautions) {
    Document out;
    out.emplace_back(Heading{1, sheet_heading(formulary, sheet)});
    out.emplace_back(Paragraph{with_words(spoons)});
    for (std::string& words : cautions.fresh({std::string(estimate)}))
        out.emplace_back(Caution{std::move(words)});
    BowlNumbers numbers;
    const int places = gram_places(measured);
    for (std::size_t k = 0; k < sheet.bowls.size(); ++k) {
        const Bowl& bowl = sheet.bowls[k];
        out.emplace_back(Heading{2, bowl_heading(formulary, sheet, bowl, k + 1)});
        out.emplace_back(
            measuring_table(formulary, bowl, measured.bowls[k], places, spoons, numbers));
        for (const std::string& caution : cautions.of(bowl)) out.emplace_back(Caution{caution});
        if (!bowl.steps_text.empty())
            out.emplace_back(List{bowl.steps_text.size() > 1, bowl.steps_text});
        for (const std::string& note : cautions.fresh(bowl.notes))
            out.emplace_back(Paragraph{"Note: " + note});
        if (bowl.mix != no_ingredient) numbers[bowl.mix] = k + 1;
    }
    for (const std::string& note : cautions.fresh(sheet.notes))
        out.emplace_back(Paragraph{"Note: " + note});
    add_findings(out, sheet.findings);
    return out;
}

void put_measures(Json& sheet, const Spoons& spoons, const MeasuredSheet& measured) {
    Json with = Json::array();
    for (const Spoon& spoon : spoons) with.push_back(spoon_name(spoon));
    sheet["with"] = std::move(with);
    for (std::size_t k = 0; k < measured.bowls.size(); ++k) {
        for (std::size_t i = 0; i < measured.bowls[k].lines.size(); ++i) {
            const MeasuredLine& line = measured.bowls[k].lines[i];
            Json& out = sheet["bowls"][k]["lines"][i];
            out["measures"] = nullptr;
            out["comes_to"] = nullptr;
            out["off"] = nullptr;
            if (line.off) out["off"] = (*line.off * 100).decimal(4);
            if (!line.comes_to) continue;
            out["measures"] = Json::array();
            for (std::size_t s = 0; s < line.counts.size(); ++s)
                if (line.counts[s].sign() > 0)
                    out["measures"].push_back(
                        {{"measure", spoon_name(spoons[s])}, {"count", line.counts[s].fraction()}});
            out["comes_to"] = {{"exact", line.grams.fraction()}};
            put_ends(out["comes_to"], line.comes_to);
        }
    }
}

}  // namespace levigate
