// levigate check: everything that is wrong in files and in all that they use.
#include <algorithm>
#include <deque>

#include "interpreter/cli/folder.hpp"
#include "interpreter/cli/mend.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/query/mended.hpp"
#include "interpreter/render/check_report.hpp"
#include "interpreter/render/difference.hpp"
#include "interpreter/render/json.hpp"

namespace levigate::cli {

extern const Verb check_verb;

namespace {

constexpr Option check_options[] = {
    {"--market", "REGIONS", "judge colourants by these rules: US,EU"},
    {"--mend", "", "make the fixes that are certain, and show the others"},
    {"--diff", "", "with --mend: write nothing; show what would change"},
    {"--print", "", "with --mend: write nothing; print the file with its fixes"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

struct File {
    CheckedFile checked;
    CheckReport report;
};

CheckReport report_of(const std::string& path, const CheckedFile& file) {
    Findings findings = file.findings;
    const Compiled& compiled = file.compiled;
    if (compiled.unreadable) findings.push_back(unreadable(path, *compiled.unreadable));
    return check_report(path, compiled.sources, compiled.formulary, findings, file.verdicts);
}

/// Why these options can't be followed together; empty where they can.
std::string check_contradiction(const Arguments& arguments) {
    const bool diff = arguments.has("--diff"), print = arguments.has("--print");
    if ((diff || print) && !arguments.has("--mend")) return "--diff and --print need --mend.";
    if (diff && print) return "Use only one of --diff and --print.";
    if ((diff || print) && arguments.json())
        return "--diff and --print write text, so --as json can't be used with them.";
    if (print && arguments.operands.size() != 1) return "--print takes one file.";
    return wrong_markets(arguments);
}

std::string check_words(const Arguments& arguments, const std::deque<File>& all) {
    std::string out;
    for (const File& file : all) append_document(arguments, out, check_document(file.report));
    return out;
}

/// With `--mend`: what would be written, or else is written at once. The status.
int mend_all(const Arguments& arguments, std::deque<File>& all, std::string& shown_text) {
    const bool only_shown = arguments.has("--diff") || arguments.has("--print");
    int status = done;
    std::vector<Mended> mendings;
    for (const std::string& path : arguments.operands) {
        Mended& one = mendings.emplace_back(mended(disk_world(), path, regions(arguments)));
        if (one.unreadable()) continue;
        if (arguments.has("--print"))
            shown_text += one.text();
        else if (arguments.has("--diff"))
            shown_text += unified_difference(shown(path), one.text_before(), one.text());
        else if (!write_mended(path, one)) {
            status = file_trouble;
            one.made.clear();
            one.after = checked(disk_world(), path, regions(arguments));
        }
    }
    // What one file says may have changed with another, so that all are asked again.
    for (std::size_t i = 0; i < mendings.size(); ++i) {
        const std::string& path = arguments.operands[i];
        File& file = all.emplace_back();
        file.checked = only_shown || mendings.size() == 1
                           ? std::move(mendings[i].after)
                           : checked(disk_world(), path, regions(arguments));
        file.report = report_of(path, file.checked);
        add_mending(mendings[i], file.report);
    }
    return status;
}

int check(const Arguments& arguments) {
    if (std::string words = check_contradiction(arguments); !words.empty())
        return stop(check_verb, arguments, command_wrong, Code::command_line, words);
    static std::deque<File> all;  // left to the system in the end, as kept() does
    int status = done;
    std::string out;
    if (arguments.has("--mend")) {
        status = mend_all(arguments, all, out);
    } else {
        for (const std::string& path : arguments.operands) {
            File& file = all.emplace_back();
            file.checked = checked(disk_world(), path, regions(arguments));
            file.report = report_of(path, file.checked);
        }
    }
    std::vector<std::string> read;
    for (const File& file : all) {
        if (any_error(file.report.findings)) status = std::max<int>(status, recipe_wrong);
        if (file.checked.compiled.unreadable) status = file_trouble;
        for (std::string& path : files_read(file.checked.compiled)) read.push_back(std::move(path));
    }
    const Findings alike = same_names(arguments.operands);
    Findings& last = all.back().report.findings;
    last.insert(last.end(), alike.begin(), alike.end());
    Output output = Output::open(arguments, read);
    if (!output.problem().empty())
        return stop(check_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    std::vector<CheckReport> reports;
    std::string said;
    FindingStyle style = finding_style(arguments);
    style.fixes = arguments.has("--mend");
    for (const File& file : all) {
        reports.push_back(file.report);
        said += findings_text(file.checked.compiled.sources, file.report.findings, style);
    }
    if (!arguments.json()) say(said);
    if (arguments.json())
        out = checks_json(reports);
    else if (!arguments.has("--diff") && !arguments.has("--print"))
        out = check_words(arguments, all);
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
                             "  levigate check orchard.shade --mend --diff\n"
                             "  levigate check orchard.shade --as json\n",
                             "files",
                             check};

}  // namespace levigate::cli
