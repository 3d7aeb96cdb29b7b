#include "interpreter/query/other_verbs.hpp"

#include <algorithm>
#include <utility>

#include "interpreter/plan/plan.hpp"
#include "interpreter/rules/lips.hpp"
#include "interpreter/share/share.hpp"

namespace levigate {
namespace {

bool says_same(const Finding& a, const Finding& b) { return a.code == b.code && a.span == b.span; }

bool holds(const Findings& findings, const Finding& finding) {
    return std::any_of(findings.begin(), findings.end(),
                       [&](const Finding& other) { return says_same(other, finding); });
}

/// True where no finish leaves the bulk as it is made.
bool bulk_apart(const Formulary& formulary, const Shade& shade) {
    if (!shade.own || shade.broken || shade.finishes.empty()) return false;
    return std::none_of(
        shade.finishes.begin(), shade.finishes.end(), [&](const ShadeFinish& finish) {
            return finish.finishing != nothing &&
                   formulary.finishings[finish.finishing].additions.empty();
        });
}

bool sold(const Formulary& formulary) {
    if (!formulary.markets.empty()) return true;
    for (const Shade& shade : formulary.shades)
        if (shade.own && !shade.markets.empty()) return true;
    return std::any_of(
        formulary.materials.begin(), formulary.materials.end(),
        [](const Material& material) { return !material.library && !material.label.empty(); });
}

}  // namespace

void join(Findings& to, Findings more) {
    for (Finding& finding : more)
        if (!holds(to, finding)) to.push_back(std::move(finding));
}

Findings bulk_errors(const Compiled& compiled, const std::vector<Called>& markets,
                     Labeller& labeller, const Findings& said) {
    const Formulary& formulary = compiled.formulary;
    const auto apart = [&](ShadeId id) { return bulk_apart(formulary, formulary.shades[id]); };
    bool any = false;
    for (ShadeId id = 0; id < formulary.shades.size(); ++id) any = any || apart(id);
    if (!any) return {};
    LipJudge judge(formulary, compiled.names, markets);
    Findings all;
    Choice choice;
    choice.words = choice.materials = choice.expectations = false;
    join(all, expand_each(formulary, compiled.names, choice, [&](Sheet& sheet) {
             if (apart(sheet.shade)) join(all, std::move(sheet.findings));
         }));
    each_product(formulary, compiled.names, choice, [&](const Product& product) {
        if (!apart(product.shade)) return;
        judge.add(product);
        labeller.add(product);
    });
    join(all, judge.findings());
    std::erase_if(all, [&](const Finding& finding) {
        return finding.severity != Severity::error || holds(said, finding);
    });
    return all;
}

Findings label_findings(const Compiled& compiled, Labeller& labeller, bool asked) {
    Findings all;
    join(all, labeller.make().findings);
    if (sold(compiled.formulary)) return all;
    if (!asked) return {};
    for (Finding& finding : all) finding.severity = Severity::advice;
    return all;
}

Findings plan_findings(const Compiled& compiled, const Findings& said) {
    Findings all;
    for (const Plan& plan : compiled.formulary.plans) {
        if (plan.span.source != compiled.formulary.file) continue;
        join(all, make_plan(compiled.formulary, compiled.names, plan, std::nullopt).findings);
    }
    std::erase_if(all, [&](const Finding& finding) {
        // A batch that is not there may be one that went wrong.
        if (finding.code == Code::choice_none) return any_error(said);
        return about_weighing(finding.code) && finding.severity != Severity::error;
    });
    return all;
}

Findings share_findings(Compiled& compiled, const std::string& path) {
    ShareOrder order;
    const std::size_t slash = path.rfind('/') + 1;  // 0 where there is none
    order.otherwise = path.substr(slash, path.find('.', slash + 1) - slash);
    return share_edition(compiled, order).findings;
}

}  // namespace levigate
