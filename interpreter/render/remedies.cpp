#include "interpreter/render/remedies.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

using namespace document;

/// True of a dilution, and of a blend that goes into one. Bowls stand before those that use them.
bool goes_into_dilution(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl) {
    if (formulary.dilutions.empty() || bowl.mix == no_ingredient) return false;
    std::vector<IngredientId> reached{bowl.mix};
    const auto holds = [&](const SheetLine& line) {
        return line.exact != Mass() &&
               std::find(reached.begin(), reached.end(), line.what) != reached.end();
    };
    for (const Bowl& user : sheet.bowls) {
        const bool own = &user == &bowl;
        if (!own && !std::any_of(user.lines.begin(), user.lines.end(), holds)) continue;
        if (user.mix == no_ingredient) break;
        if (dilution_of(formulary, user.mix)) return true;
        if (!own) reached.push_back(user.mix);
    }
    return false;
}

std::string aliquot_words(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy) {
    const AliquotRemedy& made = *remedy.aliquot;
    const SheetLine& diluent = sheet.bowls[remedy.bowl].lines[remedy.diluent];
    const std::string& name = formulary.name(diluent.what);
    const auto read = [&](const Exact& steps) { return read_words(steps, sheet.reading); };
    std::string out = fmt::format("weigh {} of it with {} of {}, mix well, and take {} of that; ",
                                  read(made.weigh), read(made.with), name, read(made.take));
    if (made.others)
        out += fmt::format("then weigh {} less of {}; where the lines above are weighed this way "
                           "too, {} reads {} in all",
                           read(made.less), name, name, read(made.reads));
    else
        out += fmt::format("then weigh {} of {} in place of {}", read(made.reads), name,
                           read(diluent.steps));
    out +=
        fmt::format(". {} of the mixture are left over", read(made.weigh + made.with - made.take));
    if (has_bowl(sheet, diluent.what))
        out += fmt::format("; make {} more of {} for it", read(made.with - made.less), name);
    return out;
}

std::string nothing_to_dilute_with(const Formulary& formulary, const Sheet& sheet,
                                   const Remedy& remedy) {
    for (const SheetLine& line : sheet.bowls[remedy.bowl].lines)
        if (dilution_of(formulary, line.what))
            return fmt::format("save for {} there is nothing in this bowl to dilute it with",
                               formulary.name(line.what));
    return "there is nothing in this bowl to dilute it with";
}

std::string why_no_aliquot(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy) {
    const auto diluent = [&]() -> const std::string& {
        return formulary.name(sheet.bowls[remedy.bowl].lines[remedy.diluent].what);
    };
    switch (remedy.why_not) {
        case NoAliquot::none: break;
        case NoAliquot::no_diluent: return nothing_to_dilute_with(formulary, sheet, remedy);
        case NoAliquot::too_little:
            return fmt::format("by a dilution it can't be weighed here: of {} there isn't enough",
                               diluent());
        case NoAliquot::diluted:
            if (!remedy.further) return "no weaker dilution does either";
            return fmt::format("or dilute it further, to {}", percent_words(*remedy.further));
        case NoAliquot::over_capacity:
            return "a dilution for this batch alone would be too large to weigh";
    }
    return {};
}

std::string item(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy) {
    const SheetLine& line = sheet.bowls[remedy.bowl].lines[remedy.line];
    std::string out = formulary.name(line.what) + ": ";
    if (remedy.batch)
        out += fmt::format("{} {} or more", sheet.onto ? "add it to" : "make",
                           batch_words(formulary, sheet, remedy));
    else
        out += "no larger batch does";
    if (remedy.bowl_steps) {
        const Bowl& bowl = sheet.bowls[remedy.bowl];
        const Exact over = *remedy.bowl_steps - bowl.asked;
        out += fmt::format(
            "; or make {} of {} at once{}", read_words(*remedy.bowl_steps, sheet.reading),
            formulary.name(bowl.mix),
            over.sign() > 0 ? fmt::format(", and keep {}", read_words(over, sheet.reading)) : "");
    }
    out += remedy.aliquot ? "; or " + aliquot_words(formulary, sheet, remedy)
                          : "; " + why_no_aliquot(formulary, sheet, remedy);
    return out + ".";
}

std::string uses_words(const Formulary& formulary, const std::vector<StockUse>& uses) {
    constexpr std::size_t told = 6;
    std::string out;
    for (std::size_t i = 0; i < uses.size() && i < told; ++i)
        out += (i == 0 ? "" : "; ") + use_words(formulary, uses[i]);
    return uses.size() > told ? fmt::format("{}; and {} more", out, uses.size() - told) : out;
}

