// levigate check: everything that is wrong in files and in all that they use.
#include <algorithm>
#include <deque>

#include "interpreter/cli/folder.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/check_report.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/rules/lips.hpp"

namespace levigate::cli {

extern const Verb check_verb;

namespace {

constexpr Option check_options[] = {
    {"--market", "REGIONS", "judge colourants by these rules: US,EU"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

struct File {
    Compiled compiled;
    CheckReport report;
};

void append(Findings& to, Findings from) {
    to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

void check_file(const std::string& file, const Arguments& arguments, File& checked) {
    checked.compiled = compile(disk_world(), file, Library::with_rules);
    Compiled& compiled = checked.compiled;
    Findings findings = compiled.findings;
    Verdicts verdicts;
    if (compiled.unreadable) {
        findings.push_back(unreadable(file, *compiled.unreadable));
    } else {
        Choice choice;
        choice.words = choice.materials = false;
        LipJudge judge(compiled.formulary, compiled.names, markets(arguments, compiled.names));
        auto [more, judged] = check_all(compiled.formulary, compiled.names, choice,
                                        [&](const Product& product) { judge.add(product); });
        append(findings, std::move(more));
        append(findings, judge.findings());
        verdicts = std::move(judged);
        // In the order of the lines, whichever sheet each came from.
        std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
            if (a.span.source != b.span.source) return a.span.source < b.span.source;
            return a.span.begin < b.span.begin;
        });
    }
    checked.report = check_report(file, compiled.sources, compiled.formulary, findings, verdicts);
}

std::string in_words(const Arguments& arguments, const std::deque<File>& all) {
    std::string out;
    for (const File& file : all) append_document(arguments, out, check_document(file.report));
    return out;
}

int check(const Arguments& arguments) {
    if (std::string words = wrong_markets(arguments); !words.empty())
        return stop(check_verb, arguments, command_wrong, "command-line", words);
    static std::deque<File> all;  // left to the system in the end, as kept() does
    int status = done;
    std::vector<std::string> read;
    for (const std::string& file : arguments.operands) {
        check_file(file, arguments, all.emplace_back());
        const File& checked = all.back();
        if (any_error(checked.report.findings)) status = std::max<int>(status, recipe_wrong);
        if (checked.compiled.unreadable) status = file_trouble;
        for (std::string& path : files_read(checked.compiled)) read.push_back(std::move(path));
    }
    append(all.back().report.findings, same_names(arguments.operands));
    Output output = Output::open(arguments, read);
    if (!output.problem().empty())
        return stop(check_verb, arguments, file_trouble, "file-unwritable", output.problem());
    std::vector<CheckReport> reports;
    std::string said;
    for (const File& checked : all) {
        reports.push_back(checked.report);
        said += findings_text(checked.compiled.sources, checked.report.findings,
                              finding_style(arguments));
    }
    if (!arguments.json()) say(said);
    std::string out = arguments.json() ? checks_json(reports) : in_words(arguments, all);
    if (output.finish(out)) return status;
    say_problem(output);
    return file_trouble;
}

}  // namespace

constexpr Verb check_verb = {"check",
                             "FILE…",
                             1,
                             10000,
                             "everything that is wrong in files and in what they use",
                             check_options,
                             "  levigate check orchard.shade\n"
                             "  levigate check *.shade --brief\n"
                             "  levigate check orchard.shade --market US,EU\n"
                             "  levigate check orchard.shade --as json\n",
                             "files",
                             check};

}  // namespace levigate::cli
