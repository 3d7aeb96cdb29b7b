#include "interpreter/changes/changes_document.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

using document::Align;
using document::Caution;
using document::Column;
using document::Document;
using document::List;
using document::Paragraph;
using document::Row;
using document::Table;

/// "18 → 21"; one alone where nothing changed; a dash where there is none.
std::string both_figures(const std::string& before, const std::string& now) {
    if (before == now) return now.empty() ? "–" : now;
    return fmt::format("{} → {}", before.empty() ? "–" : before, now.empty() ? "–" : now);
}

// ---- What was edited ---------------------------------------------------------------------------

/// Long texts stand on lines of their own.
constexpr std::size_t short_enough = 80;

void add_line(const LineChange& line, List& list) {
    const bool changed = line.turn == Turn::changed || line.turn == Turn::renamed;
    if (line.turn == Turn::added) list.items.push_back("new: " + line.now);
    if (line.turn == Turn::gone) list.items.push_back("gone: " + line.before);
    if (!changed) return;
    if (line.before.size() + line.now.size() <= short_enough) {
        list.items.push_back(fmt::format("{}: {} → {}", line.label, line.before, line.now));
        return;
    }
    list.items.push_back(fmt::format("{}, before: {}", line.label, line.before));
    list.items.push_back(fmt::format("{}, now: {}", line.label, line.now));
}

std::string block_title(const BlockChange& block, bool with_file) {
    std::string out =
        block.kind == block.name ? block.kind : fmt::format("{} {}", block.kind, block.name);
    if (block.turn == Turn::added) out += " (new)";
    if (block.turn == Turn::gone) out += " (gone)";
    if (block.turn == Turn::renamed) out += fmt::format(" (was {})", block.was);
    if (with_file) out += ", in " + block.file;
    return out;
}

void add_blocks(const std::vector<BlockChange>& blocks, Document& out) {
    if (blocks.empty()) return;
    std::set<std::string> files;
    for (const BlockChange& block : blocks) files.insert(block.file);
    out.emplace_back(document::Heading{2, "Edited"});
    for (const BlockChange& block : blocks) {
        out.emplace_back(document::Heading{3, block_title(block, files.size() > 1)});
        List list;
        for (const LineChange& line : block.lines) add_line(line, list);
        if (!list.items.empty())
            out.emplace_back(std::move(list));
        else if (block.turn == Turn::renamed)
            out.emplace_back(Paragraph{"All in it is the same."});
    }
}

/// What changes no amount, and is there to be read all the same.
void add_wording(const Changes& changes, Document& out) {
    if (changes.blocks.empty() && (!changes.remarks.empty() || !changes.reworded.empty()))
        out.emplace_back(document::Heading{2, "Edited"});
    if (!changes.remarks.empty()) {
        out.emplace_back(document::Heading{3, "remarks"});
        List list;
        for (const LineChange& one : changes.remarks) add_line(one, list);
        out.emplace_back(std::move(list));
    }
    if (!changes.reworded.empty())
        out.emplace_back(Paragraph{fmt::format("In other words or in another order, with the same "
                                               "meaning: {}.",
                                               list_words(changes.reworded, 12))});
    if (changes.reordered) out.emplace_back(Paragraph{"The same blocks stand in another order."});
}

// ---- What comes of it --------------------------------------------------------------------------

bool only_cost(const ShadeEffect& shade) {
    return !shade.costs.empty() && shade.products.empty() && shade.labels.empty() &&
           shade.expects.empty();
}

/// "Damson and Sloe change too, because they are like Quince."
void add_causes(const std::vector<ShadeEffect>& shades, Document& out) {
    struct Group {
        std::vector<Cause> causes;
        bool only_cost = false;
        std::vector<std::string> names;
    };
    std::vector<Group> groups;
    for (const ShadeEffect& shade : shades) {
        if (because(shade.causes, false).empty()) continue;
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
            return group.causes == shade.causes && group.only_cost == only_cost(shade);
        });
        if (same != groups.end())
            same->names.push_back(shade.name);
        else
            groups.push_back({shade.causes, only_cost(shade), {shade.name}});
    }
    List list;
    for (const Group& group : groups) {
        const bool several = group.names.size() > 1;
        const bool itself =
            group.causes.front().by == Cause::By::itself && group.causes.front().how == "changed";
        const std::string_view how =
            group.only_cost ? (several ? "cost something else" : "costs something else")
                            : (several ? "change" : "changes");
        list.items.push_back(fmt::format("{} {}{} {}.", list_words(group.names, 12), how,
                                         group.only_cost ? ","
                                         : itself        ? " also"
                                                         : " too,",
                                         because(group.causes, several)));
    }
    if (!list.items.empty()) out.emplace_back(std::move(list));
}

