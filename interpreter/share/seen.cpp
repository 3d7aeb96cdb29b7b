#include "interpreter/share/seen.hpp"

#include <algorithm>

#include "interpreter/formulary/say.hpp"

namespace levigate::sharing {

namespace {

std::string title_of_sheet(const Formulary& formulary, const Sheet& sheet) {
    std::string out =
        title_of(formulary, {sheet.shade, sheet.version, sheet.finishing, {}, {}, {}});
    if (sheet.batch != nothing)
        out += ", " + formulary.shades[sheet.shade].batches[sheet.batch].name;
    return out;
}

}  // namespace

bool SeenSheet::has(Code code) const {
    return std::any_of(errors.begin(), errors.end(),
                       [&](const Finding& one) { return one.code == code; });
}

Seen sheets_of(const Compiled& compiled, const std::vector<bool>& wanted, bool dilutions) {
    Seen out;
    const Formulary& formulary = compiled.formulary;
    Choice choice;
    choice.all = true;
    choice.dilutions = dilutions;
    choice.materials = false;
    out.findings = expand_each(formulary, compiled.names, choice, [&](Sheet& sheet) {
        if (!wanted.empty() && !wanted[sheet.shade]) return;
        SeenSheet& seen = out.sheets[title_of_sheet(formulary, sheet)];
        seen.shade = sheet.shade;
        seen.total = in_grams(sheet.total);
        for (const Bowl& bowl : sheet.bowls) {
            SeenBowl& one = seen.bowls.emplace_back();
            if (bowl.mix != no_ingredient) one.name = formulary.name(bowl.mix);
            one.steps = bowl.steps_text;
            for (const SheetLine& line : bowl.lines)
                one.lines.push_back({formulary.name(line.what), in_grams(line.exact), line.steps});
        }
        for (const Finding& finding : sheet.findings)
            if (finding.severity == Severity::error) seen.errors.push_back(finding);
    });
    return out;
}

}  // namespace levigate::sharing
