// levigate share: an edition for others, proved before it goes out.
#include <sstream>

#include <fmt/format.h>

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/csv.hpp"
#include "interpreter/render/edition_document.hpp"
#include "interpreter/render/html_card.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/text.hpp"
#include "interpreter/rules/label.hpp"
#include "interpreter/share/share.hpp"

namespace levigate::cli {

extern const Verb share_verb;

namespace {

constexpr Option share_options[] = {
    {"--shade", "NAMES", "these shades and families only, with commas between them"},
    {"--title", "TEXT", "its title, in place of the file's own"},
    {"--edition", "NUMBER", "its number, in place of the file's own"},
    {"--date", "DAY", "its day, in place of the file's own: 2026-10-01"},
    {"--as", "FORM", "how it is written; a shade file where nothing is said",
     "shade|markdown|html|csv|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

ShareOrder read_order(const Arguments& arguments, const std::string& file) {
    ShareOrder order;
    std::stringstream list(arguments.get_or("--shade", ""));
    for (std::string name; std::getline(list, name, ',');)
        if (name = tidy_name(name); !name.empty()) order.shades.push_back(name);
    order.title = arguments.get("--title");
    order.number = arguments.get("--edition");
    order.date = arguments.get("--date");
    order.rules = arguments.get_or("--as", "") == "markdown";
    const std::size_t slash = file.rfind('/') + 1;  // 0 where there is none
    order.otherwise = file.substr(slash, file.find('.', slash + 1) - slash);
    return order;
}

/// What `weigh --all` makes of the edition.
template <typename Writer>
std::string written_sheets(Writer writer, const Compiled& edition, Choice choice,
                           Findings findings) {
    std::string out;
    writer.open(out);
    Findings outside = expand_each(edition.formulary, edition.names, choice,
                                   [&](Sheet& sheet) { writer.append(sheet, out); });
    // Their places are in the source, which the edition doesn't show.
    for (Finding& one : findings) {
        one.span = {};
        one.notes.clear();
        for (Fix& fix : one.fixes) fix.span = {};
    }
    findings.insert(findings.end(), outside.begin(), outside.end());
    writer.close(findings, out);
    return out;
}

std::string page_of(const Compiled& edition, Choice choice) {
    std::vector<Sheet> sheets;
    expand_each(edition.formulary, edition.names, choice,
                [&](Sheet& sheet) { sheets.push_back(sheet); });
    Labeller labeller(edition.formulary, edition.names, {});
    each_product(edition.formulary, edition.names, choice,
                 [&](const Product& product) { labeller.add(product); });
    const BoxLabels labels = labeller.make();
    std::string out;
    append_markdown(out, edition_document(edition.formulary, sheets, labels.labels),
                    edition.sources.isolates());
    return out;
}

/// To weigh by. Findings stay at home: they quote the source.
std::string bench_page_of(const Compiled& edition, Choice choice) {
    BenchPage page(edition.formulary);
    choice.words = true;
    expand_each(edition.formulary, edition.names, choice, [&](Sheet& sheet) {
        sheet.findings.clear();
        page.append(sheet);
    });
    if (page.too_long()) return {};
    return page.page(edition.formulary.edition->title, edition.sources.isolates());
}

std::string written(const Arguments& arguments, const Shared& shared, const Findings& findings) {
    const std::string as = arguments.get_or("--as", "shade");
    const Compiled& edition = shared.edition;
    Choice choice;
    choice.all = true;
    choice.words = false;
    choice.materials = as == "json";
    if (as == "csv") return written_sheets(CsvWriter(edition.formulary), edition, choice, {});
    if (as == "json")
        return written_sheets(SheetsJson(edition.formulary, edition.sources), edition, choice,
                              findings);
    if (as == "html") return bench_page_of(edition, choice);
    return as == "markdown" ? page_of(edition, choice) : shared.text;
}

int share(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (arguments.has("--replace") && !arguments.has("-o"))
        return stop(share_verb, arguments, command_wrong, Code::command_line,
                    "--replace needs -o.");
    const ShareOrder order = read_order(arguments, file);
    if (std::string words = wrong_order(order); !words.empty())
        return stop(share_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file, Library::with_rules));
    if (compiled.unreadable)
        return stop(share_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(share_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    Findings findings = compiled.findings;
    if (any_error(findings))
        return stop(share_verb, arguments, recipe_wrong, compiled.sources, each_once(findings));
    Outcome<Shared> shared = share_edition(compiled, order);
    findings.insert(findings.end(), shared.findings.begin(), shared.findings.end());
    if (any_error(shared.findings))
        return stop(share_verb, arguments, recipe_wrong, compiled.sources, each_once(findings));
    std::string out = written(arguments, shared.value, findings);
    if (out.empty())
        return stop(share_verb, arguments, recipe_wrong, Code::too_many_sheets,
                    "The page would hold more than any phone shows. Share fewer shades, one at a "
                    "time with --shade.");
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb share_verb = {
    "share",
    "FILE",
    1,
    1,
    "an edition for others: stands alone, and keeps secrets",
    share_options,
    "  levigate share orchard.shade -o orchard-3.shade\n"
    "  levigate share orchard.shade --shade \"Quince, Damson\" --edition 3 --date 2026-10-01\n"
    "  levigate share orchard.shade --as markdown -o orchard-3.md --replace\n"
    "  levigate share orchard.shade --as html -o orchard-3.html\n",
    "sheets",
    share};

}  // namespace levigate::cli
