#include "interpreter/cli/choice.hpp"

#include <fmt/format.h>

#include "interpreter/cli/money_words.hpp"

namespace levigate::cli {
namespace {

/// Takes the value, and keeps what was found on the way.
template <typename Read>
auto taken(Read&& read, Findings& findings) {
    findings.insert(findings.end(), read.findings.begin(), read.findings.end());
    return std::move(read.value);
}

void read_onto(Compiled& compiled, const std::string& text, Outcome<Choice>& out) {
    auto read = read_bulk(compiled, text, "--onto");
    for (Finding& finding : read.findings) {
        show_example(finding, "15 g");
        if (finding.code == Code::quantity_bare || finding.code == Code::quantity_kind)
            finding.message = "How much bulk is there? Its weight or its volume is due here.";
    }
    out.value.onto = taken(read, out.findings);
}

void read_reads(Compiled& compiled, const std::string& text, Outcome<Choice>& out) {
    auto read = read_mass(compiled, text, "--reads");
    for (Finding& finding : read.findings) {
        if (finding.code == Code::quantity_bare)
            finding.message = "A balance's step needs a measure behind the number.";
        if (finding.code == Code::batch_nothing)
            finding.code = Code::balance_step,
            finding.message = "A balance reads in steps of more than nothing.";
        show_example(finding, "0.01 g");
    }
    const auto step = taken(read, out.findings);
    if (!step) return;
    Reading reading;
    reading.step = *step;
    if (in_grams(*step).sign() > 0 && in_grams(*step).finite_decimal(reading.places))
        out.value.reading = reading;
    else
        out.findings.push_back(
            {.code = Code::balance_step,
             .message =
                 fmt::format("Behind --reads stands \"{}\", but the step of a balance is more "
                             "than nothing and a decimal of grams, such as 0.01 g.",
                             text),
             .span = {},
             .example = "--reads 0.01g"});
}

void read_error(const std::string& text, Outcome<Choice>& out) {
    const auto error = read_percent(text);
    if (error && as_fraction(*error).sign() > 0 && as_fraction(*error) <= Exact(1))
        out.value.strict.error = error;
    else
        out.findings.push_back(
            {.code = Code::command_line,
             .message =
                 fmt::format("Behind --error stands \"{}\", but a share of what is weighed is "
                             "due there, more than 0 % and up to 100 %.",
                             text),
             .span = {},
             .example = "--error \"5 %\""});
}

}  // namespace

Outcome<Choice> read_choice(Compiled& compiled, const Arguments& arguments) {
    Outcome<Choice> out;
    Choice& choice = out.value;
    choice.shade = arguments.get("--shade");
    choice.variant = arguments.get("--variant");
    choice.finish = arguments.get("--finish");
    choice.batch = arguments.get("--batch");
    choice.all = arguments.has("--all");
    if (auto text = arguments.get("--make"))
        choice.make = taken(read_size(compiled, *text, "--make"), out.findings);
    if (auto text = arguments.get("--onto")) read_onto(compiled, *text, out);
    if (auto text = arguments.get("--reads")) read_reads(compiled, *text, out);
    if (auto text = arguments.get("--error")) read_error(*text, out);
    choice.strict.usp41 = arguments.has("--usp41");
    return out;
}

}  // namespace levigate::cli
