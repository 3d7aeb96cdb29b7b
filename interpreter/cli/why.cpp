// levigate why: where a number comes from.
#include "interpreter/query/why.hpp"

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/query/why_document.hpp"

namespace levigate::cli {

extern const Verb why_verb;

namespace {

constexpr Option why_options[] = {
    {"--batch", "NAME", "this batch only"},
    {"--make", "QUANTITY", "so much, in place of the batches"},
    {"--as", "FORM", "how it is written; text where nothing is said", "text|markdown|json"},
    {"--brief", "", "findings on one line each"},
    {"--colour", "WHEN", "colour in findings", "auto|always|never"},
    {"-o", "PATH", "into this file, whole or not at all; - is standard output"},
    {"--replace", "", "even where that file is there already"},
};

/// `Quince / matte` may come as one word or as several; the last operand is the ingredient.
WhyQuestion read_question(const Arguments& arguments) {
    WhyQuestion question;
    for (std::size_t i = 1; i + 1 < arguments.operands.size(); ++i) {
        if (!question.shade.empty()) question.shade += ' ';
        question.shade += arguments.operands[i];
    }
    question.ingredient = arguments.operands.back();
    question.batch = arguments.get("--batch");
    return question;
}

int why_run(const Arguments& arguments) {
    const std::string& file = arguments.operands[0];
    Compiled compiled = compile(disk_world(), file);
    if (compiled.unreadable)
        return stop(why_verb, arguments, file_trouble, compiled.sources,
                    {unreadable(file, *compiled.unreadable)});
    WhyQuestion question = read_question(arguments);
    if (auto text = arguments.get("--make")) {
        auto size = read_size(compiled, *text, "--make");
        if (any_error(size.findings))
            return stop(why_verb, arguments, command_wrong, compiled.sources, size.findings);
        question.make = size.value;
    }
    Output output = Output::open(arguments, files_read(compiled));
    if (!output.problem().empty())
        return stop(why_verb, arguments, file_trouble, Code::file_unwritable, output.problem());
    auto answer = why(compiled, question);
    Findings findings = std::move(compiled.findings);
    for (Finding& finding : answer.findings) findings.push_back(std::move(finding));
    std::string out;
    if (arguments.json())
        out = why_json(compiled.sources, answer.value, findings);
    else if (answer.value)
        append_document(arguments, out, why_document(compiled.sources, *answer.value),
                        compiled.sources.isolates());
    return finish(arguments, output, out, compiled.sources, findings);
}

}  // namespace

constexpr Verb why_verb = {"why",
                           "FILE SHADE[ / VARIANT][ / FINISH] INGREDIENT",
                           3,
                           60,
                           "where a number comes from, line by line",
                           why_options,
                           "  levigate why orchard.shade Quince \"copper mica\"\n"
                           "  levigate why orchard.shade \"Damson / matte\" kaolin --batch trial\n"
                           "  levigate why orchard.shade '\"Night / Day\" / matte' kaolin\n",
                           "sections",
                           why_run};

}  // namespace levigate::cli
