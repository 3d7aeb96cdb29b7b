// The tool, in process: one page from memory, all its sheets as plain values.

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/render/check_report.hpp"
#include "tests/properties/sheets.hpp"

namespace levigate::testing {
namespace {

Number number(const Exact& exact) {
    std::int64_t whole = 0;
    if (exact.to_int64(whole)) return Number(whole);
    const std::string text = exact.fraction();
    return text == "?" ? Number(-1) : Number(text);  // an unknown one equals nothing reckoned
}

std::string said(const Findings& findings) {
    std::string text;
    for (const Finding& finding : findings)
        text += "  " + std::string(row_of(finding.code).name) + ": " + finding.message + "\n";
    return text;
}

std::vector<std::string> error_codes(const Findings& findings) {
    std::vector<std::string> codes;
    for (const Finding& finding : findings)
        if (finding.severity == Severity::error) codes.emplace_back(row_of(finding.code).name);
    return codes;
}

void take_bowls(const Formulary& formulary, const Sheet& sheet, SheetSeen& seen) {
    for (const Bowl& bowl : sheet.bowls) {
        BowlSeen made;
        made.name = bowl.mix == no_ingredient ? seen.shade : formulary.name(bowl.mix);
        made.asked = number(bowl.asked) * seen.step;
        made.grams = number(bowl.steps) * seen.step;
        for (const SheetLine& line : bowl.lines)
            made.rows.push_back({formulary.name(line.what), number(as_fraction(line.share)),
                                 number(in_grams(line.exact)), number(line.steps) * seen.step});
        seen.bowls.push_back(std::move(made));
    }
    for (const MaterialLine& line : sheet.materials)
        seen.materials.push_back({formulary.name(line.what), number(as_fraction(line.share)),
                                  number(in_grams(line.exact)), number(line.steps) * seen.step});
}

SheetSeen take(const Formulary& formulary, const Sheet& sheet) {
    const Shade& shade = formulary.shades[sheet.shade];
    SheetSeen seen;
    seen.shade = shade.name;
    seen.variant = shade.versions[sheet.version].variant;
    if (sheet.finishing != nothing)
        seen.finish = formulary.finishes[formulary.finishings[sheet.finishing].finish].name;
    if (sheet.batch != nothing) seen.batch = shade.batches[sheet.batch].name;
    seen.total = number(in_grams(sheet.total));
    seen.step = number(in_grams(sheet.reading.step));
    take_bowls(formulary, sheet, seen);
    seen.steps = sheet.bowls.back().steps_text;
    seen.errors = error_codes(sheet.findings);
    return seen;
}

std::optional<Mass> mass(const std::optional<Number>& number) {
    if (!number) return std::nullopt;
    return grams(Exact(static_cast<std::int64_t>(numerator(*number)),
                       static_cast<std::int64_t>(denominator(*number))));
}

}  // namespace

Answer ask(const std::string& text, const Question& question) {
    const Compiled compiled = compile(memory_world({{"a.shade", text}}), "a.shade");
    Choice choice;
    choice.all = question.all;
    choice.onto = mass(question.onto);
    if (question.make) {
        choice.make.emplace();
        choice.make->amount = *mass(question.make);
    }
    const Sheets sheets = expand(compiled.formulary, compiled.names, choice);
    Answer answer;
    answer.errors = error_codes(compiled.findings);
    for (const std::string& code : error_codes(sheets.findings)) answer.errors.push_back(code);
    answer.said = said(compiled.findings) + said(sheets.findings);
    for (const Sheet& sheet : sheets.sheets) {
        answer.sheets.push_back(take(compiled.formulary, sheet));
        answer.said += said(sheet.findings);
    }
    return answer;
}

std::vector<std::string> ask_expects(const std::string& text) {
    const Compiled compiled = compile(memory_world({{"a.shade", text}}), "a.shade");
    const auto [findings, verdicts] = check_all(compiled.formulary, compiled.names, {});
    std::vector<std::string> told;
    for (const ExpectResult& result :
         check_report("a.shade", compiled.sources, compiled.formulary, findings, verdicts).expects)
        told.push_back(result.verdict == Verdict::fails     ? "fails"
                       : result.verdict == Verdict::unknown ? "unknown"
                                                            : "holds");
    return told;
}

}  // namespace levigate::testing
