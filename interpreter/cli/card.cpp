// levigate card: the bench page, to weigh by on a phone, a tablet or paper.
#include <filesystem>

#include <fmt/format.h>

#include "interpreter/cli/choice.hpp"
#include "interpreter/cli/choose_plans.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/plan/plan.hpp"
#include "interpreter/render/html_card.hpp"

namespace levigate::cli {

extern const Verb card_verb;

namespace {

constexpr std::size_t most_cards = 1000;  // sheets on one page, so that a phone can show it

constexpr Option card_options[] = {
    {"--shade", "NAME", "this shade only"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "this batch only"},
    {"--make", "QUANTITY", "so much, in place of the batches: \"120 g\", \"48 slim tubes\""},
    {"--all", "", "every variant and finish that a shade names"},
    {"--plan", "[NAME]", "a plan's batches together, with what they share in one bowl"},
    {"--reads", "STEP", "what your balance reads in: 0.01g"},
    {"--error", "SHARE", "the error in a line that you take: \"5 %\""},
    {"--usp41", "", "judge by USP <41>, the strictest rule for balances"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

std::string card_contradiction(const Arguments& arguments) {
    if (arguments.has("--make") && arguments.has("--batch"))
        return "--make stands in place of the batches, so --batch can't stand beside it.";
    if (arguments.has("--plan"))
        for (std::string_view other :
             {"--shade", "--variant", "--finish", "--batch", "--make", "--all"})
            if (arguments.has(other))
                return fmt::format("A plan says itself what is made: {} can't stand beside --plan.",
                                   other);
    if (arguments.has("--replace") && !arguments.has("-o")) return "--replace needs -o.";
    return {};
}

/// The file's own name, without folder and ending; or the plan's, where it is one.
std::string about(const Arguments& arguments, const std::vector<const Plan*>& plans) {
    if (plans.size() == 1) return plans.front()->name;
    return std::filesystem::path(arguments.operands[0]).stem().string();
}

Finding too_long_a_page() {
    return {Code::too_many_sheets,
            fmt::format("The page would hold more than {} MB, which no phone shows. Choose fewer "
                        "sheets, or one shade at a time with --shade.",
                        largest_page >> 20),
            Span{}};
}

void append_sheets(const Compiled& compiled, const Choice& choice, BenchPage& page,
                   Findings& findings) {
    Findings of_sheets;
    Findings outside = expand_each(compiled.formulary, compiled.names, choice, [&](Sheet& sheet) {
        page.append(sheet);
        of_sheets.insert(of_sheets.end(), sheet.findings.begin(), sheet.findings.end());
    });
    findings.insert(findings.end(), outside.begin(), outside.end());
    findings.insert(findings.end(), of_sheets.begin(), of_sheets.end());
}

/// The batches of each plan together, as `plan` makes them.
void append_plans(const Compiled& compiled, const Choice& choice,
                  const std::vector<const Plan*>& plans, BenchPage& page, Findings& findings) {
    for (const Plan* plan : plans) {
        const Planned made =
            make_plan(compiled.formulary, compiled.names, *plan, choice.reading, choice.strict);
        page.append(made);
        findings.insert(findings.end(), made.findings.begin(), made.findings.end());
    }
}

int card(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (std::string words = card_contradiction(arguments); !words.empty())
        return stop(card_verb, arguments, command_wrong, Code::command_line, words);
    Compiled& compiled = kept(compile(disk_world(), file));
    if (compiled.unreadable)
        return stop(card_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Outcome<Choice> choice = read_choice(compiled, arguments);
    choice.value.materials = false;
    choice.value.most = most_cards;
    if (any_error(choice.findings))
        return stop(card_verb, arguments, command_wrong, compiled.sources, choice.findings);
    std::vector<const Plan*> plans;
    if (const auto name = arguments.get("--plan")) {
        Findings none;
        plans = choose_plans(compiled, *name, none);
        if (plans.empty()) {
            say(findings_text(compiled.sources, none, finding_style(arguments)));
            return recipe_wrong;
        }
    }
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(card_verb, arguments, file_trouble, Code::file_unwritable, output.problem());

    Findings findings = std::move(compiled.findings);
    BenchPage page(compiled.formulary);
    if (plans.empty())
        append_sheets(compiled, choice.value, page, findings);
    else
        append_plans(compiled, choice.value, plans, page, findings);
    if (page.too_long()) {
        findings.push_back(too_long_a_page());
        return stop(card_verb, arguments, recipe_wrong, compiled.sources, each_once(findings));
    }
    std::string out = page.page(about(arguments, plans), compiled.sources.isolates());
    return finish(arguments, output, out, compiled.sources, each_once(findings), !page.empty());
}

}  // namespace

constexpr Verb card_verb = {
    "card",
    "FILE",
    1,
    1,
    "the bench page: a web page to weigh by, with boxes to tick",
    card_options,
    "  levigate card orchard.shade -o bench.html\n"
    "  levigate card orchard.shade --shade Damson --finish matte -o damson.html\n"
    "  levigate card orchard.shade --plan \"Autumn launch\" -o launch.html\n",
    "",
    card};

}  // namespace levigate::cli
