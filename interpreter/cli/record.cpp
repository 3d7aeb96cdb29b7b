// levigate record: what was really made, added to a file of records; and what is there.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/cli/record_verb.hpp"
#include "interpreter/render/record_document.hpp"

namespace levigate::cli {

namespace {

constexpr Option record_options[] = {
    {"--shade", "NAME", "the shade that was made"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "the batch that was planned"},
    {"--make", "QUANTITY", "so much was planned, in place of a batch"},
    {"--weighed", "AMOUNTS",
     "what was weighed: \"85.31 g soft base lot 24-117, 19 g Windfall mica\"; behind `, in NAME` "
     "the blend that it went into",
     "", true},
    {"--by", "NAME", "who made it"},
    {"--date", "DAY", "when: 2026-11-25"},
    {"--filled", "QUANTITY", "what came out: \"47 slim tubes\""},
    {"--made", "AMOUNTS", "what else came of it, with its lot: \"12 g Windfall mica lot W-1\"", "",
     true},
    {"--code", "NUMBER",
     "the batch's number, as it is on the box: 24-11; `next` takes the year's next number"},
    {"--note", "TEXT", "what else is to be kept"},
    {"--into", "PATH", "the file of records that this one is added to"},
    {"--read", "PATH", "shows the records in this file, in place of adding one", "", true},
    {"--find", "WHAT",
     "where a lot went, or a batch, in these records: \"lot L-204\", \"soft base lot L-204\", "
     "24-11"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|csv|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "what is shown, into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

std::string record_contradiction(const Arguments& arguments) {
    if (arguments.has("--replace") && !arguments.has("-o")) return "--replace needs -o.";
    if (arguments.has("--find") && !arguments.has("--read"))
        return "--find needs --read: in which file of records is it to be found?";
    if (arguments.has("--find") && arguments.has("--shade"))
        return "--find looks through the records of all shades, so --shade can't stand beside it.";
    if (arguments.has("--find") && arguments.get_or("--find", "").empty())
        return "Behind --find a lot or a batch's number is due: --find \"lot L-204\".";
    if (arguments.has("--read")) {
        for (const char* other :
             {"--into", "--weighed", "--by", "--date", "--filled", "--note", "--code", "--made"})
            if (arguments.has(other))
                return fmt::format("--read shows what is recorded, so {} can't stand beside it.",
                                   other);
        return {};
    }
    for (const char* needed : {"--weighed", "--by", "--date", "--into"})
        if (!arguments.has(needed))
            return fmt::format("A record needs {}; with --read FILE records are shown.", needed);
    if (arguments.has("--make") == arguments.has("--batch"))
        return "What was planned? A record needs --batch or --make, one of them.";
    return {};
}

/// Why no record is shown.
std::string nothing_words(const Findings& findings) {
    const bool broken = std::any_of(findings.begin(), findings.end(), [](const Finding& one) {
        return one.code == Code::record_joined || one.code == Code::record_unfinished ||
               one.code == Code::record_cut;
    });
    return broken ? "No record can be shown: what is there is not whole."
                  : "Nothing is recorded there.";
}

int run_record(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (std::string words = record_contradiction(arguments); !words.empty())
        return stop(record_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file));
    if (compiled.unreadable)
        return stop(record_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    return arguments.has("--read") ? read_records_of(arguments, compiled)
                                   : write_record(arguments, compiled);
}

}  // namespace

int show_records(const Arguments& arguments, Output& output, const Compiled& compiled,
                 const std::vector<RecordReport>& reports, const Findings& findings,
                 const Recall* recall) {
    std::string out;
    const bool csv = arguments.get_or("--as", "") == "csv";
    if (arguments.json()) {
        out = records_json(compiled.sources, reports, findings, recall);
    } else if (csv) {
        out = recall ? recall_csv(*recall, reports) : records_csv(reports);
    } else if (recall) {
        append_document(arguments, out, recall_document(*recall, reports),
                        compiled.sources.isolates());
        for (std::size_t i = 0; i < reports.size(); ++i)
            if (recall->batches[i].itself)
                append_document(arguments, out, record_document(reports[i]),
                                compiled.sources.isolates());
    } else {
        for (const RecordReport& report : reports)
            append_document(arguments, out, record_document(report), compiled.sources.isolates());
        if (reports.empty())
            append_document(arguments, out, {document::Paragraph{nothing_words(findings)}});
    }
    return finish(arguments, output, out, compiled.sources, findings);
}

constexpr Verb record_verb = {
    "record",
    "FILE",
    1,
    1,
    "keeps what was really weighed and filled, and shows it",
    record_options,
    "  levigate record orchard.shade --shade Quince --finish satin --batch full \\\n"
    "      --weighed \"171.7 g soft base lot 24-117, 38.1 g Windfall mica\" \\\n"
    "      --filled \"47 slim tubes\" --by Ines --date 2026-11-25 --into records.shade\n"
    "  levigate record orchard.shade --read records.shade\n"
    "  levigate record orchard.shade --read records.shade --find \"lot L-204\"\n",
    "records",
    run_record};

}  // namespace levigate::cli
