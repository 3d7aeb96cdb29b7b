#include "interpreter/render/sheet_document.hpp"

#include <map>

#include <fmt/format.h>

#include "interpreter/render/amounts.hpp"
#include "interpreter/render/findings.hpp"

namespace levigate {
namespace {

using namespace document;

std::string title(const Formulary& formulary, const Sheet& sheet, const GramsWriter& grams) {
    SheetNames names = names_of(formulary, sheet);
    std::string out;
    for (std::string_view name : {names.shade, names.variant, names.finish, names.batch})
        if (!name.empty()) out += fmt::format("{} · ", name);
    return out + grams.rounded(sheet.total) + " g";
}

std::string percent_cell(const Share& share, int places) { return in_percent(share).fixed(places); }

/// Where a blend's own bowl stands on this sheet, from 1.
using BowlNumbers = std::map<IngredientId, std::size_t>;

std::string ingredient_cell(const Formulary& formulary, const SheetLine& line,
                            const BowlNumbers& numbers) {
    std::string cell = formulary.name(line.what);
    if (auto own = numbers.find(line.what); own != numbers.end())
        cell += fmt::format(" (bowl {})", own->second);
    if (line.estimated) cell += " (estimate: from a volume)";
    return cell;
}

Table weighing_table(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
                     const BowlNumbers& numbers, const GramsWriter& grams) {
    Table table;
    table.columns = {{"weigh, g", Align::right},
                     {"ingredient", Align::left},
                     {"% of the whole", Align::right},
                     {"never tared, g", Align::right}};
    int places = percent_places(bowl);
    Exact reading;
    Share sum;
    bool onto = sheet.onto && bowl.mix == no_ingredient;
    if (onto) {
        reading = steps_half_up(in_grams(*sheet.onto), in_grams(sheet.reading.step));
        sum = share_of(*sheet.onto, sheet.total);
        table.rows.push_back({"(there)", formulary.shades[sheet.shade].name + ", the bulk",
                              percent_cell(sum, places), grams.text(reading)});
    }
    for (const SheetLine& line : bowl.lines) {
        reading += line.steps;
        sum += line.share;
        table.rows.push_back({grams.text(line.steps), ingredient_cell(formulary, line, numbers),
                              percent_cell(line.share, places), grams.text(reading)});
    }
    table.foot = {grams.text(bowl.steps), onto ? "added" : "in the bowl", percent_cell(sum, places),
                  ""};
    return table;
}

void add_list(Document& out, const std::vector<std::string>& texts) {
    if (!texts.empty()) out.emplace_back(List{texts.size() > 1, texts});
}

void add_notes(Document& out, const std::vector<std::string>& notes) {
    for (const std::string& note : notes) out.emplace_back(Paragraph{"Note: " + note});
}

std::string bowl_heading(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
                         std::size_t number, const GramsWriter& grams) {
    std::string_view name = bowl_name(formulary, sheet, bowl);
    std::string asked = grams.text(bowl.asked);
    if (bowl.mix == no_ingredient && sheet.onto)
        return fmt::format("Bowl {}: additions to {} g of {}", number, grams.rounded(*sheet.onto),
                           name);
    if (bowl.mix == no_ingredient) asked = grams.rounded(sheet.total);
    return fmt::format("Bowl {}: {}, {} g asked for", number, name, asked);
}

}  // namespace

std::string about_balance(const Sheet& sheet) {
    std::string step = in_grams(sheet.reading.step).fixed(sheet.reading.places);
    if (sheet.reading.balance.empty()) return fmt::format("Weighed in steps of {} g.", step);
    return fmt::format("Weighed on {}, in steps of {} g.", sheet.reading.balance, step);
}

void add_findings(Document& out, const Findings& findings) {
    List list;
    for (const Finding& finding : findings) {
        std::string item = fmt::format("{}: {} ({})", severity_word(finding.severity),
                                       finding.message, finding.code);
        if (is_sentence(finding.remedy))
            item += " " + finding.remedy;
        else if (!finding.remedy.empty())
            item += " Write instead: " + finding.remedy;
        list.items.push_back(item);
    }
    if (list.items.empty()) return;
    out.emplace_back(Heading{2, "To look at before weighing"});
    out.emplace_back(std::move(list));
}

Document sheet_document(const Formulary& formulary, const Sheet& sheet, Cautions& cautions) {
    GramsWriter grams(sheet.reading);
    Document out;
    out.emplace_back(Heading{1, title(formulary, sheet, grams)});
    out.emplace_back(Paragraph{about_balance(sheet)});
    if (sheet.estimated)
        out.emplace_back(Paragraph{"The total is an estimate: it comes from a volume."});
    BowlNumbers numbers;
    for (std::size_t i = 0; i < sheet.bowls.size(); ++i) {
        const Bowl& bowl = sheet.bowls[i];
        out.emplace_back(Heading{2, bowl_heading(formulary, sheet, bowl, i + 1, grams)});
        out.emplace_back(weighing_table(formulary, sheet, bowl, numbers, grams));
        for (const std::string& caution : cautions.of(bowl)) out.emplace_back(Caution{caution});
        if (const std::string words = kept_words(formulary, bowl, grams); !words.empty())
            out.emplace_back(Paragraph{words});
        add_list(out, bowl.steps_text);
        add_notes(out, bowl.notes);
        if (bowl.mix != no_ingredient) numbers[bowl.mix] = i + 1;
    }
    add_notes(out, sheet.notes);
    add_findings(out, sheet.findings);
    return out;
}

Document sheets_closing() { return {Paragraph{closing_caution()}}; }

}  // namespace levigate
