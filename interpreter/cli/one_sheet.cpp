#include "interpreter/cli/one_sheet.hpp"

#include <algorithm>

namespace levigate::cli {

std::optional<Sheet> one_sheet(Compiled& compiled, const Arguments& arguments, Findings& findings,
                               bool dilutions) {
    Choice choice;
    choice.dilutions = dilutions;
    choice.shade = arguments.get("--shade");
    choice.variant = arguments.get("--variant");
    choice.finish = arguments.get("--finish");
    choice.batch = arguments.get("--batch");
    choice.words = choice.expectations = choice.materials = false;
    Findings asked;
    if (auto text = arguments.get("--make"))
        choice.make = take(read_size(compiled, *text, "--make"), asked);
    else if (!choice.batch)
        choice.make = BatchSize{grams(1), {}, {}, {}, false};
    findings.insert(findings.end(), asked.begin(), asked.end());
    if (any_error(asked)) return std::nullopt;
    Sheets sheets = expand(compiled.formulary, compiled.names, choice);
    for (Finding& finding : sheets.findings) findings.push_back(std::move(finding));
    if (sheets.sheets.size() == 1) return std::move(sheets.sheets[0]);
    if (sheets.sheets.size() > 1)
        findings.push_back({Code::choice_several,
                            "Which shade was this bowl meant for? There are several.", Span{},
                            "Name one with --shade."});
    return std::nullopt;
}

RecordsRead read_record_file(Compiled& compiled, const std::string& path, Findings& findings) {
    RecordsRead out;
    FileText file = disk_world().open(path);
    if (const auto* why = std::get_if<Unreadable>(&file.text)) {
        out.unreadable = *why;
        return out;
    }
    out.source = static_cast<SourceId>(compiled.sources.size());
    out.records =
        take(read_records(compiled, path, std::move(std::get<std::string>(file.text))), findings);
    return out;
}

bool is_record_of(const Formulary& formulary, const Record& record, const Sheet& sheet) {
    if (!record.shown() || record.shade != sheet.shade) return false;
    const Shade& shade = formulary.shades[sheet.shade];
    std::vector<Sym> under;
    if (sheet.version > 0) under.push_back(shade.versions[sheet.version].sym);
    if (sheet.finishing != nothing)
        under.push_back(formulary.finishes[formulary.finishings[sheet.finishing].finish].sym);
    return std::is_permutation(under.begin(), under.end(), record.under.begin(),
                               record.under.end());
}

}  // namespace levigate::cli
