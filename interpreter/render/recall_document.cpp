#include <algorithm>

#include <fmt/format.h>

#include "interpreter/render/csv.hpp"
#include "interpreter/render/record_document.hpp"

namespace levigate {
namespace {

using namespace document;

std::string looked_for(const RecallOrder& order) {
    if (order.lot.empty()) return "Batch " + order.batch;
    return order.of.empty() ? "Lot " + order.lot : fmt::format("{}, lot {}", order.of, order.lot);
}

std::string batch_name(const Record& record) {
    std::string out = record.code.empty() ? "no number" : record.code;
    if (!record.stamp.empty()) out += fmt::format(" [{}]", record.stamp);
    if (!record.shown()) return out + ", not whole";
    return record.whole() ? out : fmt::format("{}, {}", out, state_word(record));
}

/// The batches that were asked for, or those that hold it.
std::vector<std::size_t> chosen(const Recall& recall, bool itself) {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < recall.batches.size(); ++i)
        if (recall.batches[i].itself == itself) out.push_back(i);
    return out;
}

Table batches(const Recall& recall, const std::vector<RecordReport>& reports,
              const std::vector<std::size_t>& which) {
    Table table;
    table.columns = {{"batch"}, {"day"}, {"made"}, {"filled"}, {"edition"}};
    for (const std::size_t i : which) {
        const RecordReport& report = reports[i];
        std::string edition = recall.in_edition[i] ? recall.edition : "";
        if (!edition.empty() && !recall.edition_date.empty()) edition += ", " + recall.edition_date;
        table.rows.push_back({batch_name(report.record), report.record.day, report.record.title,
                              report.filled.empty() ? "not recorded" : report.filled,
                              edition.empty() ? "–" : edition});
    }
    return table;
}

List ways(const Recall& recall, const std::vector<RecordReport>& reports,
          const std::vector<std::size_t>& which) {
    List out;
    for (const std::size_t i : which)
        for (const std::string& way : recall.batches[i].ways)
            out.items.push_back(fmt::format("{}: {}", batch_name(reports[i].record), way));
    return out;
}

void add_list(Document& out, std::string heading, const std::vector<std::string>& items) {
    if (items.empty()) return;
    out.emplace_back(Heading{2, std::move(heading)});
    out.emplace_back(List{false, items});
}

std::string count_words(std::size_t count, bool more, std::size_t doubtful) {
    if (count == 0 && doubtful > 0)
        return more ? "It went into no other batch that can be read."
                    : "No batch that can be read holds it.";
    if (count == 0) return more ? "It went into no other batch." : "No recorded batch holds it.";
    return fmt::format("{} {}{} {} it:", count, more ? "other " : "",
                       count == 1 ? "batch" : "batches", count == 1 ? "holds" : "hold");
}

}  // namespace

Document recall_document(const Recall& recall, const std::vector<RecordReport>& reports) {
    Document out;
    const auto itself = chosen(recall, true), holding = chosen(recall, false);
    out.emplace_back(Heading{1, looked_for(recall.order)});
    if (recall.order.lot.empty() && itself.empty()) {
        out.emplace_back(Paragraph{"No record has this batch number."});
        return out;
    }
    if (!itself.empty()) out.emplace_back(batches(recall, reports, itself));
    out.emplace_back(Paragraph{count_words(holding.size(), !itself.empty(), recall.doubtful)});
    if (!holding.empty()) {
        out.emplace_back(batches(recall, reports, holding));
        out.emplace_back(Heading{2, "How it came there"});
        out.emplace_back(ways(recall, reports, holding));
    }
    if (recall.doubtful > 0)
        out.emplace_back(Paragraph{
            "Some of what is recorded can't be read whole, and may hold it too: see the "
            "findings."});
    add_list(out, "Also made of it", recall.others);
    add_list(out, "On the shelf", recall.shelf);
    return out;
}

std::string recall_csv(const Recall& recall, const std::vector<RecordReport>& reports) {
    std::string out = "day,made,code,stamp,filled,edition,edition_date,state,ways\n";
    for (std::size_t i = 0; i < reports.size(); ++i) {
        const Record& record = reports[i].record;
        std::string way;
        for (const std::string& one : recall.batches[i].ways) way += way.empty() ? one : "; " + one;
        const bool goes = recall.in_edition[i];
        out += fmt::format("{},{},{},{},{},{},{},{},{}\n", csv_field(record.day),
                           csv_field(record.title), csv_field(record.code), record.stamp,
                           csv_field(reports[i].filled), csv_field(goes ? recall.edition : ""),
                           goes ? recall.edition_date : "", state_word(record), csv_field(way));
    }
    return out;
}

}  // namespace levigate
