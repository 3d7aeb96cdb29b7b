#include "interpreter/query/checked.hpp"

#include <algorithm>
#include <iterator>

#include "interpreter/rules/lips.hpp"

namespace levigate {
namespace {

void append(Findings& to, Findings from) {
    to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

}  // namespace

CheckedFile checked(const World& world, const std::string& path,
                    const std::vector<std::string>& regions) {
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
    LipJudge judge(compiled.formulary, compiled.names, std::move(markets));
    auto [more, verdicts] = check_all(compiled.formulary, compiled.names, choice,
                                      [&](const Product& product) { judge.add(product); });
    append(out.findings, std::move(more));
    append(out.findings, judge.findings());
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
