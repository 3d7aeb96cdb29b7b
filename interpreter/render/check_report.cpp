#include "interpreter/render/check_report.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "interpreter/render/findings.hpp"

namespace levigate {
namespace {

using namespace document;

bool within(Span inner, Span outer) {
    return inner && inner.source == outer.source && inner.begin >= outer.begin &&
           inner.end <= outer.end;
}

/// An error that leaves something out: then what was not made was not judged either.
bool leaves_out(const Finding& finding) {
    return finding.severity == Severity::error && finding.code != "expect-failed";
}

Verdict verdict_of(Span span, const Findings& findings) {
    Verdict verdict = Verdict::holds;
    for (const Finding& finding : findings) {
        if (finding.code == "expect-failed" && within(finding.span, span)) return Verdict::fails;
        if (within(finding.span, span) || leaves_out(finding)) verdict = Verdict::unknown;
    }
    return verdict;
}

std::string_view verdict_word(Verdict verdict) {
    switch (verdict) {
        case Verdict::holds: return "holds";
        case Verdict::fails: return "does not hold";
        case Verdict::unknown: return "can't be told yet";
    }
    return {};
}

}  // namespace

CheckReport check_report(const std::string& file, const Sources& sources,
                         const Formulary& formulary, const Findings& findings) {
    CheckReport report{file, &sources, each_once(findings), {}};
    std::set<std::pair<SourceId, std::uint32_t>> seen;
    for (const Shade& shade : formulary.shades) {
        if (!shade.own) continue;
        for (const Expectation& expect : shade.expects) {
            if (!seen.emplace(expect.span.source, expect.span.begin).second) continue;
            ExpectResult result{expect.span, {}, 0, expect.wording, Verdict::holds};
            if (expect.span.source < sources.size()) {
                result.file = sources[expect.span.source].name;
                result.line = sources.position(expect.span).line;
            }
            const bool cost = expect.measure == Expectation::Measure::cost ||
                              expect.measure == Expectation::Measure::cost_per;
            result.verdict = cost ? Verdict::unknown : verdict_of(expect.span, report.findings);
            report.expects.push_back(std::move(result));
        }
    }
    return report;
}

Document check_document(const CheckReport& report) {
    Document out;
    std::string counts = count_words(report.findings);
    if (counts.empty()) counts = "nothing wrong";
    out.emplace_back(Paragraph{fmt::format("{}: {}.", report.file, counts)});
    if (report.expects.empty()) return out;
    Table table;
    table.columns = {{"expected in", Align::left}, {"what", Align::left}, {"", Align::left}};
    for (const ExpectResult& result : report.expects)
        table.rows.push_back({fmt::format("{}:{}", result.file, result.line), result.wording,
                              std::string(verdict_word(result.verdict))});
    out.emplace_back(std::move(table));
    return out;
}

}  // namespace levigate
