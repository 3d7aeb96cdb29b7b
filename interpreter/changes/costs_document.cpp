// What batches cost in two states, as a table for people.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "interpreter/changes/changes_document.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

using document::Align;
using document::Document;
using document::Paragraph;
using document::Row;
using document::Table;

/// "12.30 USD", "at least 12.30 USD", "not known".
std::string coin_words(const std::optional<CostSeen>& cost, const Purse& purse,
                       std::uint32_t currency) {
    for (const Coin& coin : purse.coins())
        if (coin.currency == currency)
            return (cost->complete() ? "" : "at least ") + money_words(coin);
    return cost && cost->complete() ? "nothing" : "not known";
}

const Purse& each_of(const std::optional<CostSeen>& cost) {
    static const Purse none;
    return cost ? cost->each : none;
}

const Purse& sum_of(const std::optional<CostSeen>& cost) {
    static const Purse none;
    return cost ? cost->sum : none;
}

std::vector<std::uint32_t> currencies(const CostEffect& cost) {
    Purse all = sum_of(cost.before);
    all.add(sum_of(cost.now));
    std::vector<std::uint32_t> out;
    for (const Coin& coin : all.coins()) out.push_back(coin.currency);
    return out;
}

/// "12.30 USD → 13.10 USD"
std::string both_costs(const std::string& before, const std::string& now) {
    return before == now ? now : before + " → " + now;
}

/// "one slim tube: 0.26 USD → 0.27 USD"; where the batch is counted in others now, each with its
/// name.
std::string each_cell(const CostEffect& cost, std::uint32_t currency) {
    const std::string was = cost.before ? cost.before->container : "";
    const std::string is = cost.now ? cost.now->container : "";
    const std::string before = coin_words(cost.before, each_of(cost.before), currency);
    const std::string now = coin_words(cost.now, each_of(cost.now), currency);
    if (was.empty() && is.empty()) return {};
    if (was == is || !cost.before || !cost.now)
        return fmt::format("one {}: {}", is.empty() ? was : is, both_costs(before, now));
    return fmt::format("{} → {}", was.empty() ? "none" : fmt::format("one {}: {}", was, before),
                       is.empty() ? "none" : fmt::format("one {}: {}", is, now));
}

/// One row a currency; the batch stands in the first.
std::vector<Row> rows_of(const CostEffect& cost) {
    std::vector<Row> out;
    for (const std::uint32_t currency : currencies(cost))
        out.push_back({out.empty() ? cost.batch : "",
                       both_costs(coin_words(cost.before, sum_of(cost.before), currency),
                                  coin_words(cost.now, sum_of(cost.now), currency)),
                       each_cell(cost, currency)});
    return out;
}

/// Products that cost the same stand in one row.
void add_rows(const ShadeEffect& shade, Table& table) {
    std::vector<std::pair<std::string, std::vector<Row>>> groups;
    for (const CostEffect& cost : shade.costs) {
        std::vector<Row> rows = rows_of(cost);
        std::string title = product_title(shade.name, cost.variant, cost.finish);
        const auto same = std::find_if(groups.begin(), groups.end(),
                                       [&](const auto& one) { return one.second == rows; });
        if (same != groups.end())
            same->first += ", " + title;
        else
            groups.emplace_back(std::move(title), std::move(rows));
    }
    for (auto& [title, rows] : groups)
        for (Row& row : rows) {
            row.insert(row.begin(), &row == &rows.front() ? title : "");
            table.rows.push_back(std::move(row));
        }
}

using Seen = std::optional<CostSeen> CostEffect::*;

/// What has no known cost in one of the states, each once; false where a state had no price at all.
bool gather(const std::vector<ShadeEffect>& shades, Seen when, std::vector<std::string>& out) {
    bool any = false;
    for (const ShadeEffect& shade : shades)
        for (const CostEffect& cost : shade.costs) {
            if (!(cost.*when)) continue;
            any = true;
            for (const std::string& name : (cost.*when)->lacking)
                if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
        }
    return any;
}

}  // namespace

void add_costs(const std::vector<ShadeEffect>& shades, Document& out) {
    Table table;
    table.columns = {{"shade", Align::left},
                     {"batch", Align::left},
                     {"costs", Align::left},
                     {"a container, filled", Align::left}};
    for (const ShadeEffect& shade : shades) add_rows(shade, table);
    if (table.rows.empty()) return;
    if (std::all_of(table.rows.begin(), table.rows.end(),
                    [](const Row& row) { return row.back().empty(); })) {
        table.columns.pop_back();
        for (Row& row : table.rows) row.pop_back();
    }
    out.emplace_back(document::Heading{2, "What it costs"});
    out.emplace_back(std::move(table));
    std::vector<std::string> before, now;
    if (!gather(shades, &CostEffect::before, before))
        out.emplace_back(Paragraph{"Before, nothing had a price."});
    else if (!before.empty())
        out.emplace_back(
            Paragraph{fmt::format("Without a known cost before: {}.", list_words(before, 12))});
    if (!gather(shades, &CostEffect::now, now))
        out.emplace_back(Paragraph{"Now nothing has a price."});
    else if (!now.empty())
        out.emplace_back(
            Paragraph{fmt::format("Without a known cost now: {}.", list_words(now, 12))});
}

}  // namespace levigate
