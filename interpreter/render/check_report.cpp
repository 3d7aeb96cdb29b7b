#include "interpreter/render/check_report.hpp"

#include <map>
#include <utility>

#include <fmt/format.h>

#include "interpreter/render/findings.hpp"

namespace levigate {
namespace {

using namespace document;

/// The worse of two: it fails if it fails anywhere, and holds if it is known to hold everywhere.
Verdict both(Verdict a, Verdict b) {
    if (a == Verdict::fails || b == Verdict::fails) return Verdict::fails;
    return a == Verdict::holds ? b : a;
}

std::string_view verdict_word(Verdict verdict) {
    switch (verdict) {
        case Verdict::holds: return "holds";
        case Verdict::fails: return "does not hold";
        case Verdict::unknown: return "can't be told yet";
    }
    return {};
}

/// "Autumn shades: unaltered since edition 3, 2026-10-01."
std::string edition_words(const Edition& edition) {
    const std::string number = edition.number.sign() > 0 ? "edition " + edition.number.exactly()
                                                         : std::string("it was shared");
    return fmt::format("{}: unaltered since {}{}.", edition.title, number,
                       edition.date.empty() ? "" : ", " + edition.date);
}

/// Why it can't be told whether an expectation holds. Of what the shade lacks the finding tells
/// that points to it.
std::string why_unknown(const Shade& shade, const Expectation& expect, const Findings& findings) {
    for (const Finding& finding : findings)
        if (finding.code == Code::expect_unknown && finding.span == expect.measure_span)
            return finding.message;
    using Measure = Expectation::Measure;
    const bool of_batch = expect.measure == Measure::whole || expect.measure == Measure::cost;
    if (of_batch && shade.batches.empty())
        return fmt::format("{} has no batch: add a line such as `batch trial 6 g`.", shade.name);
    return fmt::format("A sheet of {} can't be made; its error says why.", shade.name);
}

}  // namespace

CheckReport check_report(const std::string& file, const Sources& sources,
                         const Formulary& formulary, const Findings& findings,
                         const Verdicts& verdicts) {
    CheckReport report{file, &sources, each_once(findings), {}};
    if (formulary.edition && formulary.edition->unaltered) report.edition = &*formulary.edition;
    std::map<std::pair<SourceId, std::uint32_t>, std::size_t> seen;
    for (ShadeId id = 0; id < formulary.shades.size(); ++id) {
        const Shade& shade = formulary.shades[id];
        if (!shade.own) continue;
        const bool told = id < verdicts.size() && !verdicts[id].empty();
        for (std::size_t i = 0; i < shade.expects.size(); ++i) {
            const Expectation& expect = shade.expects[i];
            const Verdict verdict = told ? verdicts[id][i] : Verdict::unknown;
            const auto [entry, fresh] =
                seen.try_emplace({expect.span.source, expect.span.begin}, report.expects.size());
            if (!fresh) {
                Verdict& before = report.expects[entry->second].verdict;
                before = both(before, verdict);
                std::string& why = report.expects[entry->second].why;
                if (before != Verdict::unknown)
                    why.clear();
                else if (why.empty())
                    why = why_unknown(shade, expect, report.findings);
                continue;
            }
            ExpectResult result{expect.span, {}, 0, expect.wording, verdict};
            if (expect.span.source < sources.size()) {
                result.file = sources[expect.span.source].name;
                result.line = sources.position(expect.span).line;
            }
            if (verdict == Verdict::unknown)
                result.why = why_unknown(shade, expect, report.findings);
            report.expects.push_back(std::move(result));
        }
    }
    return report;
}

namespace {

void add_places(Document& out, const std::vector<MendedPlace>& places) {
    List list;
    for (const MendedPlace& one : places) {
        std::string item = fmt::format("line {}: {}", one.begin.line, fix_words(one.was, one.text));
        if (!one.why.empty()) item += ". " + one.why;
        list.items.push_back(std::move(item));
    }
    if (!list.items.empty()) out.emplace_back(std::move(list));
}

/// What `--mend` did, before what is still wrong.
void add_mended(Document& out, const CheckReport& report) {
    const std::size_t made = report.made.size();
    out.emplace_back(Paragraph{made == 0 ? report.file + ": nothing was changed."
                                         : fmt::format("{}: {} {} made.", report.file, made,
                                                       made == 1 ? "fix" : "fixes")});
    add_places(out, report.made);
    for (Block& block : left_document(report)) out.push_back(std::move(block));
}

}  // namespace

Document left_document(const CheckReport& report) {
    Document out;
    if (report.left.empty()) return out;
    out.emplace_back(Paragraph{"Left as it was:"});
    add_places(out, report.left);
    return out;
}

Document check_document(const CheckReport& report) {
    Document out;
    if (report.mended) add_mended(out, report);
    std::string counts = count_words(report.findings);
    if (counts.empty()) counts = "nothing wrong";
    out.emplace_back(Paragraph{fmt::format("{}: {}.", report.file, counts)});
    if (report.edition && *report.edition->unaltered)
        out.emplace_back(Paragraph{edition_words(*report.edition)});
    if (report.expects.empty()) return out;
    Table table;
    table.columns = {{"expected in", Align::left}, {"what", Align::left}, {"", Align::left}};
    for (const ExpectResult& result : report.expects)
        table.rows.push_back({fmt::format("{}:{}", result.file, result.line), result.wording,
                              std::string(verdict_word(result.verdict))});
    out.emplace_back(std::move(table));
    List reasons;
    for (const ExpectResult& result : report.expects)
        if (!result.why.empty())
            reasons.items.push_back(fmt::format("{}:{}: {}", result.file, result.line, result.why));
    if (!reasons.items.empty()) out.emplace_back(std::move(reasons));
    return out;
}

}  // namespace levigate
