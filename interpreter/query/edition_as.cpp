#include "interpreter/query/edition_as.hpp"

#include "interpreter/render/csv.hpp"
#include "interpreter/render/edition_document.hpp"
#include "interpreter/render/html_card.hpp"
#include "interpreter/render/json.hpp"
#include "interpreter/render/text.hpp"
#include "interpreter/rules/label.hpp"

namespace levigate {

namespace {

Choice all_sheets() {
    Choice choice;
    choice.all = true;
    choice.words = choice.materials = false;
    return choice;
}

/// What `weigh --all` makes of the edition. The findings are the edition's: those of the source
/// would tell members of what stays at home.
template <typename Writer>
std::string written_sheets(Writer writer, const Compiled& edition, const Choice& choice) {
    std::string out;
    writer.open(out);
    Findings findings = edition.findings;
    for (Finding& one : expand_each(edition.formulary, edition.names, choice,
                                    [&](Sheet& sheet) { writer.append(sheet, out); }))
        findings.push_back(std::move(one));
    writer.close(findings, out);
    return out;
}

std::string page_of(const Compiled& edition) {
    std::vector<Sheet> sheets;
    const Choice choice = all_sheets();
    expand_each(edition.formulary, edition.names, choice,
                [&](Sheet& sheet) { sheets.push_back(sheet); });
    Labeller labeller(edition.formulary, edition.names, {});
    each_product(edition.formulary, edition.names, choice,
                 [&](const Product& product) { labeller.add(product); });
    const BoxLabels labels = labeller.make();
    std::string out;
    append_markdown(out, edition_document(edition.formulary, sheets, labels.labels),
                    edition.sources.isolates());
    return out;
}

/// To weigh by.
std::optional<std::string> bench_page_of(const Compiled& edition) {
    BenchPage page(edition.formulary);
    Choice choice = all_sheets();
    choice.words = true;
    expand_each(edition.formulary, edition.names, choice, [&](Sheet& sheet) {
        sheet.findings.clear();
        page.append(sheet);
    });
    if (page.too_long()) return std::nullopt;
    return page.page(edition.formulary.edition->title, edition.sources.isolates());
}

}  // namespace

std::optional<std::string> edition_as(const Shared& shared, EditionForm form) {
    const Compiled& edition = shared.edition;
    Choice choice = all_sheets();
    switch (form) {
        case EditionForm::shade: return shared.text;
        case EditionForm::markdown: return page_of(edition);
        case EditionForm::html: return bench_page_of(edition);
        case EditionForm::csv: return written_sheets(CsvWriter(edition.formulary), edition, choice);
        case EditionForm::json: break;
    }
    choice.materials = true;
    return written_sheets(SheetsJson(edition.formulary, edition.sources), edition, choice);
}

}  // namespace levigate