/// ", but not ox in Quince, trial; lake in Sloe, full": what nothing here serves.
std::string left_words(const Formulary& formulary, const std::vector<StockLeft>& left) {
    constexpr std::size_t told = 6;
    std::string out;
    for (std::size_t i = 0; i < left.size() && i < told; ++i)
        out += fmt::format("{}{} in {}", i == 0 ? ", but not " : "; ", formulary.name(left[i].of),
                           use_words(formulary, left[i].where));
    return left.size() > told ? fmt::format("{}; and {} more", out, left.size() - told) : out;
}

}  // namespace

OffBy::OffBy(const Formulary& formulary, const Sheet& sheet, const Bowl& bowl)
    : step_(in_grams(sheet.reading.step)) {
    if (!goes_into_dilution(formulary, sheet, bowl)) return;
    Exact needed;
    for (const SheetLine& line : bowl.lines) needed += in_grams(line.exact);
    if (needed.sign() > 0) times_ = bowl.steps * step_ / needed;
}

Exact OffBy::of(const SheetLine& line) const {
    return off_by(grams(line.steps * step_), grams(in_grams(line.exact) * times_));
}

std::string OffBy::cell(const SheetLine& line) const {
    if (line.exact == Mass() && line.steps.is_zero()) return {};
    const Exact percent = of(line) * 100;
    std::string text = percent.fixed(2);
    return percent.sign() > 0 ? "+" + text : text;
}

std::string OffBy::text(const SheetLine& line) const {
    std::string out;
    of(line).append_scaled(out, 100, 4);
    return out;
}

std::string about_least(const Reading& reading) {
    const auto least = least_weight(reading);
    if (!least) return {};
    const std::string why = why_no_less(*least, reading);
    return fmt::format(" It weighs well from {} on{}{}.", gram_words(least->mass),
                       why.empty() ? "" : ": ", why);
}

void add_remedies(Document& out, const Formulary& formulary, const Sheet& sheet, std::size_t bowl) {
    List list;
    for (const Remedy& remedy : sheet.remedies)
        if (remedy.bowl == bowl) list.items.push_back(item(formulary, sheet, remedy));
    if (list.items.empty()) return;
    const Remedy& first = sheet.remedies.front();
    const std::string least = gram_words(first.least);
    out.emplace_back(Paragraph{
        first.usual ? fmt::format("Too little to weigh here. At {}, which is {} of error, it could "
                                  "be weighed:",
                                  least, percent_words(usual_error()))
                    : fmt::format("Too little to weigh well, which begins at {} here:", least)});
    out.emplace_back(std::move(list));
}

Document stocks_document(const Formulary& formulary, const StockDilutions& stocks,
                         Cautions& cautions) {
    Document out;
    List list;
    Bowl all;  // who prepares them has these in hand
    const Stocks settled = stocks.settle();
    for (const StockDilution& stock : settled.dilutions) {
        const auto read = [&](const Exact& steps) { return read_words(steps, stock.reading); };
        std::string item =
            fmt::format("{}. Prepare {}: {} of {} with {} of {}, mixed well. For {}.",
                        dilute_line(formulary, stock), read(stock.weigh + stock.with),
                        read(stock.weigh), formulary.name(stock.of), read(stock.with),
                        formulary.name(stock.in), uses_words(formulary, stock.serves));
        if (!stock.leaves.empty())
            item +=
                fmt::format(" Not for {}: too little of it would be taken there, or too little {} "
                            "be left.",
                            uses_words(formulary, stock.leaves), formulary.name(stock.in));
        list.items.push_back(std::move(item));
        for (const IngredientId what : {stock.of, stock.in})
            if (std::none_of(all.lines.begin(), all.lines.end(),
                             [&](const SheetLine& line) { return line.what == what; }))
                all.lines.emplace_back().what = what;
    }
    if (list.items.empty()) return out;
    out.emplace_back(Heading{1, "Dilutions to prepare"});
    out.emplace_back(
        Paragraph{fmt::format("By these, what is too little above can be weighed{}. Write the line "
                              "into the shade or the blend, and the sheets go by it.",
                              left_words(formulary, settled.left))});
    for (const std::string& caution : cautions.of(all)) out.emplace_back(Caution{caution});
    out.emplace_back(std::move(list));
    return out;
}

}  // namespace levigate
