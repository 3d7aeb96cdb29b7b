#include "interpreter/render/card_parts.hpp"

#include <fmt/format.h>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/card_bowl.hpp"
#include "interpreter/render/html.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate {

std::string card_name(const Formulary& formulary, const Sheet& sheet) {
    const SheetNames names = names_of(formulary, sheet);
    std::string out(names.shade);
    for (const std::string_view name : {names.variant, names.finish})
        if (!name.empty()) out += fmt::format(" · {}", name);
    return out;
}

void open_card(std::string& out, std::size_t card, std::string_view name) {
    out += fmt::format("<article class=\"card\" id=\"card-{0}\" aria-labelledby=\"name-{0}\">\n"
                       "<header>\n<div>\n<h2 id=\"name-{0}\">{1}</h2>\n",
                       card, html_escaped(name));
}

void append_swatch(std::string& out, const Formulary& formulary, const Sheet& sheet) {
    for (const Swatch& swatch : formulary.shades[sheet.shade].swatches) {
        const std::string words = "Measured on " + formulary.shades[sheet.shade].name +
                                  " as written: " + swatch_words(formulary, swatch);
        out += "<figure class=\"swatch\">";
        append_patch(out, swatch, words);
        out += fmt::format("<figcaption>{}</figcaption></figure>\n", html_escaped(words));
    }
}

Findings looks_of(const Sheet& sheet) {
    Findings out = sheet.findings;
    if (sheet.remedies.empty() || sheet.remedies.size() == most_remedies) return out;
    for (Finding& finding : out)
        if (finding.code == Code::weigh_least || finding.code == Code::weigh_nothing)
            advise(finding, "What to do stands at its bowl.");
    return out;
}

void append_looks(std::string& out, const Findings& findings) {
    document::Document looks;
    add_findings(looks, findings);
    if (looks.empty()) return;
    out += "<div class=\"looks\">\n";
    append_html(out, looks, 1);
    out += "</div>\n";
}

void close_card(std::string& out) {
    out += fmt::format("<footer><p>{}</p></footer>\n</article>\n", html_escaped(closing_caution()));
}

}  // namespace levigate