/// Members that a family has now, or has no more.
void add_members(const std::vector<ShadeEffect>& shades, Turn turn, std::string_view words,
                 Document& out) {
    std::vector<std::pair<std::string, std::vector<std::string>>> families;
    for (const ShadeEffect& shade : shades) {
        if (shade.turn != turn) continue;
        if (families.empty() || families.back().first != shade.family)
            families.push_back({shade.family, {}});
        families.back().second.push_back(shade.name);
    }
    for (const auto& [family, names] : families)
        out.emplace_back(
            Paragraph{fmt::format("{} {}: {}.", words, family, list_words(names, 12))});
}

Table product_table(const ProductEffect& product) {
    Table table;
    std::vector<std::size_t> shown;  // batches of both days; the others are told in words
    table.columns = {{"what is weighed", Align::left}, {"%", Align::right}};
    Row totals = {"total", ""};
    bool other_total = false;
    for (std::size_t i = 0; i < product.batches.size(); ++i) {
        const BatchEffect& batch = product.batches[i];
        if (batch.total_before.empty() || batch.total_now.empty()) continue;
        shown.push_back(i);
        table.columns.push_back({batch.name + ", g", Align::right});
        totals.push_back(both_figures(batch.total_before, batch.total_now));
        other_total = other_total || batch.total_before != batch.total_now;
    }
    for (const bool own : {true, false}) {
        for (const RowEffect& row : product.rows) {
            if (row.bowl.empty() != own) continue;
            Row cells = {own ? row.ingredient : fmt::format("{}, in {}", row.ingredient, row.bowl),
                         both_figures(row.percent_before, row.percent_now)};
            for (const std::size_t i : shown)
                cells.push_back(both_figures(row.grams_before[i], row.grams_now[i]));
            table.rows.push_back(std::move(cells));
        }
    }
    if (other_total) table.foot = std::move(totals);
    return table;
}

List batch_list(const ProductEffect& product) {
    List out;
    for (const BatchEffect& batch : product.batches) {
        if (batch.total_before.empty())
            out.items.push_back(fmt::format("batch {} is new: {} g", batch.name, batch.total_now));
        if (batch.total_now.empty())
            out.items.push_back(fmt::format("batch {} is gone", batch.name));
    }
    return out;
}

bool same_table(const Table& a, const Table& b) {
    const auto titles = [](const Table& table) {
        std::string out;
        for (const Column& column : table.columns) out += column.title + '\n';
        return out;
    };
    return a.rows == b.rows && a.foot == b.foot && titles(a) == titles(b);
}

/// Products that change alike stand over one table.
void add_products(const ShadeEffect& shade, Document& out) {
    struct Group {
        std::vector<std::string> titles;
        Table table;
        List batches;
    };
    std::vector<Group> groups;
    for (const ProductEffect& product : shade.products) {
        std::string name = product_title(shade.name, product.variant, product.finish);
        if (product.turn != Turn::changed) {
            const bool added = product.turn == Turn::added;
            out.emplace_back(Paragraph{fmt::format("{} is {}.", name, added ? "new" : "gone")});
            continue;
        }
        Group group{{name}, product_table(product), batch_list(product)};
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& one) {
            return same_table(one.table, group.table) && one.batches.items == group.batches.items;
        });
        if (same != groups.end())
            same->titles.push_back(std::move(name));
        else
            groups.push_back(std::move(group));
    }
    for (Group& group : groups) {
        if (group.batches.items.empty() && group.table.rows.empty() && group.table.foot.empty())
            continue;
        out.emplace_back(document::Heading{3, fmt::format("{}", fmt::join(group.titles, ", "))});
        if (!group.batches.items.empty()) out.emplace_back(std::move(group.batches));
        if (!group.table.rows.empty() || !group.table.foot.empty())
            out.emplace_back(std::move(group.table));
    }
}

