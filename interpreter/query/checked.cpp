#include "interpreter/query/checked.hpp"

#include <algorithm>
#include <iterator>

#include "interpreter/query/advised.hpp"
#include "interpreter/query/other_verbs.hpp"
#include "interpreter/query/since.hpp"
#include "interpreter/rules/lips.hpp"

namespace levigate {
namespace {

void append(Findings& to, Findings from) {
    to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

/// A part without a number is graver where it keeps a list from being made, and is said once: of
/// the material where it goes into a product.
void join_unnumbered(const Sources& sources, Findings& said, Findings& of_labels) {
    std::erase_if(of_labels, [&](const Finding& undecided) {
        if (undecided.code != Code::label_undecided) return false;
        bool found = false;
        for (Finding& one : said) {
            if (one.code != Code::colourant_unnumbered ||
                sources.text(one.span) != sources.text(undecided.span))
                continue;
            one.severity = Severity::error;
            found = true;
        }
        return found;
    });
}

}  // namespace

CheckedFile checked(const World& world, const std::string& path,
                    const std::vector<std::string>& regions, const CheckAlso& also) {
    CheckedFile out;
    out.compiled = compile(world, path, Library::with_rules);
    Compiled& compiled = out.compiled;
    out.findings = compiled.findings;
    if (compiled.unreadable) return out;
    Choice choice;
    choice.words = choice.materials = false;
    std::vector<Called> markets;
    for (const std::string& region : regions)
        markets.push_back({region, compiled.names.intern(region)});
    LipJudge judge(compiled.formulary, compiled.names, markets);
    Labeller labeller(compiled.formulary, compiled.names, {markets, false, no_name, true});
    auto [more, verdicts] =
        check_all(compiled.formulary, compiled.names, choice, [&](const Product& product) {
            judge.add(product);
            labeller.add(product);
        });
    append(out.findings, std::move(more));
    append(out.findings, judge.findings());
    append(out.findings, bulk_errors(compiled, markets, labeller, out.findings));
    Findings of_labels = label_findings(compiled, labeller, !regions.empty());
    join_unnumbered(compiled.sources, out.findings, of_labels);
    join(out.findings, std::move(of_labels));
    join(out.findings, plan_findings(compiled, out.findings));
    append(out.findings, hidden_blocks(compiled));
    append(out.findings, unnamed_blocks(compiled, out.findings));
    append(out.findings, batches_near_sums(compiled));
    if (also.members && !any_error(out.findings))
        join(out.findings, share_findings(compiled, path));
    append(out.findings, changes_since(also.since, compiled, out.findings));
    out.verdicts = std::move(verdicts);
    // In the order of the lines, whichever sheet each came from.
    std::stable_sort(out.findings.begin(), out.findings.end(),
                     [](const Finding& a, const Finding& b) {
                         if (a.span.source != b.span.source) return a.span.source < b.span.source;
                         return a.span.begin < b.span.begin;
                     });
    return out;
}

}  // namespace levigate
