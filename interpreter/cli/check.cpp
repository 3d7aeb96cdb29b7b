// levigate check: everything that is wrong in files and in all that they use.
#include <algorithm>
#include <deque>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "interpreter/cli/folder.hpp"
#include "interpreter/cli/mend.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/query/mended.hpp"
#include "interpreter/query/since.hpp"
#include "interpreter/render/check_report.hpp"
#include "interpreter/render/difference.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/text.hpp"

namespace levigate::cli {

extern const Verb check_verb;

namespace {

constexpr Option check_options[] = {
    {"--market", "REGIONS", "judge colourants by these rules: US,EU"},
    {"--for", "WHOM", "look at what `share` would say as well", "members"},
    {"--since", "VERSION", "what means something else now, or is refused: 0.1"},
    {"--sources", "", "each rule that is not confirmed, with what was read and where"},
    {"--mend", "", "correct what is certain in the files; list the rest"},
    {"--diff", "", "with --mend: write nothing; show what would change"},
    {"--print", "", "with --mend: write nothing; print the file with its fixes"},
    {"--as", "FORM", "form of the output; text if not given", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

struct File {
    CheckedFile own;
    const CheckedFile* checked = nullptr;  ///< `own`, or that of a mended file
    CheckReport report;
};

CheckReport report_of(const std::string& path, const CheckedFile& file) {
    Findings findings = file.findings;
    const Compiled& compiled = file.compiled;
    if (compiled.unreadable) findings.push_back(unreadable(path, *compiled.unreadable));
    return check_report(path, compiled.sources, compiled.formulary, findings, file.verdicts);
}

bool shows_text(const Arguments& arguments) {
    return arguments.has("--diff") || arguments.has("--print");
}

/// Why these options can't be followed together; empty where they can.
std::string check_contradiction(const Arguments& arguments) {
    const bool diff = arguments.has("--diff"), print = arguments.has("--print");
    if (arguments.has("--mend") && (arguments.has("--for") || arguments.has("--since")))
        return "--mend corrects files, so --for and --since can't be used with it.";
    if (const std::string since = arguments.get_or("--since", ""); arguments.has("--since")) {
        const auto known = versions_before();
        if (std::find(known.begin(), known.end(), since) == known.end())
            return fmt::format("--since takes a version before this one: {}.",
                               fmt::join(known, ", "));
    }
    if ((diff || print) && !arguments.has("--mend")) return "--diff and --print need --mend.";
    if (diff && print) return "Use only one of --diff and --print.";
    if ((diff || print) && arguments.json())
        return "--diff and --print write text, so --as json can't be used with them.";
    if (print && arguments.operands.size() != 1) return "--print takes one file.";
    return wrong_markets(arguments);
}

std::string check_words(const Arguments& arguments, const std::deque<File>& all) {
    std::string out;
    for (const File& file : all)
        append_document(arguments, out, check_document(file.report),
                        file.checked->compiled.sources.isolates());
    return out;
}

void look_at_all(const Arguments& arguments, std::deque<File>& all) {
    const World disk = disk_world();
    for (const std::string& path : arguments.operands) {
        File& file = all.emplace_back();
        const CheckAlso also{arguments.has("--for"), arguments.get_or("--since", "")};
        file.own = checked(disk, path, regions(arguments), also);
        hold_promises(disk, path, regions(arguments), file.own);
        file.checked = &file.own;
        file.report = report_of(path, file.own);
    }
}

void tell_mended(const std::vector<MendedFile>& mendings, std::deque<File>& all) {
    for (const MendedFile& one : mendings) {
        File& file = all.emplace_back();
        file.checked = &one.after;
        file.report = report_of(one.path, one.after);
        if (!one.unreadable()) add_mending(one, file.report);
    }
}

/// Writes the mended files, or shows them in `out`. What can't be written stays as it was, and is
/// reported so.
int put_mended(const Arguments& arguments, const std::vector<MendedFile>& mendings,
               std::deque<File>& all, std::string& out) {
    int status = done;
    for (std::size_t i = 0; i < mendings.size(); ++i) {
        const MendedFile& one = mendings[i];
        if (one.unreadable()) continue;
        if (arguments.has("--print")) {
            out += one.text();
        } else if (arguments.has("--diff")) {
            out += unified_difference(shown(one.path), one.text_before(), one.text());
        } else if (std::string problem = write_mended(one); !problem.empty()) {
            status = file_trouble;
            all[i].checked = &one.as_read();
            all[i].report = report_of(one.path, one.as_read());
            all[i].report.findings.push_back(
                {.code = Code::file_unwritable, .message = std::move(problem), .span = {}});
        }
    }
    return status;
}

/// What the place and the words of a finding are, whichever FILE it was found from: shades that a
/// remark on a material is followed by are that FILE's.
std::string key_of(const CheckedFile& file, const Finding& finding) {
    const Sources& sources = file.compiled.sources;
    std::string words = finding.message;
    if (finding.severity != Severity::error) words = words.substr(0, words.find(" It is in: "));
    // One slip of a shared page is told of each shade that takes it, by its name.
    const bool shared = finding.span.source != 0;
    for (const Shade& shade : file.compiled.formulary.shades)
        if (const std::size_t at =
                shared && !shade.name.empty() ? words.find(shade.name) : std::string::npos;
            at != std::string::npos)
            words.replace(at, shade.name.size(), "*");
    const bool known = finding.span.source < sources.size();
    return fmt::format("{}:{}:{} {} {}", known ? sources[finding.span.source].name : "",
                       finding.span.begin, finding.span.end, row_of(finding.code).name, words);
}

/// Takes out what an earlier FILE said already: one slip of a page that many of them use.
Findings said_first(const CheckedFile& file, Findings findings, std::set<std::string>& said) {
    std::vector<std::string> new_ones;
    std::erase_if(findings, [&](const Finding& finding) {
        if (!finding.span) return false;
        new_ones.push_back(key_of(file, finding));
        return said.count(new_ones.back()) > 0;
    });
    said.insert(new_ones.begin(), new_ones.end());
    return findings;
}

bool unconfirmed(const Finding& finding) { return finding.code == Code::rule_unconfirmed; }

/// The rules that no text of the law confirms, of several files: told once.
struct Rules {
    Findings findings;
    const Sources* sources = nullptr;  ///< of the first
    std::ptrdiff_t files = 0;

    void take(const Sources& of, Findings& from) {
        if (!sources && std::any_of(from.begin(), from.end(), unconfirmed)) sources = &of;
        std::copy_if(from.begin(), from.end(), std::back_inserter(findings), unconfirmed);
        std::erase_if(from, unconfirmed);
    }
    std::string text(const FindingStyle& style) const {
        if (findings.empty()) return {};
        Findings once = rules_together(findings);
        std::string& words = once.front().message;
        constexpr std::string_view here = "used here";
        if (const std::size_t at = words.find(here); at != std::string::npos)
            words.replace(at, here.size(), fmt::format("used in {} of these files", files));
        return findings_text(*sources, once, style);
    }
};

/// What is wrong, for people; with --diff and --print also what was left, which has no other place.
std::string said_of(const Arguments& arguments, const std::deque<File>& all) {
    FindingStyle style = finding_style(arguments);
    style.fixes = arguments.has("--mend");
    std::string said;
    std::set<std::string> before;
    Rules rules;
    for (const File& file : all) {
        const Sources& sources = file.checked->compiled.sources;
        Findings findings = each_once(file.report.findings);
        rules.files += std::any_of(findings.begin(), findings.end(), unconfirmed);
        findings = said_first(*file.checked, std::move(findings), before);
        if (all.size() > 1 && !style.sources) rules.take(sources, findings);
        said += findings_text(sources, findings, style);
        if (shows_text(arguments))
            append_text(said, left_document(file.report), sources.isolates());
    }
    return said + rules.text(style);
}

int check(const Arguments& arguments) {
    if (std::string words = check_contradiction(arguments); !words.empty())
        return stop(check_verb, arguments, command_wrong, Code::command_line, words);
    static std::deque<File> all;  // left to the system in the end, as kept() does
    static std::vector<MendedFile> mendings;
    if (arguments.has("--mend")) {
        mendings = mended(disk_world(), arguments.operands, regions(arguments));
        tell_mended(mendings, all);
    } else {
        look_at_all(arguments, all);
    }
    std::vector<std::string> read;
    for (const File& file : all)
        for (std::string& path : files_read(file.checked->compiled))
            read.push_back(std::move(path));
    // Before any file is written: the report must have a place to go to.
    Output output = Output::open(arguments, read);
    if (!output.problem().empty())
        return stop(check_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    std::string out;
    int status = put_mended(arguments, mendings, all, out);
    const Findings alike = same_names(arguments.operands);
    Findings& last = all.back().report.findings;
    last.insert(last.end(), alike.begin(), alike.end());
    std::vector<CheckReport> reports;
    for (const File& file : all) {
        if (any_error(file.report.findings)) status = std::max<int>(status, recipe_wrong);
        if (file.checked->compiled.unreadable) status = file_trouble;
        reports.push_back(file.report);
    }
    if (!arguments.json()) say(said_of(arguments, all));
    if (arguments.json())
        out = checks_json(reports);
    else if (!shows_text(arguments))
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
                             "  levigate check orchard.shade --for members\n"
                             "  levigate check orchard.shade --since 0.1\n"
                             "  levigate check orchard.shade --mend --diff\n"
                             "  levigate check orchard.shade --as json\n",
                             "files",
                             check};

}  // namespace levigate::cli
