// levigate label: what stands on the box.
#include <fmt/format.h>

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/label_document.hpp"
#include "interpreter/render/label_json.hpp"
#include "interpreter/rules/label.hpp"

namespace levigate::cli {

extern const Verb label_verb;

namespace {

constexpr Option label_options[] = {
    {"--shade", "NAME", "this shade only"},
    {"--family", "NAME", "the shades of this family, under one list"},
    {"--range", "", "one list for all shades that are chosen"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "this batch only"},
    {"--all", "", "every variant and finish that a shade names"},
    {"--market", "REGIONS", "as these regions ask for: US,EU"},
    {"--sources", "", "each rule that is not confirmed, with what was read and where"},
    {"--code", "TEXT", "the batch code to print"},
    {"--opened", "TEXT", "how long it keeps once opened, to print: 12M"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all"},
    {"--replace", "", "even where that file is there already"},
};

Choice read_choice(const Arguments& arguments) {
    Choice choice;
    choice.family = arguments.get("--family");
    choice.shade = arguments.get("--shade");
    choice.variant = arguments.get("--variant");
    choice.finish = arguments.get("--finish");
    choice.batch = arguments.get("--batch");
    choice.all = arguments.has("--all");
    choice.words = choice.expectations = false;
    choice.density = true;
    return choice;
}

BoxLabels make_labels(Compiled& compiled, const Arguments& arguments) {
    const Choice choice = read_choice(arguments);
    LabelOrder order{markets(arguments, compiled.names),
                     arguments.has("--range") || choice.family.has_value(), no_name};
    if (choice.batch) order.batch = compiled.names.find(*choice.batch);
    Labeller labeller(compiled.formulary, compiled.names, std::move(order));
    Findings outside = each_product(compiled.formulary, compiled.names, choice,
                                    [&](const Product& product) { labeller.add(product); });
    BoxLabels out = labeller.make();
    outside.insert(outside.end(), out.findings.begin(), out.findings.end());
    out.findings = std::move(outside);
    return out;
}

std::string in_words(const Arguments& arguments, const Compiled& compiled,
                     const std::vector<BoxLabel>& labels, const LabelWords& words) {
    std::string out;
    for (const BoxLabel& label : labels)
        append_document(arguments, out, label_document(compiled.formulary, label, words),
                        compiled.sources.isolates());
    append_document(
        arguments, out,
        {document::Paragraph{labels.empty() ? "There is no label to print." : label_closing()}});
    return out;
}

int label(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (arguments.has("--replace") && !arguments.has("-o"))
        return stop(label_verb, arguments, command_wrong, Code::command_line,
                    "--replace needs -o.");
    if (std::string words = wrong_markets(arguments); !words.empty())
        return stop(label_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file, Library::with_rules));
    if (compiled.unreadable)
        return stop(label_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(label_verb, arguments, file_trouble, Code::file_unwritable, output.problem());

    Findings findings = std::move(compiled.findings);
    const BoxLabels made = make_labels(compiled, arguments);
    findings.insert(findings.end(), made.findings.begin(), made.findings.end());
    findings = each_once(findings);
    const LabelWords words{arguments.get_or("--batch", ""), arguments.get_or("--code", ""),
                           arguments.get_or("--opened", ""), arguments.has("--sources")};
    std::string out = arguments.json() ? labels_json(compiled.formulary, compiled.sources,
                                                     made.labels, words, findings)
                                       : in_words(arguments, compiled, made.labels, words);
    for (const BoxLabel& one : made.labels)
        findings.insert(findings.end(), one.findings.begin(), one.findings.end());
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb label_verb = {
    "label",
    "FILE",
    1,
    1,
    "the ingredient lists and net contents for the box",
    label_options,
    "  levigate label orchard.shade --market US,EU\n"
    "  levigate label orchard.shade --shade Damson --finish matte --batch full\n"
    "  levigate label orchard.shade --family \"Quince ladder\" --market EU\n"
    "  levigate label orchard.shade --range --all --as markdown -o labels.md\n",
    "labels",
    label};

}  // namespace levigate::cli
