#include "interpreter/render/plan_sheet.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/csv.hpp"

namespace levigate {
namespace {

using namespace document;

Table weighing_table(const Formulary& formulary, const PlanBowl& bowl, const GramsWriter& grams) {
    Table table;
    table.columns = {{"weigh, g", Align::right},
                     {"ingredient", Align::left},
                     {"% of the bowl", Align::right},
                     {"never tared, g", Align::right}};
    Exact all, reading;
    for (const SheetLine& line : bowl.bowl.lines) all += in_grams(line.exact);
    for (const SheetLine& line : bowl.bowl.lines) {
        reading += line.steps;
        table.rows.push_back(
            {grams.text(line.steps),
             formulary.name(line.what) + (line.estimated ? " (estimate: from a volume)" : ""),
             (in_grams(line.exact) * 100 / all).fixed(2), grams.text(reading)});
    }
    table.foot = {grams.text(bowl.bowl.steps), "in the bowl", "100.00", ""};
    return table;
}

void add_bowls(const Formulary& formulary, const Planned& plan, Cautions& cautions,
               const GramsWriter& grams, Document& out) {
    for (std::size_t k = 0; k < plan.bowls.size(); ++k) {
        const PlanBowl& bowl = plan.bowls[k];
        const bool own = bowl.batch != nothing;
        const std::string asked =
            own ? grams.rounded(plan.batches[bowl.batch].sheet.total) : grams.text(bowl.bowl.asked);
        out.emplace_back(Heading{2, fmt::format("Bowl {}: {}, {} g asked for", k + 1,
                                                bowl_title(formulary, plan, bowl), asked)});
        out.emplace_back(weighing_table(formulary, bowl, grams));
        for (const std::string& caution : cautions.of(bowl.bowl))
            out.emplace_back(Caution{caution});
        if (!own) out.emplace_back(Paragraph{portion_words(formulary, plan, bowl)});
        if (!bowl.bowl.steps_text.empty())
            out.emplace_back(List{bowl.bowl.steps_text.size() > 1, bowl.bowl.steps_text});
        for (const std::string& note : cautions.fresh(bowl.bowl.notes))
            out.emplace_back(Paragraph{"Note: " + note});
    }
}

Table supply_table(const Formulary& formulary, const Planned& plan) {
    Table table;
    table.columns = {{"what", Align::left},          {"needed", Align::right},
                     {"on the shelf", Align::right}, {"short", Align::right},
                     {"to buy", Align::right},       {"cost", Align::right}};
    for (const Supply& one : plan.supplies)
        table.rows.push_back({name_of(formulary, one.need), supply_needed(plan, one),
                              supply_have(plan, one),
                              one.lacking.sign() > 0 ? supply_short(plan, one) : "",
                              supply_to_buy(plan, one), supply_cost(one)});
    table.foot = {"in all", "", "", "", "", sum_words(plan.to_buy, plan.lacking.empty())};
    return table;
}

Table lot_table(const Formulary& formulary, const Planned& plan) {
    Table table;
    table.columns = {{"what", Align::left},
                     {"lot", Align::left},
                     {"best before", Align::left},
                     {"take", Align::right},
                     {"for", Align::left}};
    for (const Supply& one : plan.supplies)
        for (const Taken& taken : one.taken) {
            const bool material = one.need.material != no_ingredient;
            table.rows.push_back(
                {name_of(formulary, one.need), stock_words(*taken.stock),
                 taken.stock->best_before ? date_words(*taken.stock->best_before) : "",
                 taken_amount(plan, one, taken.amount),
                 material ? bowl_title(formulary, plan, plan.bowls[taken.bowl])
                          : batch_title(formulary, plan.batches[taken.bowl])});
        }
    return table;
}

std::string batch_size_words(const Formulary& formulary, const Planned& plan,
                             const PlanBatch& batch, const Exact& mass, const Exact& count) {
    // What the shelf allows is never rounded up.
    const Exact& step = in_grams(plan.reading.step);
    std::string out = ((mass / step).floor() * step).fixed(plan.reading.places) + " g";
    if (!batch.filled) return out;
    return fmt::format("{}, {} {}", out, count.decimal(0),
                       counted(formulary.containers[batch.filled->container].name, count));
}

Table largest_table(const Formulary& formulary, const Planned& plan) {
    Table table;
    table.columns = {{"batch", Align::left},
                     {"if it alone is made", Align::right},
                     {"for lack of more", Align::left},
                     {"if all are scaled together", Align::right}};
    for (const PlanBatch& batch : plan.batches) {
        const Exact mass = in_grams(batch.sheet.total) * *plan.all.times;
        table.rows.push_back(
            {batch_title(formulary, batch),
             batch_size_words(formulary, plan, batch, batch.alone_grams, batch.alone_count),
             name_of(formulary, batch.alone.by),
             batch_size_words(formulary, plan, batch, mass,
                              batch.filled ? containers_at(batch, *plan.all.times) : Exact())});
    }
    return table;
}

std::string largest_words(const Formulary& formulary, const Planned& plan) {
    const Exact& times = *plan.all.times;
    const std::string& by = name_of(formulary, plan.all.by);
    std::vector<std::string> missing;
    for (const Supply& one : plan.supplies)
        if (one.have.sign() <= 0 && one.need.amount.sign() > 0)
            missing.push_back(name_of(formulary, one.need));
    if (missing.size() > 1)
        return fmt::format("The shelf is enough for 0 % of the plan: there is nothing of {}.",
                           list_words(missing, missing.size()));
    if (times < Exact(1))
        return fmt::format("The shelf is enough for {} % of the plan: {} is the scarcest.",
                           ((times * 1000).floor() / 10).decimal(1), by);
    return fmt::format("The shelf is enough for the whole plan, and for {} times as much: {} is "
                       "the scarcest.",
                       ((times * 100).floor() / 100).decimal(2), by);
}

void add_supplies(const Formulary& formulary, const Planned& plan, Document& out) {
    out.emplace_back(Heading{2, "Needed, there, and to buy"});
    out.emplace_back(supply_table(formulary, plan));
    if (std::string kept = kept_words(formulary, plan); !kept.empty())
        out.emplace_back(Paragraph{std::move(kept)});
    if (!plan.lacking.empty())
        out.emplace_back(
            Paragraph{fmt::format("What is to be bought {}: {}.",
                                  plan.to_buy.empty() ? "has no known cost" : "costs at least that",
                                  lacking_words(formulary, plan.lacking))});
    const Table lots = lot_table(formulary, plan);
    if (!lots.rows.empty()) {
        out.emplace_back(Heading{2, "Which lots go where"});
        out.emplace_back(lots);
    }
    if (!plan.all.times) return;
    out.emplace_back(Heading{2, "The largest that the shelf allows"});
    out.emplace_back(Paragraph{largest_words(formulary, plan)});
    const bool any = std::any_of(plan.batches.begin(), plan.batches.end(),
                                 [](const auto& batch) { return batch.alone_grams.sign() > 0; });
    if (any) out.emplace_back(largest_table(formulary, plan));
}

/// Grams, down to a step of the balance.
Exact whole_steps(const Planned& plan, const Exact& grams) {
    const Exact& step = in_grams(plan.reading.step);
    return (grams / step).floor() * step;
}

}  // namespace

std::string supply_amount(const Planned& plan, const Needed& of, const Exact& amount, bool up) {
    if (of.material == no_ingredient) return amount.decimal(4);
    const Exact& step = in_grams(plan.reading.step);
    const Exact steps = amount / step;
    const Exact whole = up ? steps.ceil() : steps.floor();
    return (whole * step).fixed(plan.reading.places) + " g";
}

// What is needed is in whole steps. Where something is short, what is there is rounded down lot by
// lot, so that they subtract as they are printed, and no lot seems to give more than it has. Where
// all is there, and lots that end between two steps are emptied for it, these are printed as they
// are.

std::string taken_amount(const Planned& plan, const Supply& one, const Exact& amount) {
    const bool crumbs = one.need.material != no_ingredient && one.lacking.sign() <= 0 &&
                        whole_steps(plan, amount) < amount;
    if (!crumbs) return supply_amount(plan, one.need, amount, false);
    return ((amount * 10000).floor() / 10000).decimal(4) + " g";
}

std::string supply_needed(const Planned& plan, const Supply& one) {
    return supply_amount(plan, one.need, one.need.amount, true);
}

std::string supply_have(const Planned& plan, const Supply& one) {
    const bool is_short = one.need.material != no_ingredient && one.lacking.sign() > 0;
    return supply_amount(plan, one.need, is_short ? one.need.amount - one.lacking : one.have,
                         false);
}

std::string supply_short(const Planned& plan, const Supply& one) {
    if (one.need.material == no_ingredient) return one.lacking.decimal(4);
    return supply_amount(plan, one.need, one.lacking, true);
}

std::string supply_to_buy(const Planned& plan, const Supply& one) {
    if (one.lacking.sign() <= 0) return {};
    if (!one.packs) return "no pack known";
    return fmt::format("{} × {}", one.packs->decimal(0),
                       supply_amount(plan, one.need, *one.pack, true));
}

std::string supply_cost(const Supply& one) {
    if (!one.cost) return {};
    if (const Coin* coin = std::get_if<Coin>(&*one.cost)) return money_words(*coin);
    return std::get<Lack>(*one.cost).why == Lack::Why::price ? "no price" : "no density";
}

std::string stock_words(const Stock& stock) {
    return stock.lot.name.empty() ? "no lot written" : "lot " + stock.lot.name;
}

std::string kept_words(const Formulary& formulary, const Planned& plan) {
    const GramsWriter grams(plan.reading);
    std::vector<std::string> parts;
    for (const PlanBowl& bowl : plan.bowls)
        if (bowl.kept.sign() > 0)
            parts.push_back(
                fmt::format("{} g of {}", grams.text(bowl.kept), formulary.name(bowl.bowl.mix)));
    if (parts.empty()) return {};
    return "Needed is all that is weighed, with what is kept: " + list_words(parts, parts.size()) +
           ".";
}

std::string portion_words(const Formulary& formulary, const Planned& plan, const PlanBowl& bowl) {
    const GramsWriter grams(plan.reading);
    std::vector<std::string> parts;
    for (const Portion& portion : bowl.portions)
        parts.push_back(fmt::format("{} g for {}", grams.text(portion.steps),
                                    bowl_title(formulary, plan, plan.bowls[portion.into])));
    const Exact over = bowl.bowl.steps - bowl.bowl.asked;
    std::string out = "Portions: " + list_words(parts, parts.size());
    if (dilution_of(formulary, bowl.bowl.mix) && over.sign() > 0)
        return out + fmt::format(". Keep the other {} g, labelled \"{}\" and with the date.",
                                 grams.text(over), formulary.name(bowl.bowl.mix));
    if (over.sign() > 0) out += fmt::format("; {} g are left over", grams.text(over));
    return out + ".";
}

std::string batch_title(const Formulary& formulary, const PlanBatch& batch) {
    const SheetNames names = names_of(formulary, batch.sheet);
    std::string out;
    for (std::string_view name : {names.shade, names.variant, names.finish, names.batch})
        if (!name.empty()) out += (out.empty() ? "" : " · ") + std::string(name);
    if (!names.batch.empty()) return out;
    if (batch.filled)
        return fmt::format(
            "{} · {} {}", out, batch.filled->count.decimal(2),
            counted(formulary.containers[batch.filled->container].name, batch.filled->count));
    return out + " · " + GramsWriter(batch.sheet.reading).rounded(batch.sheet.total) + " g";
}

std::string bowl_title(const Formulary& formulary, const Planned& plan, const PlanBowl& bowl) {
    if (bowl.batch == nothing) return formulary.name(bowl.bowl.mix);
    return batch_title(formulary, plan.batches[bowl.batch]);
}

Document plan_document(const Formulary& formulary, const Planned& plan, Cautions& cautions) {
    const GramsWriter grams(plan.reading);
    Document out;
    out.emplace_back(Heading{1, plan.batches.empty() ? plan.plan->name
                                                     : fmt::format("{} · {} g", plan.plan->name,
                                                                   grams.rounded(plan.total))});
    if (!plan.left_out.empty())
        out.emplace_back(Paragraph{
            fmt::format("Not in it, since it can't be made: {}.", list_words(plan.left_out))});
    if (plan.batches.empty()) {
        out.emplace_back(Paragraph{"There is nothing to make."});
        return out;
    }
    const std::string on = plan.plan->on ? " On " + date_words(*plan.plan->on) + "." : "";
    out.emplace_back(Paragraph{fmt::format(
        "{} to make. Weighed in steps of {} g.{}",
        plan.batches.size() == 1 ? "1 batch" : fmt::format("{} batches", plan.batches.size()),
        in_grams(plan.reading.step).fixed(plan.reading.places), on)});
    add_bowls(formulary, plan, cautions, grams, out);
    add_supplies(formulary, plan, out);
    return out;
}

std::string plan_csv_head() {
    return "plan,item,unit,need,have,short,pack,packs,buy,cost,currency\n";
}

void append_plan_csv(std::string& out, const Formulary& formulary, const Planned& plan) {
    for (const Supply& one : plan.supplies) {
        const bool material = one.need.material != no_ingredient;
        out += fmt::format("{},{},{},{},{},{},{},{},{},", csv_field(plan.plan->name),
                           csv_field(name_of(formulary, one.need)), material ? "g" : "piece",
                           one.need.amount.decimal(4), one.have.decimal(4), one.lacking.decimal(4),
                           one.pack ? one.pack->decimal(4) : "",
                           one.packs ? one.packs->decimal(0) : "", one.bought.decimal(4));
        const Coin* coin = one.cost ? std::get_if<Coin>(&*one.cost) : nullptr;
        if (coin)
            out += fmt::format("{},{}", coin->amount.fixed(currency_places(coin->currency)),
                               currency_code(coin->currency));
        else
            out += ',';
        out += '\n';
    }
}

}  // namespace levigate
