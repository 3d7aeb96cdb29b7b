// levigate share: an edition for others, proved before it goes out.
#include <sstream>
#include <variant>

#include <fmt/format.h>

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/query/edition_as.hpp"
#include "interpreter/share/share.hpp"

namespace levigate::cli {

extern const Verb share_verb;

namespace {

constexpr Option share_options[] = {
    {"--shade", "NAMES", "these shades and families only, with commas between them"},
    {"--title", "TEXT", "its title, in place of the file's own"},
    {"--edition", "NUMBER", "its number, in place of the file's own"},
    {"--date", "DAY", "its day, in place of the file's own: 2026-10-01"},
    {"--since", "FILES", "earlier editions, with commas between them: what they tell is counted"},
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
    const std::size_t slash = file.rfind('/') + 1;  // 0 where there is none
    order.otherwise = file.substr(slash, file.find('.', slash + 1) - slash);
    return order;
}

EditionForm form_of(const Arguments& arguments) {
    const std::string as = arguments.get_or("--as", "shade");
    if (as == "markdown") return EditionForm::markdown;
    if (as == "html") return EditionForm::html;
    if (as == "csv") return EditionForm::csv;
    return as == "json" ? EditionForm::json : EditionForm::shade;
}

/// Earlier editions, compiled; or the status of a run that ends here, said.
std::variant<std::vector<const Compiled*>, int> read_since(const Arguments& arguments) {
    std::vector<const Compiled*> out;
    const auto list = arguments.get("--since");
    for (std::size_t at = 0; list && at <= list->size();) {
        const std::size_t comma = std::min(list->find(',', at), list->size());
        const std::string path = tidy_name(std::string_view(*list).substr(at, comma - at));
        at = comma + 1;
        if (path.empty())
            return stop(share_verb, arguments, command_wrong, Code::command_line,
                        "A file is missing in the list after --since.");
        const Compiled& one = kept(compile(disk_world(), path));
        if (one.unreadable)
            return stop(share_verb, arguments, file_trouble, one.sources,
                        {unreadable(path, *one.unreadable)});
        if (!one.formulary.edition || any_error(one.findings))
            return stop(share_verb, arguments, command_wrong, Code::command_line,
                        fmt::format("\"{}\" is no edition as `share` writes it, so nothing can be "
                                    "counted of it.",
                                    path));
        out.push_back(&one);
    }
    return out;
}

int share(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (arguments.has("--replace") && !arguments.has("-o"))
        return stop(share_verb, arguments, command_wrong, Code::command_line,
                    "--replace needs -o.");
    ShareOrder order = read_order(arguments, file);
    if (std::string words = wrong_order(order); !words.empty())
        return stop(share_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file, Library::with_rules));
    if (compiled.unreadable)
        return stop(share_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(share_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    auto since = read_since(arguments);
    if (const int* status = std::get_if<int>(&since)) return *status;
    order.since = std::get<std::vector<const Compiled*>>(std::move(since));
    Findings findings = compiled.findings;
    if (any_error(findings))
        return stop(share_verb, arguments, recipe_wrong, compiled.sources, each_once(findings));
    Outcome<Shared> shared = share_edition(compiled, order);
    findings.insert(findings.end(), shared.findings.begin(), shared.findings.end());
    if (any_error(shared.findings))
        return stop(share_verb, arguments, recipe_wrong, compiled.sources, each_once(findings));
    std::optional<std::string> out = edition_as(shared.value, form_of(arguments));
    if (!out)
        return stop(share_verb, arguments, recipe_wrong, Code::too_many_sheets,
                    "The page would hold more than any phone shows. Share fewer shades, one at a "
                    "time with --shade.");
    // In the object they would go out with it.
    if (arguments.json())
        say(findings_text(compiled.sources, findings, finding_style(arguments)));
    return finish(arguments, output, *out, compiled.sources, findings);
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
