#include "interpreter/render/cost_sheet.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/csv.hpp"
#include "interpreter/render/ends_words.hpp"

namespace levigate {
namespace {

using namespace document;

std::string amount_cell(const Formulary& formulary, const Needed& needed) {
    if (needed.material != no_ingredient) return needed.amount.fixed(2) + " g";
    return needed.amount.decimal(2) + " " +
           counted(formulary.containers[needed.container].name, needed.amount);
}

/// Of one gram or of one container.
std::string each_cell(const CostLine& line) {
    if (line.of.amount.sign() <= 0) return {};
    const Coin each{line.paid.currency, line.paid.amount / line.of.amount};
    return line.of.material != no_ingredient ? fine_money_words(each) : money_words(each);
}

std::string own_cell(const CostLine& line) {
    if (!line.rate) return {};
    return money_words(line.paid) + " at " + rate_words(*line.rate->rate);
}

/// All that lacks is a rate: then the sum is whole, in several currencies.
bool only_rates_lack(const SheetCost& cost) {
    return std::all_of(cost.all.lacking.begin(), cost.all.lacking.end(),
                       [](const Lack& lack) { return lack.why == Lack::Why::rate; });
}

std::string at_least(const SheetCost& cost, const Purse& purse) {
    return sum_words(purse, only_rates_lack(cost));
}

bool any_rate(const SheetCost& cost) {
    for (const CostLine& line : cost.all.lines)
        if (line.rate) return true;
    return false;
}

Table cost_table(const Formulary& formulary, const SheetCost& cost) {
    Table table;
    table.columns = {
        {"what", Align::left},
        {"needed", Align::right},
        {"a gram, or one", Align::right},
        {"cost", Align::right},
        {cost.all.sum.coins().size() > 1 ? "% of its currency" : "% of the cost", Align::right}};
    const bool rates = any_rate(cost);
    if (rates) table.columns.push_back({"by its own price", Align::left});
    for (const CostLine& line : cost.all.lines) {
        table.rows.push_back({name_of(formulary, line.of), amount_cell(formulary, line.of),
                              each_cell(line), money_words(line.cost), (line.part * 100).fixed(1)});
        if (rates) table.rows.back().push_back(own_cell(line));
    }
    for (const Lack& lack : cost.all.lacking) {
        if (lack.why == Lack::Why::rate) continue;  // it has a line, in its own currency
        table.rows.push_back({name_of(formulary, lack.of), amount_cell(formulary, lack.of), "",
                              lack.why == Lack::Why::price ? "no price" : "no density", ""});
        if (rates) table.rows.back().emplace_back();
    }
    table.foot = {"in all", "", "", at_least(cost, cost.all.sum), ""};
    if (rates) table.foot.emplace_back();
    return table;
}

/// What is filled of a batch, in grams: all of it but what goes beside and what stays in the bowl.
Exact filled_grams(const Formulary& formulary, const Sheet& sheet, const BatchSize& size) {
    Exact count(1);
    std::variant<std::monostate, Mass, Volume> amount;
    if (const auto* counted = std::get_if<ContainerCount>(&size.amount)) {
        count = counted->count;
        const auto& holds = formulary.containers[counted->container].holds;
        if (const Mass* mass = std::get_if<Mass>(&holds)) amount = *mass;
        if (const Volume* volume = std::get_if<Volume>(&holds)) amount = *volume;
    }
    if (const Mass* mass = std::get_if<Mass>(&size.amount)) amount = *mass;
    if (const Volume* volume = std::get_if<Volume>(&size.amount)) amount = *volume;
    if (const Mass* mass = std::get_if<Mass>(&amount)) return count * in_grams(*mass);
    const Exact over = 1 + as_fraction(size.overage);
    const Exact& whole = in_grams(sheet.total);
    if (const Mass* held = std::get_if<Mass>(&size.holdback))
        return (whole - in_grams(*held)) / over;
    const Volume* held = std::get_if<Volume>(&size.holdback);
    const Volume* volume = std::get_if<Volume>(&amount);
    if (!held || !volume) return whole / over;
    const Exact filled = count * in_millilitres(*volume);
    return whole * filled / (filled * over + in_millilitres(*held));
}

Purse of_one(const SheetCost& cost) { return cost.all.sum.times(1 / cost.filled->count); }

std::string fine_words(const Purse& purse) {
    std::string out;
    for (const Coin& coin : purse.coins())
        out += (out.empty() ? "" : " and ") + fine_money_words(coin);
    return out.empty() ? "nothing" : out;
}

std::string each_words(const Formulary& formulary, const SheetCost& cost) {
    const bool nothing = !cost.gram_complete && cost.of_gram.empty();
    const std::string least =
        cost.gram_complete || nothing || only_rates_lack(cost) ? "" : "at least ";
    std::string out;
    if (cost.filled)
        out = fmt::format("One {}: {}. ", formulary.containers[cost.filled->container].name,
                          at_least(cost, of_one(cost)));
    return out + fmt::format("One gram of what is filled, materials alone: {}.",
                             nothing ? "not known" : least + fine_words(cost.of_gram));
}

std::string margin_words(const Formulary& formulary, const SheetCost& cost, const Share& margin) {
    std::string out =
        fmt::format("Price that leaves a margin of {}: {} in all", percent_words(margin),
                    at_least(cost, target_price(cost.all.sum, margin)));
    if (cost.filled)
        out += fmt::format(", {} for one {}", at_least(cost, target_price(of_one(cost), margin)),
                           formulary.containers[cost.filled->container].name);
    return out + fmt::format(". That is the cost ÷ (1 − {}).", percent_words(margin));
}

}  // namespace

SheetCost sheet_cost(const Formulary& formulary, const Sheet& sheet, const BatchSize& size,
                     const CostOrder& order) {
    std::vector<Needed> needed;
    for (const MaterialLine& line : sheet.materials)
        needed.push_back({line.what, nothing, in_grams(line.exact)});
    const Costing materials = costing(formulary, needed, order.into);
    const Exact filled = filled_grams(formulary, sheet, size);
    SheetCost out{sheet, {}, materials.sum.times(1 / filled), materials.complete(), {}};
    if (const auto* count = std::get_if<ContainerCount>(&size.amount)) {
        out.filled = *count;
        needed.push_back({no_ingredient, count->container, count->count});
    }
    out.all = costing(formulary, needed, order.into);
    return out;
}

Purse target_price(const Purse& cost, const Share& margin) {
    Purse out;
    for (const Coin& coin : cost.coins()) {
        Exact minor(1);
        for (int i = currency_places(coin.currency); i > 0; --i) minor *= 10;
        const Exact price = coin.amount / (1 - as_fraction(margin)) * minor;
        out.add({coin.currency, price.ceil() / minor});
    }
    return out;
}

Document cost_document(const Formulary& formulary, const SheetCost& cost, const CostOrder& order) {
    Document out;
    out.emplace_back(Heading{1, sheet_heading(formulary, cost.sheet)});
    out.emplace_back(cost_table(formulary, cost));
    if (!cost.all.complete())
        out.emplace_back(Paragraph{fmt::format("{}: {}.",
                                               cost.all.sum.empty()    ? "It can't be told"
                                               : only_rates_lack(cost) ? "It is no one sum"
                                                                       : "It is at least that",
                                               lacking_words(formulary, cost.all.lacking))});
    if (cost.sheet.estimated)
        out.emplace_back(Paragraph{"The total is an estimate: it comes from a volume."});
    if (std::string words = about_ends(formulary, cost.sheet); !words.empty())
        out.emplace_back(Paragraph{std::move(words)});
    out.emplace_back(Paragraph{each_words(formulary, cost)});
    if (order.margin) out.emplace_back(Paragraph{margin_words(formulary, cost, *order.margin)});
    return out;
}

std::string cost_csv_head() {
    return "shade,variant,finish,batch,item,amount,unit,cost,currency,exact,percent\n";
}

void append_cost_csv(std::string& out, const Formulary& formulary, const SheetCost& cost) {
    const SheetNames names = names_of(formulary, cost.sheet);
    std::string head;
    for (std::string_view name : {names.shade, names.variant, names.finish, names.batch})
        head += csv_field(name) += ',';
    const auto start = [&](const Needed& of) {
        const bool material = of.material != no_ingredient;
        out += head + csv_field(name_of(formulary, of)) + ',' + of.amount.decimal(4) +
               (material ? ",g," : ",piece,");
    };
    for (const CostLine& line : cost.all.lines) {
        start(line.of);
        out += fmt::format("{},{},{},{}\n",
                           line.cost.amount.fixed(currency_places(line.cost.currency)),
                           currency_code(line.cost.currency), line.cost.amount.fraction(),
                           (line.part * 100).decimal(4));
    }
    for (const Lack& lack : cost.all.lacking) {
        if (lack.why == Lack::Why::rate) continue;
        start(lack.of);
        out += ",,,\n";
    }
}

}  // namespace levigate
