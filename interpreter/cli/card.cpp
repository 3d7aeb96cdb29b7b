// levigate card: the bench page, to weigh by on a phone, a tablet or paper.
#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "interpreter/cli/choice.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/html_card.hpp"

namespace levigate::cli {

extern const Verb card_verb;

namespace {

constexpr std::size_t most_cards = 1000;  // sheets on one page, so that a phone can show it

constexpr Option options[] = {
    {"--shade", "NAME", "this shade only"},
    {"--variant", "NAME", "under this variant"},
    {"--finish", "NAME", "with this finish"},
    {"--batch", "NAME", "this batch only"},
    {"--make", "QUANTITY", "so much, in place of the batches: \"120 g\", \"48 slim tubes\""},
    {"--all", "", "every variant and finish that a shade names"},
    {"--plan", "NAME", "what this plan makes, in its order"},
    {"--reads", "STEP", "what your balance reads in: 0.01g"},
    {"--error", "SHARE", "the error in a line that you take: \"5 %\""},
    {"--usp41", "", "judge by USP <41>, the strictest rule for balances"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

std::string contradiction(const Arguments& arguments) {
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

/// The one choice of the command line, or one for each line of the plan.
struct Asked {
    std::vector<Choice> choices;
    Findings findings;
};

std::string name_at(const Compiled& compiled, Sym sym) {
    return std::string(compiled.names.folded(sym));
}

const Plan* plan_called(const Compiled& compiled, const std::string& name) {
    const Sym sym = compiled.names.find(name);
    for (const Plan& plan : compiled.formulary.plans)
        if (sym != no_name && compiled.names.find(plan.name) == sym) return &plan;
    return nullptr;
}

std::string known_plans(const Compiled& compiled) {
    std::string names;
    for (const Plan& plan : compiled.formulary.plans)
        names += (names.empty() ? "" : ", ") + plan.name;
    return names.empty() ? "There is no plan in it." : fmt::format("Known here: {}.", names);
}

bool can_be_made(const Formulary& formulary, const PlanLine& line) {
    if (line.shade == nothing) return false;
    if (line.size) return !line.size->broken;
    const std::vector<Batch>& batches = formulary.shades[line.shade].batches;
    return std::any_of(batches.begin(), batches.end(),
                       [&](const Batch& batch) { return batch.sym == line.batch; });
}

Asked follow_plan(const Compiled& compiled, const Choice& base, const std::string& name) {
    Asked out;
    const Plan* plan = plan_called(compiled, name);
    if (!plan) {
        out.findings.push_back(
            {"choice-none", Severity::error,
             fmt::format("No plan of this file is called `{}`. {}", name, known_plans(compiled)),
             Span{}});
        return out;
    }
    if (plan->lines.size() > most_cards) {
        out.findings.push_back(
            {"too-many-sheets", Severity::error,
             fmt::format("More than {} sheets would come of {}.", most_cards, plan->name),
             plan->span, "Part it into several plans."});
        return out;
    }
    for (const PlanLine& line : plan->lines) {
        if (!can_be_made(compiled.formulary, line)) continue;  // said already
        Choice choice = base;
        choice.shade = compiled.formulary.shades[line.shade].name;
        if (line.variant != no_name) choice.variant = name_at(compiled, line.variant);
        if (line.finish != no_name) choice.finish = name_at(compiled, line.finish);
        if (line.batch != no_name) choice.batch = name_at(compiled, line.batch);
        choice.make = line.size;
        out.choices.push_back(std::move(choice));
    }
    return out;
}

Outcome<Asked> read_asked(Compiled& compiled, const Arguments& arguments) {
    Outcome<Choice> choice = read_choice(compiled, arguments);
    choice.value.materials = false;
    choice.value.most = most_cards;
    Outcome<Asked> out{{}, std::move(choice.findings)};
    if (auto plan = arguments.get("--plan")) {
        out.value = follow_plan(compiled, choice.value, *plan);
        out.findings.insert(out.findings.end(), out.value.findings.begin(),
                            out.value.findings.end());
    } else {
        out.value.choices.push_back(std::move(choice.value));
    }
    return out;
}

/// The file's own name, without folder and ending; or the plan's.
std::string about(const Arguments& arguments) {
    if (auto plan = arguments.get("--plan")) return *plan;
    return std::filesystem::path(arguments.operands[0]).stem().string();
}

Finding too_long_a_page() {
    return {"too-many-sheets", Severity::error,
            fmt::format("The page would hold more than {} MB, which no phone shows. Choose fewer "
                        "sheets, or one shade at a time with --shade.",
                        largest_page >> 20),
            Span{}};
}

int card(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    if (std::string words = contradiction(arguments); !words.empty())
        return stop(card_verb, arguments, command_wrong, "command-line", words);
    Compiled& compiled = kept(compile(disk_world(), file));
    if (compiled.unreadable)
        return stop(card_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    Outcome<Asked> asked = read_asked(compiled, arguments);
    if (any_error(asked.findings))
        return stop(card_verb, arguments, command_wrong, compiled.sources, asked.findings);
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(card_verb, arguments, file_trouble, "file-unwritable", output.problem());

    Findings findings = std::move(compiled.findings), of_sheets;
    BenchPage page(compiled.formulary);
    for (const Choice& choice : asked.value.choices) {
        Findings outside =
            expand_each(compiled.formulary, compiled.names, choice, [&](Sheet& sheet) {
                page.append(sheet);
                of_sheets.insert(of_sheets.end(), sheet.findings.begin(), sheet.findings.end());
            });
        findings.insert(findings.end(), outside.begin(), outside.end());
    }
    findings.insert(findings.end(), of_sheets.begin(), of_sheets.end());
    if (page.too_long()) {
        findings.push_back(too_long_a_page());
        return stop(card_verb, arguments, recipe_wrong, compiled.sources, each_once(findings));
    }
    std::string out = page.page(about(arguments));
    return finish(arguments, output, out, compiled.sources, each_once(findings));
}

}  // namespace

constexpr Verb card_verb = {
    "card",
    "FILE",
    1,
    1,
    "the bench page: a web page to weigh by, with boxes to tick",
    options,
    "  levigate card orchard.shade -o bench.html\n"
    "  levigate card orchard.shade --shade Damson --finish matte -o damson.html\n"
    "  levigate card orchard.shade --plan \"Autumn launch\" -o launch.html\n",
    "",
    card};

}  // namespace levigate::cli
