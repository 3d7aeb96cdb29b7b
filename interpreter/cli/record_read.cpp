// `levigate record … --read PATH`: what is recorded, and with --find where a lot or a batch went.
#include <algorithm>
#include <set>
#include <sstream>

#include "interpreter/cli/lost_records.hpp"
#include "interpreter/cli/one_sheet.hpp"
#include "interpreter/cli/record_verb.hpp"
#include "interpreter/record/slips.hpp"

namespace levigate::cli {

namespace {

/// The records of all files behind --read; `unreadable` says which can't be read.
std::vector<Record> read_all(const Arguments& arguments, Compiled& compiled, Findings& findings,
                             Findings& unread) {
    std::vector<Record> out;
    std::set<std::string> seen;
    std::stringstream paths(arguments.get_or("--read", ""));
    for (std::string path; std::getline(paths, path);) {
        Findings met;
        RecordsRead read = read_record_file(compiled, path, met);
        if (read.unreadable) {
            unread = {unreadable(path, *read.unreadable)};
            return out;
        }
        find_lost_records(path, compiled.sources[read.source].text, read.source, met);
        findings.insert(findings.end(), met.begin(), met.end());
        // Files may overlap, as an archive does: a record that is whole counts once.
        for (Record& record : read.records)
            if (!record.whole() || record.stamp.empty() || seen.insert(record.stamp).second)
                out.push_back(std::move(record));
    }
    return out;
}

/// It says of a record that some of it can't be read, so that what is looked for may be there.
bool spoils_a_record(const Finding& finding) {
    return finding.severity == Severity::error || finding.code == Code::record_unfinished ||
           finding.code == Code::record_altered || finding.code == Code::record_gone;
}

/// The reports of the batches that were found, in their order.
std::vector<RecordReport> found_reports(Compiled& compiled, const Recall& found,
                                        const std::vector<Record>& records) {
    std::vector<Record> chosen;
    for (const Recalled& one : found.batches) chosen.push_back(records[one.record]);
    return report_on(compiled.formulary, compiled.names, std::move(chosen));
}

}  // namespace

int read_records_of(const Arguments& arguments, Compiled& compiled) {
    Findings findings = compiled.findings, unread;
    std::vector<Record> records = read_all(arguments, compiled, findings, unread);
    if (!unread.empty())
        return stop(record_verb, arguments, file_trouble, compiled.sources, unread);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(record_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    const Findings twice = codes_twice(records, 0);
    findings.insert(findings.end(), twice.begin(), twice.end());
    if (const auto what = arguments.get("--find")) {
        Recall found = recall(compiled.formulary, records, recall_order(*what));
        const auto of_records =
            findings.begin() + static_cast<std::ptrdiff_t>(compiled.findings.size());
        found.doubtful = static_cast<std::size_t>(
            std::count_if(of_records, findings.end(), spoils_a_record));
        const auto reports = found_reports(compiled, found, records);
        return show_records(arguments, output, compiled, reports, findings, &found);
    }
    Sym wanted = no_name;
    if (auto shade = arguments.get("--shade")) wanted = compiled.names.intern(*shade);
    std::erase_if(records, [&](const Record& record) {
        if (!record.shown()) return true;
        return wanted != no_name &&
               (record.shade == nothing || compiled.formulary.shades[record.shade].sym != wanted);
    });
    const auto reports = report_on(compiled.formulary, compiled.names, std::move(records));
    for (const RecordReport& report : reports) {
        const Findings filled = filled_over(compiled.formulary, report);
        findings.insert(findings.end(), filled.begin(), filled.end());
    }
    return show_records(arguments, output, compiled, reports, findings);
}

}  // namespace levigate::cli
