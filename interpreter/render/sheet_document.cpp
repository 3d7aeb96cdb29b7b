#include "interpreter/render/sheet_document.hpp"

#include <map>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/sum_of_weights.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/ends_words.hpp"
#include "interpreter/render/findings.hpp"
#include "interpreter/render/remedies.hpp"

namespace levigate {
namespace {

using namespace document;

std::string percent_cell(const Share& share, int places) { return in_percent(share).fixed(places); }

/// Where a blend's own bowl stands on this sheet, from 1.
using BowlNumbers = std::map<IngredientId, std::size_t>;

/// Of a line from a volume: how far its grams may lie off, where figures have ends.
std::string ends_words(const Sheet& sheet, std::size_t bowl, std::size_t line,
                       const GramsWriter& grams) {
    if (!sheet.ends) return {};
    const std::optional<Ends>& ends = sheet.ends->lines[bowl][line];
    if (!ends) return "; how far off can't be told";
    return ends->open() ? ", " + grams.between(*ends) : std::string();
}

std::string ingredient_cell(const Formulary& formulary, const SheetLine& line,
                            const BowlNumbers& numbers, const std::string& ends) {
    std::string cell = formulary.name(line.what);
    if (auto own = numbers.find(line.what); own != numbers.end())
        cell += fmt::format(" (bowl {})", own->second);
    if (line.estimated) cell += " (estimate: from a volume" + ends + ")";
    return cell;
}

Table weighing_table(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl,
                     const BowlNumbers& numbers, const GramsWriter& grams) {
    Table table;
    table.columns = {
        {"weigh, g", Align::right}, {"ingredient", Align::left}, {"% of the whole", Align::right}};
    const bool judges = sheet.reading.judges();
    if (judges) table.columns.push_back({"off by, %", Align::right});
    table.columns.push_back({"never tared, g", Align::right});
    // A cell for how far the reading is off, where the balance is judged.
    const auto add_row = [&](document::Row& row, std::vector<std::string> cells, std::string off) {
        if (judges) cells.insert(cells.end() - 1, std::move(off));
        row = std::move(cells);
    };
    int places = percent_places(bowl);
    Exact reading;
    Share sum;
    bool onto = sheet.onto && bowl.mix == no_ingredient;
    if (onto) {
        reading = steps_half_up(in_grams(*sheet.onto), in_grams(sheet.reading.step));
        sum = share_of(*sheet.onto, sheet.total);
        add_row(table.rows.emplace_back(),
                {"(there)", formulary.shades[sheet.shade].name + ", the bulk",
                 percent_cell(sum, places), grams.text(reading)},
                "");
    }
    const auto number = static_cast<std::size_t>(&bowl - sheet.bowls.data());
    const OffBy off(formulary, sheet, bowl);
    for (const SheetLine& line : bowl.lines) {
        reading += line.steps;
        sum += line.share;
        const auto at = static_cast<std::size_t>(&line - bowl.lines.data());
        const std::string ends = line.estimated ? ends_words(sheet, number, at, grams) : "";
        add_row(table.rows.emplace_back(),
                {grams.text(line.steps), ingredient_cell(formulary, line, numbers, ends),
                 percent_cell(line.share, places), grams.text(reading)},
                off.cell(line));
    }
    add_row(table.foot,
            {grams.text(bowl.steps), onto ? "added" : "in the bowl", percent_cell(sum, places), ""},
            "");
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

std::string about_balance(const Formulary& formulary, const Sheet& sheet) {
    std::string step = in_grams(sheet.reading.step).fixed(sheet.reading.places);
    std::string well = about_least(sheet.reading);
    if (sheet.reading.balance.empty() && formulary.own_balances.empty() &&
        formulary.balances.size() > 1)
        well += fmt::format(" No balance is chosen; known are {}.", balances_words(formulary));
    if (sheet.reading.balance.empty())
        return fmt::format("Weighed in steps of {} g.{}", step, well);
    std::string by;
    if (in_grams(sheet.reading.reads_by).sign() > 0)
        by = fmt::format(" Each reading may be off by {} g.",
                         in_grams(sheet.reading.reads_by).exactly());
    return fmt::format("Weighed on {}, in steps of {} g.{}{}", sheet.reading.balance, step, by,
                       well);
}

std::optional<Mass> scaled_from(const Formulary& formulary, const Sheet& sheet) {
    const Formula& formula = formulary.shades[sheet.shade].versions[sheet.version].formula;
    const auto sum = sum_of_weights(formula);
    if (!sum || sheet.onto || sheet.bowls.empty()) return std::nullopt;
    for (const SheetLine& line : sheet.bowls.back().lines) {
        if (line.addition) continue;
        for (std::size_t i = 0; i < formula.parts.size(); ++i) {
            const Exact& share = as_fraction(formula.shares[i]);
            if (formula.parts[i].what != line.what || share.sign() <= 0) continue;
            const bool as_written = in_grams(line.exact) / share == in_grams(*sum);
            return as_written ? std::nullopt : sum;
        }
    }
    return std::nullopt;
}

std::string about_scaling(const Formulary& formulary, const Sheet& sheet) {
    const auto sum = scaled_from(formulary, sheet);
    if (!sum) return {};
    return fmt::format("{} from {} g, the sum of the weights as written.",
                       sheet.finishing == nothing ? "Scaled" : "Bulk scaled",
                       GramsWriter(sheet.reading).rounded(*sum));
}

std::string look_words(const Finding& finding) {
    std::string out = fmt::format("{}: {} ({})", severity_word(finding.severity), finding.message,
                                  row_of(finding.code).name);
    if (!finding.advice.empty())
        out += " " + finding.advice;
    else if (!finding.fixes.empty())
        out += " Write instead: " + finding.fixes.front().text;
    else if (!finding.example.empty())
        out += " As in: " + finding.example;
    return out;
}

void add_findings(Document& out, const Findings& findings) {
    List list;
    for (const Finding& finding : findings) list.items.push_back(look_words(finding));
    if (list.items.empty()) return;
    out.emplace_back(Heading{2, std::string(looks_heading)});
    out.emplace_back(std::move(list));
}

Document sheet_document(const Formulary& formulary, const Sheet& sheet, Cautions& cautions) {
    GramsWriter grams(sheet.reading);
    Document out;
    out.emplace_back(Heading{1, sheet_heading(formulary, sheet)});
    out.emplace_back(Paragraph{about_balance(formulary, sheet)});
    if (std::string scaled = about_scaling(formulary, sheet); !scaled.empty())
        out.emplace_back(Paragraph{std::move(scaled)});
    if (sheet.estimated)
        out.emplace_back(Paragraph{"The total is an estimate: it comes from a volume."});
    if (std::string words = about_ends(formulary, sheet); !words.empty())
        out.emplace_back(Paragraph{std::move(words)});
    BowlNumbers numbers;
    for (std::size_t i = 0; i < sheet.bowls.size(); ++i) {
        const Bowl& bowl = sheet.bowls[i];
        out.emplace_back(Heading{2, bowl_heading(formulary, sheet, bowl, i + 1, grams)});
        out.emplace_back(weighing_table(formulary, sheet, bowl, numbers, grams));
        for (const std::string& caution : cautions.of(bowl)) out.emplace_back(Caution{caution});
        add_remedies(out, formulary, sheet, i);
        if (const std::string words = kept_words(formulary, bowl, grams); !words.empty())
            out.emplace_back(Paragraph{words});
        add_list(out, bowl.steps_text);
        add_notes(out, cautions.fresh(bowl.notes));
        if (bowl.mix != no_ingredient) numbers[bowl.mix] = i + 1;
    }
    add_notes(out, cautions.fresh(sheet.notes));
    add_findings(out, sheet.findings);
    return out;
}

Document sheets_closing() { return {Paragraph{closing_caution()}}; }

}  // namespace levigate
