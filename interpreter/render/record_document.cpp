#include "interpreter/render/record_document.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/render/csv.hpp"

namespace levigate {
namespace {

using namespace document;

/// As many places as any of the weights needs, so that the points stand below each other.
class Places {
public:
    explicit Places(const RecordReport& report) {
        for (const RecordLine& line : report.lines)
            for (const auto& mass : {line.planned, line.weighed}) {
                int needed = 0;
                if (!mass) continue;
                if (!in_grams(*mass).finite_decimal(needed)) needed = most;
                places_ = std::max(places_, std::min(needed, most));
            }
    }
    std::string text(const Mass& mass) const { return in_grams(mass).fixed(places_); }
    std::string text(const std::optional<Mass>& mass) const { return mass ? text(*mass) : "–"; }

private:
    static constexpr int most = 4;
    int places_ = 2;
};

std::string difference(const RecordLine& line, const Places& places) {
    if (!line.planned || !line.weighed) return "–";
    const Mass off = *line.weighed - *line.planned;
    return (in_grams(off).sign() > 0 ? "+" : "") + places.text(off);
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    std::string out;
    for (const std::string& word : words) {
        if (!out.empty()) out += between;
        out += word;
    }
    return out;
}

Table lines_table(const RecordReport& report, const Places& places) {
    const bool changed = report.formula == RecordReport::Formula::changed;
    Table table;
    table.columns = {{"planned, g", Align::right},
                     {"weighed, g", Align::right},
                     {"off, g", Align::right},
                     {"ingredient", Align::left},
                     {"lot", Align::left}};
    if (changed) table.columns.push_back({"today, g", Align::right});
    for (const RecordLine& line : report.lines) {
        if (!changed && !line.planned && !line.weighed) continue;
        Row row = {places.text(line.planned), places.text(line.weighed), difference(line, places),
                   line.bowl.empty() ? line.name : fmt::format("{} (in {})", line.name, line.bowl),
                   joined(line.lots, ", ")};
        if (changed) row.push_back(places.text(line.today));
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string yield(const RecordReport& report, const Places& places) {
    std::string out = fmt::format("{} g went in", places.text(report.in));
    if (report.filled.empty()) return out + ". The amount filled was not recorded.";
    const auto& filled = report.record.filled;
    const bool by_weight = filled && std::holds_alternative<Mass>(filled->amount) && report.out;
    out += ", and it filled ";
    out += by_weight ? places.text(*report.out) + " g" : report.filled;
    if (!report.out)
        return out + (report.lacking.empty()
                          ? "; what they weigh can't be told."
                          : "; what they weigh can't be told: " + report.lacking + ".");
    if (!by_weight) out += fmt::format(": {} g", places.text(*report.out));
    if (in_grams(report.in).sign() <= 0) return out + ".";
    return out +
           fmt::format(", a yield of {} %.", in_percent(share_of(*report.out, report.in)).fixed(2));
}

/// In what way the record is not as it was written; empty where it is.
std::string not_whole(const Record& record) {
    if (record.cut) return "Not whole: lines of this record are missing.";
    if (record.altered) return "Changed by hand after it was written.";
    if (record.damaged) return "A line of this record can't be read; here is the rest.";
    return {};
}

std::string made_words(const Made& made) {
    std::string out = made.name.empty() ? made.amount : made.amount + " " + made.name;
    return made.lot.empty() ? out : out + ", lot " + made.lot;
}

/// Paragraphs for what a record tells in words.
void add_told(Document& out, const Record& record) {
    for (const Made& made : record.made)
        out.emplace_back(Paragraph{"Also made: " + made_words(made)});
    for (const std::string& words : record.readings)
        out.emplace_back(Paragraph{"Reading: " + words});
    for (const std::string& words : record.said)
        out.emplace_back(Paragraph{"Said when it was recorded: " + words});
    for (const std::string& words : record.notes) out.emplace_back(Paragraph{"Note: " + words});
}

std::string formula(const RecordReport& report) {
    switch (report.formula) {
        case RecordReport::Formula::same: return "The formula is today what it was then.";
        case RecordReport::Formula::changed:
            return "The formula has changed since: the last column is what it asks for today, for "
                   "as "
                   "much as was planned.";
        case RecordReport::Formula::unknown: break;
    }
    return "What the formula is today can't be told.";
}

}  // namespace

Document record_document(const RecordReport& report) {
    const Places places(report);
    const Record& record = report.record;
    Document out;
    out.emplace_back(Heading{1, fmt::format("{} · {}", record.day, record.title)});
    if (std::string words = not_whole(record); !words.empty())
        out.emplace_back(Caution{std::move(words)});
    if (!record.code.empty()) out.emplace_back(Paragraph{"Batch number: " + record.code});
    if (!record.by.empty()) out.emplace_back(Paragraph{"Made by: " + record.by});
    out.emplace_back(lines_table(report, places));
    out.emplace_back(Paragraph{yield(report, places)});
    out.emplace_back(Paragraph{formula(report)});
    if (!record.deviations.empty()) {
        out.emplace_back(Heading{2, "Otherwise than planned"});
        out.emplace_back(List{false, record.deviations});
    }
    add_told(out, record);
    return out;
}

std::string_view state_word(const Record& record) {
    if (!record.finished) return "unfinished";
    if (record.joined) return "joined";
    if (record.cut) return "cut";
    if (record.altered) return "altered";
    if (record.damaged) return "damaged";
    return record.stamp.empty() ? "older" : "whole";
}

std::string records_csv(const std::vector<RecordReport>& reports) {
    const auto grams = [](const std::optional<Mass>& mass) {
        return mass ? in_grams(*mass).decimal(6) : std::string();
    };
    std::string out = "day,made,bowl,ingredient,planned,weighed,lots,today,code,state\n";
    for (const RecordReport& report : reports)
        for (const RecordLine& line : report.lines)
            out += fmt::format("{},{},{},{},{},{},{},{},{},{}\n", csv_field(report.record.day),
                               csv_field(report.record.title), csv_field(line.bowl),
                               csv_field(line.name), grams(line.planned), grams(line.weighed),
                               csv_field(joined(line.lots, "; ")), grams(line.today),
                               csv_field(report.record.code), state_word(report.record));
    return out;
}

}  // namespace levigate
