// levigate shades: what a file holds, at a glance.
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/overview.hpp"

namespace levigate::cli {

extern const Verb shades_verb;

namespace {

constexpr Option shades_options[] = {
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

int shades(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    Compiled compiled = compile(disk_world(), file);
    if (compiled.unreadable)
        return stop(shades_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(shades_verb, arguments, file_trouble, Code::file_unwritable, output.problem());

    Choice choice;
    choice.all = true;
    choice.words = choice.materials = choice.expectations = false;
    Overviews overviews(compiled.formulary);
    Findings of_sheets;
    const Findings outside =
        expand_each(compiled.formulary, compiled.names, choice, [&](const Sheet& sheet) {
            overviews.add(sheet);
            of_sheets.insert(of_sheets.end(), sheet.findings.begin(), sheet.findings.end());
        });
    Findings findings = std::move(compiled.findings);
    findings.insert(findings.end(), outside.begin(), outside.end());
    findings.insert(findings.end(), of_sheets.begin(), of_sheets.end());
    findings = each_once(findings);
    const std::vector<ShadeOverview> overview = overviews.take();
    std::string out;
    if (arguments.json())
        out = overview_json(compiled.sources, overview, findings);
    else
        append_document(arguments, out, overview_document(overview), compiled.sources.isolates());
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb shades_verb = {"shades",
                              "FILE",
                              1,
                              1,
                              "every shade of a file, its totals, and what it is made of",
                              shades_options,
                              "  levigate shades orchard.shade\n"
                              "  levigate shades orchard.shade --as markdown -o overview.md\n",
                              "shades",
                              shades};

}  // namespace levigate::cli
