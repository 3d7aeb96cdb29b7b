// The bench page of a plan: what it needs and where that is taken from, the blends that its batches
// share, then each batch's own bowl.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/plan/plan.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/card_bowl.hpp"
#include "interpreter/render/card_parts.hpp"
#include "interpreter/render/findings.hpp"
#include "interpreter/render/html.hpp"
#include "interpreter/render/html_card.hpp"
#include "interpreter/render/plan_sheet.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate {
namespace {

using namespace document;

// ---- What is needed ----------------------------------------------------------------------------

std::string amount_words(const Formulary& formulary, const Planned& plan, const Supply& one,
                         const Exact& amount) {
    if (one.need.material != no_ingredient) return taken_amount(plan, one, amount);
    return fmt::format("{} {}", amount.decimal(4),
                       counted(formulary.containers[one.need.container].name, amount));
}

/// Who weighs sees what is to be bought, and no price that is private.
std::string cost_words(const Formulary& formulary, const Supply& one) {
    return has_private_price(formulary, one.need) ? std::string() : supply_cost(one);
}

std::string lot_of(const Stock& stock) {
    return stock.lot.name.empty() ? " without a lot written" : " of " + stock_words(stock);
}

/// "12.00 g of lot B, best before 2026-11; 3.20 g of lot A": a lot once, for whatever bowls.
std::string lots_words(const Formulary& formulary, const Planned& plan, const Supply& one) {
    std::vector<std::pair<const Stock*, Exact>> lots;
    for (const Taken& taken : one.taken) {
        const auto same = std::find_if(lots.begin(), lots.end(),
                                       [&](const auto& lot) { return lot.first == taken.stock; });
        if (same != lots.end())
            same->second += taken.amount;
        else
            lots.emplace_back(taken.stock, taken.amount);
    }
    std::string out;
    for (const auto& [stock, amount] : lots) {
        std::string words;
        if (lots.size() > 1)
            words = amount_words(formulary, plan, one, amount) + lot_of(*stock);
        else if (!stock->lot.name.empty())
            words = stock_words(*stock);
        if (stock->best_before)
            words +=
                (words.empty() ? "" : ", ") + ("best before " + date_words(*stock->best_before));
        if (!words.empty()) out += (out.empty() ? "" : "; ") + words;
    }
    return out;
}

void append_supply(std::string& out, const Formulary& formulary, const Planned& plan,
                   const Supply& one, const std::string& group, std::size_t number) {
    out += fmt::format("<li><label><input type=\"checkbox\" name=\"{0}\" id=\"{0}-need-{1}\"> "
                       "<span><bdi>{2}</bdi> <b>{3}</b>",
                       group, number, html_escaped(name_of(formulary, one.need)),
                       html_escaped(supply_needed(plan, one)));
    std::string there = supply_have(plan, one);
    if (one.need.container != nothing)
        there += " " + counted(formulary.containers[one.need.container].name, one.have);
    std::string shelf = one.have.sign() > 0 ? "on the shelf " + there : "none on the shelf";
    if (const std::string lots = lots_words(formulary, plan, one); !lots.empty())
        shelf += ": " + lots;
    out += fmt::format(" <span class=\"from\">{}</span>", html_escaped(shelf));
    if (one.lacking.sign() > 0) {
        const std::string cost = cost_words(formulary, one);
        out += fmt::format(
            " <strong>short {}, buy {}{}</strong>", html_escaped(supply_short(plan, one)),
            html_escaped(supply_to_buy(plan, one)), cost.empty() ? "" : html_escaped(", " + cost));
    }
    out += "</span></label></li>\n";
}

/// What is said of the plan and not of one of its batches.
Findings of_the_plan(const Formulary& formulary, const Planned& plan) {
    Findings out = without_private_costs(formulary, plan.findings);
    std::erase_if(out, [&](const Finding& one) {
        return std::any_of(plan.batches.begin(), plan.batches.end(), [&](const PlanBatch& batch) {
            const Findings& own = batch.sheet.findings;
            return std::any_of(own.begin(), own.end(), [&](const Finding& other) {
                return other.code == one.code && other.span == one.span &&
                       other.message == one.message;
            });
        });
    });
    return each_once(out);
}

void append_needs(std::string& out, const Formulary& formulary, const Planned& plan,
                  std::size_t card) {
    const std::string group = tick_group(card, 0);
    open_card(out, card, plan.plan->name);
    std::string words = fmt::format(
        "{} to make",
        plan.batches.size() == 1 ? "1 batch" : fmt::format("{} batches", plan.batches.size()));
    if (plan.plan->on) words += " on " + date_words(*plan.plan->on) + ",";
    out += fmt::format("<p class=\"batches\"><span>{} <b>{} g</b> <span class=\"count\" "
                       "data-of=\"{}\"></span></span></p>\n",
                       html_escaped(words), GramsWriter(plan.reading).rounded(plan.total), group);
    out += start_over;
    out += "</header>\n";
    if (!plan.left_out.empty())
        append_html(out, {Paragraph{fmt::format("Not in it, since it can't be made: {}.",
                                                list_words(plan.left_out))}});
    append_looks(out, {of_the_plan(formulary, plan)});
    out += "<div class=\"bowl\">\n<h3>Have it all at hand</h3>\n<ul class=\"needs\">\n";
    std::size_t number = 0;
    for (const Supply& one : plan.supplies)
        append_supply(out, formulary, plan, one, group, ++number);
    out += "</ul>\n";
    if (const std::string kept = kept_words(formulary, plan); !kept.empty())
        append_html(out, {Paragraph{kept}});
    out += "</div>\n";
    close_card(out);
}

// ---- Bowls -------------------------------------------------------------------------------------

/// Where a line's material comes from, if that isn't simply the shelf: "12.00 g of lot B and 3.20 g
/// to be bought".
std::string beside_line(const Planned& plan, std::size_t bowl, std::size_t number) {
    const SheetLine& line = plan.bowls[bowl].bowl.lines[number];
    const Exact& needed = plan.bowls[bowl].needs[number];
    for (const Supply& one : plan.supplies) {
        if (one.need.material != line.what) continue;
        std::vector<std::string> parts;
        Exact open = needed;
        for (const Taken& taken : one.taken) {
            if (taken.bowl != bowl) continue;
            open -= taken.amount;
            const bool all = taken.amount == needed;
            if (all && taken.stock->lot.name.empty()) return {};
            parts.push_back(all ? stock_words(*taken.stock)
                                : taken_amount(plan, one, taken.amount) + lot_of(*taken.stock));
        }
        if (parts.empty()) return open.sign() > 0 ? "to be bought" : std::string();
        if (open.sign() > 0)
            parts.push_back(supply_amount(plan, one.need, open, true) + " to be bought");
        return list_words(parts, parts.size());
    }
    return {};
}

/// Shares are of the bowl: those of the plan tell nobody anything.
Bowl by_itself(const Bowl& bowl) {
    Bowl out = bowl;
    Exact all;
    for (const SheetLine& line : out.lines) all += in_grams(line.exact);
    if (all.sign() > 0)
        for (SheetLine& line : out.lines) line.share = share(in_grams(line.exact) / all);
    return out;
}

PlannedBowl planned_bowl(const Formulary& formulary, const Planned& plan, std::size_t number) {
    const PlanBowl& bowl = plan.bowls[number];
    PlannedBowl out;
    out.number = number + 1;
    for (const SheetLine& line : bowl.bowl.lines) {
        std::size_t from = 0;
        for (std::size_t k = 0; k < number && from == 0; ++k)
            if (plan.bowls[k].batch == nothing && plan.bowls[k].bowl.mix == line.what) from = k + 1;
        out.from.push_back(from);
        out.beside.push_back(beside_line(plan, number, out.beside.size()));
    }
    if (bowl.batch == nothing) out.portions = portion_words(formulary, plan, bowl);
    return out;
}

/// The bowls from `first` on that belong to one card: those of the blends, or one batch's own.
void append_bowls(std::string& out, const Formulary& formulary, Cautions& cautions,
                  const Planned& plan, Sheet sheet, std::size_t first, std::size_t card) {
    const std::size_t count = sheet.bowls.size();
    for (Bowl& bowl : sheet.bowls) bowl = by_itself(bowl);
    const CardSheets sheets{std::move(sheet)};
    for (std::size_t k = 0; k < count; ++k) {
        const PlannedBowl planned = planned_bowl(formulary, plan, first + k);
        append_bowl(out, formulary, cautions, sheets, {card, k, &planned});
    }
}

void append_head(std::string& out, const Formulary& formulary, const std::string& name,
                 const std::string& batch, const std::string& behind, const Sheet& sheet,
                 std::size_t card) {
    open_card(out, card, name);
    out += fmt::format("<p class=\"batches\"><span>{}{} <span class=\"count\" "
                       "data-of=\"{}\"></span></span></p>\n",
                       batch, behind, tick_group(card, 0));
    out += fmt::format("<p class=\"balance\">{}</p>\n",
                       html_escaped(about_balance(formulary, sheet)));
    out += start_over;
}

Sheet sheet_of_blends(const Planned& plan) {
    Sheet out;
    out.shade = plan.batches.front().sheet.shade;
    out.reading = plan.reading;
    for (const PlanBowl& bowl : plan.bowls)
        if (bowl.batch == nothing) out.bowls.push_back(bowl.bowl);
    return out;
}

/// The blends are made for all batches together: of this sheet only its own bowl is left, the last
/// one, with what is said of its lines.
void keep_own_bowl(Sheet& sheet, const Bowl& own) {
    const std::size_t last = sheet.bowls.size() - 1;
    sheet.bowls = {own};
    std::erase_if(sheet.remedies, [&](const Remedy& remedy) {
        return remedy.bowl != last || remedy.line >= own.lines.size();
    });
    for (Remedy& remedy : sheet.remedies) remedy.bowl = 0;
    if (sheet.ends && last < sheet.ends->lines.size())
        sheet.ends->lines = {sheet.ends->lines[last]};
}

void append_batch(std::string& out, const Formulary& formulary, Cautions& cautions,
                  const Planned& plan, std::size_t place, std::size_t card) {
    const PlanBowl& bowl = plan.bowls[place];
    const PlanBatch& batch = plan.batches[bowl.batch];
    Sheet sheet = batch.sheet;
    keep_own_bowl(sheet, bowl.bowl);
    std::string behind;
    if (batch.filled)
        behind =
            fmt::format(", for {} {}", batch.filled->count.decimal(2),
                        html_escaped(counted(formulary.containers[batch.filled->container].name,
                                             batch.filled->count)));
    if (sheet.estimated) behind += " (estimate: from a volume)";
    append_head(out, formulary, card_name(formulary, sheet),
                fmt::format("{} <b>{} g</b>", html_escaped(batch_name(formulary, sheet)),
                            GramsWriter(sheet.reading).rounded(sheet.total)),
                behind, sheet, card);
    append_swatch(out, formulary, sheet);
    out += "</header>\n";
    append_looks(out, {looks_of(formulary, sheet)});
    append_bowls(out, formulary, cautions, plan, std::move(sheet), place, card);
    close_card(out);
}

}  // namespace

void BenchPage::append(const Planned& plan) {
    close_cards();
    if (too_long()) return;
    const std::string& name = plan.plan->name;
    append_needs(cards_, formulary_, plan, next_card(name, name + ": what it needs"));
    if (plan.batches.empty()) return;
    const Sheet blends = sheet_of_blends(plan);
    if (!blends.bowls.empty()) {
        const std::string title = "Blends for all batches";
        const std::size_t card = next_card(title, title);
        append_head(cards_, formulary_, title, "made once, and parted", "", blends, card);
        cards_ += "</header>\n";
        append_bowls(cards_, formulary_, cautions_, plan, blends, 0, card);
        close_card(cards_);
    }
    for (std::size_t k = blends.bowls.size(); k < plan.bowls.size() && !too_long(); ++k) {
        const PlanBatch& batch = plan.batches[plan.bowls[k].batch];
        const std::size_t card =
            next_card(card_name(formulary_, batch.sheet), batch_title(formulary_, batch));
        append_batch(cards_, formulary_, cautions_, plan, k, card);
    }
}

}  // namespace levigate
