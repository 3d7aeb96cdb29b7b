// levigate record: what was really made, added to a file of records; and what stands there.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/cli/append.hpp"
#include "interpreter/cli/one_sheet.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/record/lots.hpp"
#include "interpreter/record/slips.hpp"
#include "interpreter/record/write.hpp"
#include "interpreter/render/record_document.hpp"

namespace levigate::cli {

extern const Verb record_verb;

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
    {"--code", "NUMBER", "the batch's number, as it is on the box: 24-11"},
    {"--note", "TEXT", "what else is to be kept"},
    {"--into", "PATH", "the file of records that this one is added to"},
    {"--read", "PATH", "shows the records in this file, in place of adding one"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|csv|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "what is shown, into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

std::string record_contradiction(const Arguments& arguments) {
    if (arguments.has("--replace") && !arguments.has("-o")) return "--replace needs -o.";
    if (arguments.has("--read")) {
        for (const char* other :
             {"--into", "--weighed", "--by", "--date", "--filled", "--note", "--code"})
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

/// What stands behind the heading's day where no batch is named: a size as it was given, without
/// what a heading can't hold; then the grams it came to.
std::string made_words(const Arguments& arguments, const Sheet& sheet) {
    const std::string size = arguments.get_or("--make", "");
    if (size.find(',') == std::string::npos) return size;
    return in_grams(sheet.total).fixed(sheet.reading.places) + " g";
}

RecordOrder read_record_order(Compiled& compiled, const Arguments& arguments, Findings& findings) {
    RecordOrder order;
    std::string weighed = arguments.get_or("--weighed", "");
    std::replace(weighed.begin(), weighed.end(), '\n', ',');  // given more than once
    order.weighed = take(read_pours(compiled, weighed, "--weighed"), findings);
    order.day = arguments.get_or("--date", "");
    order.code = tidy_name(arguments.get_or("--code", ""));
    order.by = tidy_name(arguments.get_or("--by", ""));
    order.note = tidy_name(arguments.get_or("--note", ""));
    order.filled = tidy_name(arguments.get_or("--filled", ""));
    if (!order.filled.empty())
        order.size = take(read_size(compiled, order.filled, "--filled"), findings);
    return order;
}

/// What is written must read back as it was given. Says what doesn't.
std::string misread(const RecordOrder& order, const std::vector<Record>& back) {
    if (back.size() != 1 || !back[0].finished || back[0].day != order.day) return "--date";
    const Record& record = back[0];
    if (record.by != order.by) return "--by";
    if (record.code != order.code) return "--code";
    if (record.notes !=
        (order.note.empty() ? std::vector<std::string>{} : std::vector<std::string>{order.note}))
        return "--note";
    if (record.filled.has_value() != order.size.has_value()) return "--filled";
    const bool same = std::equal(order.weighed.begin(), order.weighed.end(), record.weighed.begin(),
                                 record.weighed.end(), [](const Pour& a, const Pour& b) {
                                     return a.what == b.what && a.mass == b.mass &&
                                            a.lot == b.lot && a.into == b.into;
                                 });
    return same ? "" : "--weighed";
}

void add(const Findings& more, Findings& findings) {
    findings.insert(findings.end(), more.begin(), more.end());
}

/// A batch's number that the file of records has already.
Findings known_code(Compiled& compiled, const std::string& path, const Record& record) {
    if (record.code.empty()) return {};
    Findings unsaid;  // of other records, told where they are read
    std::vector<Record> all = read_record_file(compiled, path, unsaid).records;
    all.push_back(record);
    return codes_twice(all, all.size() - 1);
}

int show(const Arguments& arguments, Output& output, const Compiled& compiled,
         const std::vector<RecordReport>& reports, const Findings& findings) {
    std::string out;
    if (arguments.json()) {
        out = records_json(compiled.sources, reports, findings);
    } else if (arguments.get_or("--as", "") == "csv") {
        out = records_csv(reports);
    } else {
        for (const RecordReport& report : reports)
            append_document(arguments, out, record_document(report), compiled.sources.isolates());
        if (reports.empty())
            append_document(arguments, out, {document::Paragraph{"Nothing is recorded there."}});
    }
    return finish(arguments, output, out, compiled.sources, findings);
}

int read(const Arguments& arguments, Compiled& compiled) {
    const std::string path = *arguments.get("--read");
    Findings findings = compiled.findings;
    RecordsRead records = read_record_file(compiled, path, findings);
    if (records.unreadable)
        return stop(record_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(path, *records.unreadable)});
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(record_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    Sym wanted = no_name;
    if (auto shade = arguments.get("--shade")) wanted = compiled.names.intern(*shade);
    add(codes_twice(records.records, 0), findings);
    std::erase_if(records.records, [&](const Record& record) {
        if (!record.finished) return true;
        return wanted != no_name &&
               (record.shade == nothing || compiled.formulary.shades[record.shade].sym != wanted);
    });
    const auto reports = report_on(compiled.formulary, compiled.names, std::move(records.records));
    for (const RecordReport& report : reports)
        add(filled_over(compiled.formulary, report), findings);
    return show(arguments, output, compiled, reports, findings);
}

int write(const Arguments& arguments, Compiled& compiled) {
    const Formulary& formulary = compiled.formulary;
    Findings asked;
    RecordOrder order = read_record_order(compiled, arguments, asked);
    if (any_error(asked))
        return stop(record_verb, arguments, command_wrong, compiled.sources, asked);
    Findings findings = compiled.findings;
    auto sheet = one_sheet(compiled, arguments, findings);
    if (!sheet) return stop(record_verb, arguments, recipe_wrong, compiled.sources, findings);
    order.made = made_words(arguments, *sheet);
    order.sheet = std::move(*sheet);
    order.formula = fingerprint(formulary, compiled.names, order.sheet);
    place_pours(formulary, planned_pours(formulary, order.sheet), order.weighed);
    const std::string text = record_text(formulary, order);
    auto back = read_records(compiled, "the record", text);
    if (any_error(back.findings))
        return stop(record_verb, arguments, command_wrong, compiled.sources, back.findings);
    if (const std::string option = misread(order, back.value); !option.empty())
        return stop(record_verb, arguments, command_wrong, Code::command_line,
                    fmt::format("What stands behind {} would read otherwise in the record. Leave "
                                "out double quotes, and a # between blanks.",
                                option));
    auto reports = report_on(formulary, compiled.names, std::move(back.value));
    RecordReport given = reports[0];  // as it was given: in these steps, by volume or weighed
    given.step = order.sheet.reading.step;
    given.record.weighed = order.weighed;
    if (order.size) given.record.filled->span = order.size->span;
    const Findings filled = filled_over(formulary, given);
    if (any_error(filled))
        return stop(record_verb, arguments, command_wrong, compiled.sources, filled);
    add(filled, findings);
    add(lots_over(formulary, compiled.names, order.weighed), findings);
    add(lots_past(formulary, compiled.names, order.weighed, order.day), findings);
    add(known_code(compiled, *arguments.get("--into"), given.record), findings);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(record_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    if (std::string problem = append_block(*arguments.get("--into"), text); !problem.empty())
        return stop(record_verb, arguments, file_trouble, Code::file_unwritable, problem);
    return show(arguments, output, compiled, reports, findings);
}

int run_record(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (std::string words = record_contradiction(arguments); !words.empty())
        return stop(record_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file));
    if (compiled.unreadable)
        return stop(record_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    return arguments.has("--read") ? read(arguments, compiled) : write(arguments, compiled);
}

}  // namespace

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
    "  levigate record orchard.shade --read records.shade\n",
    "records",
    run_record};

}  // namespace levigate::cli
