#include "interpreter/cli/measured.hpp"

#include "interpreter/cli/money_words.hpp"
#include "interpreter/cli/report.hpp"
#include "interpreter/expand/measured.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/sheet_document.hpp"
#include "interpreter/render/spoon_sheet.hpp"
#include "interpreter/rules/lips.hpp"

namespace levigate::cli {
namespace {

/// What rules let on lips only up to a share, and the bowl as it is measured holds more of.
void judge_lips(const Compiled& compiled, const MeasuredSheet& measured, Sheet& sheet) {
    if (sheet.onto) return;
    const auto product = measured_product(compiled.formulary, sheet, measured);
    if (!product) return;
    LipJudge judge(compiled.formulary, compiled.names, {});
    judge.add(*product);
    for (const Finding& finding : judge.findings())
        if (finding.code == Code::lips_limit)
            sheet.findings.push_back(
                {.code = Code::measure_limit,
                 .message = "As it is measured, " + finding.message,
                 .span = finding.span,
                 .advice = "Weigh it: a spoon can't keep so near to a limit. And ask `levigate "
                           "check` what holds of the formula.",
                 .notes = finding.notes});
}

}  // namespace
bool write_measured(const Compiled& compiled, const Choice& choice, const Spoons& spoons,
                    const Arguments& arguments, Output& output, std::string& out,
                    Findings& findings) {
    const Formulary& formulary = compiled.formulary;
    Measurer measurer(formulary, compiled.names, spoons);
    Cautions cautions(formulary);
    SheetsJson json(formulary, compiled.sources);
    const bool as_json = arguments.json();
    bool empty = true;
    Findings of_sheets;
    if (as_json) json.open(out);
    const Findings outside = expand_drawn(
        formulary, compiled.names, choice, [&](Sheet& sheet, const Blueprint& blueprint) {
            empty = false;
            leave_out_weighing(sheet.findings);
            const MeasuredSheet measured = measurer.measure(sheet, blueprint);
            judge_lips(compiled, measured, sheet);
            if (as_json) {
                json.append(sheet, out, [&](nlohmann::ordered_json& object) {
                    put_measures(object, spoons, measured);
                });
            } else {
                fill_measured_words(formulary, spoons, measured, sheet);
                append_document(arguments, out,
                                spoon_document(formulary, sheet, spoons, measured, cautions),
                                compiled.sources.isolates());
            }
            of_sheets.insert(of_sheets.end(), sheet.findings.begin(), sheet.findings.end());
            if (out.size() >= drain_at) output.drain(out);
        });
    findings.insert(findings.end(), outside.begin(), outside.end());
    if (as_json)
        json.close(findings, out);
    else
        append_document(arguments, out,
                        empty
                            ? document::Document{document::Paragraph{"There is nothing to weigh."}}
                            : sheets_closing());
    findings.insert(findings.end(), of_sheets.begin(), of_sheets.end());
    return !empty;
}

}  // namespace levigate::cli