void add_labels(const ShadeEffect& shade, Document& out) {
    std::vector<bool> told(shade.labels.size());
    for (std::size_t i = 0; i < shade.labels.size(); ++i) {
        const LabelEffect& one = shade.labels[i];
        if (told[i]) continue;
        std::vector<std::string> titles;
        for (std::size_t k = i; k < shade.labels.size(); ++k) {
            const LabelEffect& other = shade.labels[k];
            if (other.region != one.region || other.before != one.before || other.now != one.now)
                continue;
            told[k] = true;
            titles.push_back(product_title(shade.name, other.variant, other.finish));
        }
        out.emplace_back(
            Paragraph{fmt::format("On the box in {}, {}:", one.region, list_words(titles, 12))});
        out.emplace_back(List{false,
                              {"before: " + (one.before.empty() ? "no list" : one.before),
                               "now: " + (one.now.empty() ? "no list" : one.now)}});
    }
}

std::string verdict_words(Verdict verdict, bool today) {
    switch (verdict) {
        case Verdict::holds: return today ? "holds now" : "held before";
        case Verdict::fails: return today ? "does not hold now" : "did not hold before";
        case Verdict::unknown: return today ? "can't be told now" : "couldn't be told before";
    }
    return {};
}

void add_expects(const ShadeEffect& shade, Document& out) {
    for (const ExpectEffect& one : shade.expects) {
        std::string words = one.before ? verdict_words(*one.before, false) : "is new";
        if (one.now) words += (one.before ? ", and " : " and ") + verdict_words(*one.now, true);
        std::string line = fmt::format("{} expects {}: it {}.", shade.name, one.wording, words);
        if (one.now == Verdict::fails)
            out.emplace_back(Caution{std::move(line)});
        else
            out.emplace_back(Paragraph{std::move(line)});
    }
}

void add_shades(const std::vector<ShadeEffect>& shades, Document& out) {
    if (shades.empty()) return;
    const std::size_t head = out.size();
    out.emplace_back(document::Heading{2, "What comes of it"});
    add_causes(shades, out);
    add_members(shades, Turn::added, "New in", out);
    add_members(shades, Turn::gone, "Gone from", out);
    for (const ShadeEffect& shade : shades) {
        add_expects(shade, out);
        add_products(shade, out);
        add_labels(shade, out);
    }
    if (out.size() == head + 1) out.pop_back();  // all of it is told elsewhere
}

void add_lips(const std::vector<LipEffect>& lips, Document& out) {
    if (lips.empty()) return;
    out.emplace_back(document::Heading{2, "For lips"});
    for (const LipEffect& lip : lips) {
        const std::string words = fmt::format(
            "{} ({})", lip.message.empty() ? "What is found" : lip.message, row_of(lip.code).name);
        if (lip.gone)
            out.emplace_back(Paragraph{"No longer: " + words});
        else
            out.emplace_back(Caution{"New: " + words});
    }
}

}  // namespace

std::string product_title(const std::string& shade, const std::string& variant,
                          const std::string& finish) {
    std::string out = shade;
    for (const std::string* part : {&variant, &finish})
        if (!part->empty()) out += " / " + *part;
    return out;
}

Document changes_document(const Changes& changes) {
    Document out;
    out.emplace_back(
        document::Heading{1, fmt::format("From {} to {}", changes.before, changes.now)});
    if (!changes.any()) out.emplace_back(Paragraph{"Nothing changed."});
    add_blocks(changes.blocks, out);
    add_wording(changes, out);
    add_shades(changes.shades, out);
    add_costs(changes.shades, out);
    add_lips(changes.lips, out);
    if (changes.any() && changes.shades.empty() && changes.lips.empty())
        out.emplace_back(Paragraph{"All that was there is made as before."});
    return out;
}

}  // namespace levigate
