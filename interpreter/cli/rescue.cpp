// levigate rescue: what to add to a bowl that too much went into.
#include <algorithm>
#include <sstream>

#include <fmt/format.h>

#include "interpreter/cli/one_sheet.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/rescue_document.hpp"
#include "interpreter/rescue/rescue.hpp"

namespace levigate::cli {

extern const Verb rescue_verb;

namespace {

constexpr Option rescue_options[] = {
    {"--shade", "NAME", "the shade that the bowl was meant for"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "the batch that was planned: no less comes out, where that can be"},
    {"--make", "QUANTITY", "so much was planned, in place of a batch"},
    {"--poured", "AMOUNTS",
     "what is in the bowl: \"6.2 g soft base, 1.4 g Windfall mica\"; once for each pour, as it "
     "happened; - is nothing",
     "", true},
    {"--weighed", "FILE", "what is in the bowl: as the last record of this shade tells"},
    {"--room", "WEIGHT", "the bowl holds no more than this: \"20 g\""},
    {"--have", "AMOUNTS", "there is no more than this to add: \"3 g soft base\""},
    {"--add", "WHAT", "nothing: nothing more can go in", "nothing"},
    {"--market", "REGIONS", "judge colourants by these rules: US,EU"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

bool is_blank(const std::string& text) { return text.find_first_not_of(" \t\n") == text.npos; }

std::string rescue_contradiction(const Arguments& arguments) {
    if (arguments.has("--make") && arguments.has("--batch"))
        return "--make stands in place of a batch, so --batch can't stand beside it.";
    if (!arguments.has("--poured") && !arguments.has("--weighed"))
        return "What is in the bowl? --poured \"6.2 g soft base, …\", or --poured - for nothing.";
    if (arguments.has("--poured") && is_blank(arguments.get_or("--poured", "")))
        return "Behind --poured stands nothing. What is in the bowl? \"6.2 g soft base, …\", or - "
               "where it is empty.";
    if (arguments.has("--poured") && arguments.has("--weighed"))
        return "--weighed tells what is in the bowl, so --poured can't stand beside it.";
    if (arguments.has("--add") && (arguments.has("--room") || arguments.has("--have")))
        return "--add nothing says that nothing more can go in, so neither --room nor --have can "
               "stand beside it.";
    if (arguments.has("--replace") && !arguments.has("-o")) return "--replace needs -o.";
    return {};
}

bool is_nothing(const std::string& text) {
    const std::size_t first = text.find_first_not_of(" \t");
    return first != text.npos && text[first] == '-' &&
           text.find_first_not_of(" \t", first + 1) == text.npos;
}

/// What went into the bowl of a blend is not in the shade's.
void find_elsewhere(const Compiled& compiled, const std::vector<Pour>& pours, Findings& findings) {
    for (const Pour& pour : pours)
        if (pour.into != no_ingredient)
            findings.push_back(
                {Code::pour_foreign,
                 fmt::format("{} went into {}, which is a bowl of its own.", pour.name,
                             compiled.formulary.name(pour.into)),
                 pour.span,
                 "Write what is in the shade's own bowl. A blend that went into it counts as one "
                 "pour."});
}

/// The chain of pours behind each --poured.
std::vector<std::vector<Pour>> poured(Compiled& compiled, const Arguments& arguments,
                                      Findings& findings) {
    std::vector<std::vector<Pour>> out;
    std::stringstream all(arguments.get_or("--poured", ""));
    for (std::string one; std::getline(all, one);) {
        if (is_nothing(one)) continue;
        out.push_back(take(read_pours(compiled, one, "--poured"), findings));
        find_elsewhere(compiled, out.back(), findings);
    }
    return out;
}

/// What the command line says of the bowl. The product comes later.
RescueOrder read_rescue_order(Compiled& compiled, const Arguments& arguments, Findings& findings) {
    RescueOrder order;
    order.poured = poured(compiled, arguments, findings);
    if (auto text = arguments.get("--have"))
        order.there = take(read_pours(compiled, *text, "--have"), findings);
    if (auto text = arguments.get("--room"))
        order.room = take(read_mass(compiled, *text, "--room"), findings);
    order.markets = markets(arguments, compiled.names);
    return order;
}

/// The last record of this product: what went into the shade's own bowl. False where there is none.
bool pour_as_recorded(const Formulary& formulary, const std::vector<Record>& records,
                      RescueOrder& order, Findings& findings) {
    const Record* last = nullptr;
    for (const Record& record : records)
        if (is_record_of(formulary, record, order.product)) last = &record;
    if (!last) {
        findings.push_back({Code::choice_none, "No record of this shade is there.", Span{},
                            "Say what is in the bowl with --poured."});
        return false;
    }
    order.poured.emplace_back();
    for (const Pour& pour : last->weighed)
        if (pour.bowl.empty()) order.poured.back().push_back(pour);
    return true;
}

std::optional<Rescue> make_rescue(Compiled& compiled, const Arguments& arguments, RescueOrder order,
                                  const std::vector<Record>& records, Findings& findings) {
    auto sheet = one_sheet(compiled, arguments, findings, false);
    if (!sheet) return std::nullopt;
    order.product = std::move(*sheet);
    order.sized = arguments.has("--batch") || arguments.has("--make");
    if (arguments.has("--weighed") &&
        !pour_as_recorded(compiled.formulary, records, order, findings))
        return std::nullopt;
    if (arguments.has("--add")) {
        order.room = Mass();
        for (const auto& pours : order.poured)
            for (const Pour& pour : pours) *order.room += pour.mass;
    }
    return take(rescue(compiled.formulary, compiled.names, order), findings);
}

/// A bowl that is saved has its size: no larger batch helps, and no blend.
void say_what_helps(Findings& findings) {
    for (Finding& finding : findings)
        if (finding.code == Code::weigh_least || finding.code == Code::weigh_nothing)
            advise(finding,
                   "Weigh it on a finer balance. Or mix 1 part of it well with 9 parts of another "
                   "line that is added, take ten times the amount of the mixture, and leave out "
                   "nine times the amount of that line.");
}

int run_rescue(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    std::string words = rescue_contradiction(arguments);
    if (words.empty()) words = wrong_markets(arguments);
    if (!words.empty())
        return stop(rescue_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file, Library::with_rules));
    if (compiled.unreadable)
        return stop(rescue_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Findings asked;
    RecordsRead records;
    if (auto path = arguments.get("--weighed")) {
        records = read_record_file(compiled, *path, compiled.findings);
        if (records.unreadable)
            return stop(rescue_verb, arguments, file_trouble, compiled.sources,
                        {unreadable(*path, *records.unreadable)});
    }
    RescueOrder order = read_rescue_order(compiled, arguments, asked);
    if (any_error(asked))
        return stop(rescue_verb, arguments, command_wrong, compiled.sources, asked);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(rescue_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    Findings findings = std::move(compiled.findings);
    findings.insert(findings.end(), asked.begin(), asked.end());
    const auto made = make_rescue(compiled, arguments, std::move(order), records.records, findings);
    say_what_helps(findings);
    std::string out;
    Cautions cautions(compiled.formulary);
    if (arguments.json())
        out = rescue_json(compiled.formulary, compiled.sources, made, findings);
    else if (made)
        append_document(arguments, out, rescue_document(compiled.formulary, *made, cautions),
                        compiled.sources.isolates());
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb rescue_verb = {
    "rescue",
    "FILE",
    1,
    1,
    "what to add to a bowl that too much went into",
    rescue_options,
    "  levigate rescue orchard.shade --shade Quince --batch trial \\\n"
    "      --poured \"6.2 g soft base, 1.4 g Windfall mica\"\n"
    "  levigate rescue orchard.shade --shade Quince --poured \"6.2 g soft base\" \\\n"
    "      --poured \"1.4 g Windfall mica\" --room \"7.7 g\"\n"
    "  levigate rescue orchard.shade --shade Quince --poured \"2 g Windfall mica\" \\\n"
    "      --have \"3 g soft base\"\n",
    "rescues",
    run_rescue};

}  // namespace levigate::cli
