// `levigate record … --into PATH`: one record more.
#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "grammar/stamped.hpp"
#include "interpreter/cli/append.hpp"
#include "interpreter/cli/lost_records.hpp"
#include "interpreter/cli/one_sheet.hpp"
#include "interpreter/cli/record_verb.hpp"
#include "interpreter/record/lots.hpp"
#include "interpreter/record/slips.hpp"
#include "interpreter/record/write.hpp"

namespace levigate::cli {

namespace {

namespace fs = std::filesystem;

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
    std::string made = arguments.get_or("--made", "");
    std::replace(made.begin(), made.end(), '\n', ',');
    if (!made.empty()) order.others = take(read_made(compiled, made, "--made"), findings);
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
    const bool made =
        std::equal(order.others.begin(), order.others.end(), record.made.begin(), record.made.end(),
                   [](const Made& a, const Made& b) {
                       return a.what == b.what && a.lot == b.lot && a.amount == b.amount;
                   });
    if (!made) return "--made";
    if (record.filled.has_value() != order.size.has_value()) return "--filled";
    const bool same = std::equal(order.weighed.begin(), order.weighed.end(), record.weighed.begin(),
                                 record.weighed.end(), [](const Pour& a, const Pour& b) {
                                     return a.what == b.what && a.mass == b.mass &&
                                            a.lot == b.lot && a.into == b.into;
                                 });
    return same ? "" : "--weighed";
}

/// Findings that are said of the record as it was given.
Findings said_of(const Compiled& compiled, const RecordOrder& order) {
    Findings out = lots_over(compiled.formulary, compiled.names, order.weighed);
    const Findings past = lots_past(compiled.formulary, compiled.names, order.weighed, order.day);
    out.insert(out.end(), past.begin(), past.end());
    return out;
}

/// Why no record is to be added there, by the paths alone.
std::string wrong_path(const Arguments& arguments, const Compiled& compiled) {
    const std::string into = arguments.get_or("--into", "");
    if (into == "-")
        return "Records are added to a file, and - is none. Name a file of records behind --into.";
    std::error_code error;
    for (const std::string& path : files_read(compiled))
        if (fs::equivalent(into, path, error) && !error)
            return fmt::format("\"{}\" holds the recipes that are read here, so no record is added "
                               "to it. Name a file of records behind --into.",
                               into);
    const std::string out = arguments.get_or("-o", "-");
    if (out != "-" && fs::weakly_canonical(fs::absolute(out), error) ==
                          fs::weakly_canonical(fs::absolute(into), error))
        return fmt::format("-o and --into both name \"{}\". What is shown would be written over "
                           "the records, so nothing is recorded.",
                           into);
    return {};
}

/// What is there beside records, where the record would be lost among it.
std::string wrong_text(const std::string& path, std::string_view text) {
    const std::string other = heading_beside_records(text);
    if (other.empty()) return {};
    return fmt::format("\"{}\" holds more than records (`{}`), so no record is added to it. Name "
                       "a file of records behind --into.",
                       path, shown(other));
}

/// Checks a record as it was given; what is wrong is in `findings`, or in words.
struct Checked {
    Findings findings;
    std::string words;
};
Checked check(Compiled& compiled, const RecordOrder& order) {
    Checked out;
    auto back = read_records(compiled, "the record", record_text(compiled.formulary, order));
    out.findings = std::move(back.findings);
    if (any_error(out.findings)) return out;
    if (const std::string option = misread(order, back.value); !option.empty()) {
        out.words = fmt::format("The text after {} would be read back differently from the record. "
                                "Leave out double quotes, and a # between blanks.",
                                option);
        return out;
    }
    RecordReport given = report_on(compiled.formulary, compiled.names, std::move(back.value))[0];
    given.step = order.sheet.reading.step;  // as it was given: in these steps, by volume or weighed
    given.record.weighed = order.weighed;
    if (order.size) given.record.filled->span = order.size->span;
    out.findings = filled_over(compiled.formulary, given);
    return out;
}

/// `--code next`: the next number of the year.
bool is_next(const std::string& code) { return code == "next"; }

int add_record(const Arguments& arguments, Compiled& compiled, RecordOrder order,
               Findings findings) {
    const std::string path = *arguments.get("--into");
    const auto unwritable = [&](const std::string& problem) {
        return stop(record_verb, arguments, file_trouble, Code::file_unwritable,
                    problem + " Nothing is recorded.");
    };
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty()) return unwritable(output.problem());
    Appending into(path);
    if (!into.problem().empty()) return unwritable(into.problem());
    if (std::string words = wrong_text(path, into.text()); !words.empty())
        return stop(record_verb, arguments, command_wrong, Code::command_line, words);
    // What is wrong with other records is told where they are read.
    std::vector<Record> all = read_records(compiled, path, into.text()).value;
    if (is_next(order.code)) order.code = next_code(order.day, all);
    const std::string block =
        stamped(record_text(compiled.formulary, order), into.text(), place_words(path));
    std::vector<Record> back = read_records(compiled, "the record", block).value;
    const std::string kept = fmt::format("The record is kept in \"{}\", with the stamp [{}]. Don't "
                                         "enter it again.\n",
                                         shown(path), back.at(0).stamp);
    all.push_back(back[0]);
    const Findings twice = codes_twice(all, all.size() - 1);
    findings.insert(findings.end(), twice.begin(), twice.end());
    const auto reports = report_on(compiled.formulary, compiled.names, std::move(back));
    if (!into.add(block)) return unwritable(into.problem());
    const int status = show_records(arguments, output, compiled, reports, findings);
    // Whatever went wrong besides.
    if (!output.problem().empty() || status != done) say(kept);
    return status;
}

}  // namespace

int write_record(const Arguments& arguments, Compiled& compiled) {
    Findings asked;
    RecordOrder order = read_record_order(compiled, arguments, asked);
    if (any_error(asked))
        return stop(record_verb, arguments, command_wrong, compiled.sources, asked);
    Findings findings = compiled.findings;
    auto sheet = one_sheet(compiled, arguments, findings);
    if (!sheet) return stop(record_verb, arguments, recipe_wrong, compiled.sources, findings);
    order.made = made_words(arguments, *sheet);
    order.sheet = std::move(*sheet);
    order.formula = fingerprint(compiled.formulary, compiled.names, order.sheet);
    place_pours(compiled.formulary, planned_pours(compiled.formulary, order.sheet), order.weighed);
    if (std::string words = wrong_path(arguments, compiled); !words.empty())
        return stop(record_verb, arguments, command_wrong, Code::command_line, words);
    const Checked checked = check(compiled, order);
    if (!checked.words.empty())
        return stop(record_verb, arguments, command_wrong, Code::command_line, checked.words);
    if (any_error(checked.findings))
        return stop(record_verb, arguments, command_wrong, compiled.sources, checked.findings);
    findings.insert(findings.end(), checked.findings.begin(), checked.findings.end());
    const Findings said = said_of(compiled, order);
    findings.insert(findings.end(), said.begin(), said.end());
    return add_record(arguments, compiled, std::move(order), std::move(findings));
}

}  // namespace levigate::cli
