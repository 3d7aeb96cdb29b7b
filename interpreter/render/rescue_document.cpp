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
    return fraction.sign() > 0 && text != "0.00" ? "+" + text : text;
}

/// What the additions do, and no more than that: whether no others are nearer was found out.
std::string outcome(const Formulary& formulary, const Rescue& rescue, const GramsWriter& grams) {
    Exact steps;
    std::vector<std::string> missing;
    for (const RescueLine& line : rescue.lines) {
        steps += line.steps;
        if (in_grams(line.poured).is_zero() && in_grams(line.add).is_zero())
            missing.push_back(formulary.name(line.what));
    }
    const std::string there = grams.text(rescue.there);
    const std::string percent = percent_cell(rescue.off);
    const std::string off =
        percent == "0.00" ? "no line is off by 0.01 % of its share"
                          : fmt::format("no line is off by more than {} % of its share", percent);
    if (rescue.restored && steps.is_zero())
        return fmt::format("{} g are in the bowl, and they hold the formula{}: nothing is to be "
                           "added.",
                           there, rescue.off.is_zero() ? "" : ", to the balance's step");
    if (rescue.restored)
        return fmt::format("{} g are in the bowl. With {} g more it holds the formula again{}.",
                           there, grams.text(steps),
                           rescue.off.is_zero() ? "" : ", to the balance's step: " + off);
    const std::string begin = fmt::format(
        "{} g are in the bowl, and with this room and stock the formula can't be restored.", there);
    if (rescue.any_size)
        return fmt::format("{} Without {} the rest is in proportion again, to the balance's step: "
                           "{}.",
                           begin, list_words(missing), off);
    if (rescue.compared)
        return fmt::format("{} No bowl of {} to {} g comes nearer than this: {}.", begin,
                           grams.rounded(rescue.compared->least),
                           grams.rounded(rescue.compared->greatest), off);
    return fmt::format("{} In steps of {} nothing comes nearer than this: {}.", begin,
                       gram_words(rescue.additions.reading.step), off);
}

/// Why the table has parts of a blend in place of the blend: a sentence or two for each part.
std::string opened_words(const Formulary& formulary, const Rescue& rescue) {
    std::string out;
    for (auto one = rescue.opened.begin(); one != rescue.opened.end();) {
        std::vector<std::string> blends;
        const IngredientId part = one->part;
        for (; one != rescue.opened.end() && one->part == part; ++one)
            blends.push_back(formulary.name(one->blend));
        const bool single = blends.size() == 1;
        out +=
            fmt::format("{}{} is part of {} and is named by itself, so {} counted and added part "
                        "by part. If {} was poured, name the blend{}.",
                        out.empty() ? "" : " ", formulary.name(part), list_words(blends),
                        single ? blends.front() + " is" : "these are",
                        single ? "the blend" : "one of them", single ? ": " + blends.front() : "");
    }
    return out;
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
    out.emplace_back(Paragraph{outcome(formulary, rescue, grams)});
    out.emplace_back(Paragraph{size(rescue, grams)});
    if (!rescue.opened.empty()) out.emplace_back(Paragraph{opened_words(formulary, rescue)});
    out.emplace_back(lines_table(formulary, rescue, grams));
    add_bowls(out, formulary, rescue, grams, cautions);
    add_chain(out, rescue, grams);
    add_expects(out, rescue);
    out.emplace_back(Paragraph{closing_caution()});
    return out;
}

}  // namespace levigate
