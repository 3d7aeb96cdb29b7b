#include "interpreter/render/card_parts.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/render/amounts.hpp"
#include "interpreter/render/card_bowl.hpp"
#include "interpreter/render/findings.hpp"
#include "interpreter/render/html.hpp"
#include "interpreter/render/sheet_document.hpp"

namespace levigate {
namespace {

template <typename Priced>
bool is_private(const Priced& one) {
    return one.price && one.price->is_private;
}

/// What is expected of a cost, and how it turned out.
bool of_cost(const Formulary& formulary, const Finding& finding) {
    using Measure = Expectation::Measure;
    const auto meant = [&](const Expectation& one) {
        return (one.measure == Measure::cost || one.measure == Measure::cost_per) &&
               (finding.span == one.span || finding.span == one.measure_span);
    };
    return (finding.code == Code::expect_failed || finding.code == Code::expect_unknown) &&
           std::any_of(formulary.shades.begin(), formulary.shades.end(), [&](const Shade& shade) {
               return std::any_of(shade.expects.begin(), shade.expects.end(), meant);
           });
}

/// "not-2 not-3": the batches that a text is not of. (page.css)
std::string not_shown_in(const std::vector<bool>& batches) {
    std::string out;
    for (std::size_t i = 0; i < batches.size(); ++i)
        if (!batches[i]) out += fmt::format("{}not-{}", out.empty() ? "" : " ", i + 1);
    return out;
}

}  // namespace

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

bool has_private_price(const Formulary& formulary, const Needed& needed) {
    if (needed.container != nothing) return is_private(formulary.containers[needed.container]);
    const Ingredient& one = formulary.ingredients[needed.material];
    return one.kind == Ingredient::Kind::material && is_private(formulary.materials[one.index]);
}

Findings without_private_costs(const Formulary& formulary, Findings findings) {
    const auto any_private = [](const auto& all) {
        return std::any_of(all.begin(), all.end(), [](const auto& one) { return is_private(one); });
    };
    if (any_private(formulary.materials) || any_private(formulary.containers))
        std::erase_if(findings, [&](const Finding& one) { return of_cost(formulary, one); });
    return findings;
}

Findings looks_of(const Formulary& formulary, const Sheet& sheet) {
    Findings out = without_private_costs(formulary, sheet.findings);
    if (sheet.remedies.empty() || sheet.remedies.size() == most_remedies) return out;
    for (Finding& finding : out)
        if (finding.code == Code::weigh_least || finding.code == Code::weigh_nothing)
            advise(finding, "What to do stands at its bowl.");
    return out;
}

void append_looks(std::string& out, const std::vector<Findings>& batches) {
    Findings all;
    for (const Findings& batch : batches) all.insert(all.end(), batch.begin(), batch.end());
    all = each_once(all);
    if (all.empty()) return;
    std::vector<bool> any(batches.size());
    std::string items;
    for (const Finding& finding : all) {
        std::vector<bool> in;
        for (std::size_t i = 0; i < batches.size(); ++i) {
            in.push_back(std::any_of(batches[i].begin(), batches[i].end(), [&](const auto& one) {
                return each_once({finding, one}).size() == 1;
            }));
            any[i] = any[i] || in[i];
        }
        const std::string hidden = not_shown_in(in);
        items += fmt::format("<li{}>{}</li>\n",
                             hidden.empty() ? hidden : fmt::format(" class=\"{}\"", hidden),
                             html_escaped(look_words(finding)));
    }
    const std::string hidden = not_shown_in(any);
    out += fmt::format("<div class=\"looks{}{}\">\n<h3>{}</h3>\n<ul>\n{}</ul>\n</div>\n",
                       hidden.empty() ? "" : " ", hidden, looks_heading, items);
}

void close_card(std::string& out) { out += "</article>\n"; }

}  // namespace levigate
