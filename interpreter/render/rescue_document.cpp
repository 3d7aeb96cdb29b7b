#include "interpreter/render/rescue_document.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/render/amounts.hpp"

namespace levigate {
namespace {

using namespace document;

std::string percent_cell(const Exact& fraction) { return (fraction * 100).fixed(2); }

/// "+12.50", "-20.00".
std::string signed_cell(const Exact& fraction) {
    const std::string text = percent_cell(fraction);
    return fraction.sign() > 0 ? "+" + text : text;
}

std::string outcome(const Rescue& rescue, const GramsWriter& grams) {
    Exact steps;
    for (const RescueLine& line : rescue.lines) steps += line.steps;
    if (rescue.restored && steps.is_zero())
        return fmt::format("{} g are in the bowl, and they hold the formula: nothing is to be "
                           "added.",
                           grams.text(rescue.there));
    if (rescue.restored)
        return fmt::format("{} g are in the bowl. With {} g more it holds the formula again{}.",
                           grams.text(rescue.there), grams.text(steps),
                           rescue.off.is_zero() ? "" : ", as near as the balance reads");
    return fmt::format("{} g are in the bowl, and with this room and stock the formula can't be "
                       "restored. Nothing comes nearer than this: no line is off by more than {} % "
                       "of its share.",
                       grams.text(rescue.there), percent_cell(rescue.off));
}

std::string size(const Rescue& rescue, const GramsWriter& grams) {
    std::string out = fmt::format("It comes to {} g", grams.text(rescue.foot));
    if (rescue.planned)
        out += fmt::format(", where {} g were planned", grams.rounded(*rescue.planned));
    for (const RescueFill& fill : rescue.fills)
        out += fmt::format("; that fills {} {} and leaves {} g", fill.count.fixed(0),
                           counted(fill.container, fill.count), grams.rounded(fill.over));
    return out + ".";
}

Table lines_table(const Formulary& formulary, const Rescue& rescue, const GramsWriter& grams) {
    Table table;
    table.columns = {{"there, g", Align::right},  {"add, g", Align::right},
                     {"ingredient", Align::left}, {"wanted, %", Align::right},
                     {"then, %", Align::right},   {"off by, %", Align::right}};
    Exact added;
    for (const RescueLine& line : rescue.lines) {
        table.rows.push_back({grams.rounded(line.poured), grams.text(line.steps),
                              formulary.name(line.what), percent_cell(as_fraction(line.wanted)),
                              percent_cell(as_fraction(line.weighed)), signed_cell(line.off)});
        added += line.steps;
    }
    table.foot = {grams.text(rescue.there), grams.text(added), "together", "100.00", "100.00", ""};
    return table;
}

Table bowl_table(const Formulary& formulary, const Bowl& bowl, const GramsWriter& grams) {
    Table table;
    table.columns = {{"weigh, g", Align::right}, {"ingredient", Align::left}};
    for (const SheetLine& line : bowl.lines)
        table.rows.push_back({grams.text(line.steps), formulary.name(line.what)});
    table.foot = {grams.text(bowl.steps), "in the bowl"};
    return table;
}

void add_bowls(Document& out, const Formulary& formulary, const Rescue& rescue,
               const GramsWriter& grams, Cautions& cautions) {
    for (const Bowl& bowl : rescue.additions.bowls) {
        if (bowl.mix != no_ingredient) {
            out.emplace_back(
                Heading{2, fmt::format("Before that: {}, {} g asked for", formulary.name(bowl.mix),
                                       grams.text(bowl.asked))});
            out.emplace_back(bowl_table(formulary, bowl, grams));
        }
        for (const std::string& caution : cautions.of(bowl)) out.emplace_back(Caution{caution});
    }
}

void add_chain(Document& out, const Rescue& rescue, const GramsWriter& grams) {
    if (rescue.chain.size() < 2) return;
    Table table;
    table.columns = {{"poured", Align::left},
                     {"in the bowl, g", Align::right},
                     {"restored from, g", Align::right}};
    for (const RescuePour& pour : rescue.chain) {
        std::string words;
        for (const Pour& one : pour.pours)
            words += fmt::format("{}{} g {}", words.empty() ? "" : ", ", grams.rounded(one.mass),
                                 one.name);
        table.rows.push_back({words, grams.rounded(pour.in_bowl), grams.rounded(pour.least)});
    }
    out.emplace_back(Heading{2, "As it happened"});
    out.emplace_back(std::move(table));
}

std::string_view word(Verdict verdict) {
    if (verdict == Verdict::holds) return "holds";
    return verdict == Verdict::fails ? "fails" : "can't be told";
}

void add_expects(Document& out, const Rescue& rescue) {
    if (rescue.expects.empty()) return;
    List list;
    for (const RescueExpect& expect : rescue.expects)
        list.items.push_back(fmt::format("{}: {}.{}{}", expect.wording, word(expect.verdict),
                                         expect.said.empty() ? "" : " ", expect.said));
    out.emplace_back(Heading{2, "What is expected of it"});
    out.emplace_back(std::move(list));
}

}  // namespace

Document rescue_document(const Formulary& formulary, const Rescue& rescue, Cautions& cautions) {
    const GramsWriter grams(rescue.additions.reading);
    Document out;
    out.emplace_back(
        Heading{1, "Rescue of " + sheet_heading(formulary, rescue.additions, rescue.foot)});
    out.emplace_back(Paragraph{outcome(rescue, grams)});
    out.emplace_back(Paragraph{size(rescue, grams)});
    out.emplace_back(lines_table(formulary, rescue, grams));
    add_bowls(out, formulary, rescue, grams, cautions);
    add_chain(out, rescue, grams);
    add_expects(out, rescue);
    out.emplace_back(Paragraph{closing_caution()});
    return out;
}

}  // namespace levigate
