// levigate plan: all batches of a plan together, against the shelf.
#include <fmt/format.h>

#include "interpreter/cli/choice.hpp"
#include "interpreter/cli/choose_plans.hpp"
#include "interpreter/cli/money_words.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/plan/plan.hpp"
#include "interpreter/render/findings_json.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/plan_sheet.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate::cli {

extern const Verb plan_verb;

namespace {

constexpr Option plan_options[] = {
    {"--reads", "STEP", "what your balance reads in: 0.01g"},
    {"--error", "SHARE", "the error in a line that you take: \"5 %\""},
    {"--usp41", "", "judge by USP <41>, the strictest rule for balances"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|csv|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

std::string written(const Arguments& arguments, const Compiled& compiled,
                    const std::vector<Planned>& plans, const Findings& findings) {
    const Formulary& formulary = compiled.formulary;
    const std::string form = arguments.get_or("--as", "text");
    std::string out;
    if (form == "csv") {
        out = plan_csv_head();
        for (const Planned& plan : plans) append_plan_csv(out, formulary, plan);
    } else if (form == "json") {
        out = "{\"format\": \"levigate plan 1\",\n \"plans\": [";
        for (const Planned& plan : plans)
            out += (&plan == &plans.front() ? "\n  " : ",\n  ") +
                   plan_json(formulary, compiled.sources, plan);
        out += "],\n \"findings\": " + findings_array(compiled.sources, findings) + "}\n";
    } else {
        Cautions cautions(formulary);
        for (const Planned& plan : plans)
            append_document(arguments, out, plan_document(formulary, plan, cautions),
                            compiled.sources.isolates());
        append_document(arguments, out,
                        plans.empty()
                            ? document::Document{document::Paragraph{"There is nothing to plan."}}
                            : sheets_closing());
    }
    return out;
}

int plan(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (arguments.has("--replace") && !arguments.has("-o"))
        return stop(plan_verb, arguments, command_wrong, Code::command_line, "--replace needs -o.");
    Compiled& compiled = kept(compile(disk_world(), file));
    if (compiled.unreadable)
        return stop(plan_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    const Outcome<Choice> choice = read_choice(compiled, arguments);
    if (any_error(choice.findings))
        return stop(plan_verb, arguments, command_wrong, compiled.sources, choice.findings);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(plan_verb, arguments, file_trouble, Code::file_unwritable, output.problem());

    Findings findings = std::move(compiled.findings);
    const std::string name = arguments.operands.size() > 1 ? arguments.operands[1] : "";
    std::vector<Lack> lacking;
    std::vector<Planned> plans;
    for (const Plan* one : choose_plans(compiled, name, findings)) {
        plans.push_back(make_plan(compiled.formulary, compiled.names, *one, choice.value.reading,
                                  choice.value.strict));
        note_lacking(compiled.formulary, plans.back().lacking, lacking);
    }
    if (!lacking.empty()) findings.push_back(lacking_finding(compiled.formulary, lacking));
    std::string out = written(arguments, compiled, plans, findings);
    for (const Planned& one : plans)
        findings.insert(findings.end(), one.findings.begin(), one.findings.end());
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb plan_verb = {
    "plan",
    "FILE [NAME]",
    1,
    2,
    "the batches of a plan together: shared bowls, lots, what to buy",
    plan_options,
    "  levigate plan orchard.shade\n"
    "  levigate plan orchard.shade \"Autumn launch\" --as markdown -o autumn.md\n"
    "  levigate plan orchard.shade --as csv\n",
    "plans",
    plan};

}  // namespace levigate::cli
