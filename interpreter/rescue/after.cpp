#include "interpreter/rescue/after.hpp"

#include <algorithm>

#include "interpreter/expand/batch.hpp"
#include "interpreter/expand/expectations.hpp"
#include "interpreter/expand/product.hpp"
#include "interpreter/expand/rounding.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/rules/lips.hpp"

namespace levigate {
namespace {

/// For a bowl that is mended what is said of a sheet holds, and what to do about it doesn't.
void advise_instead(Finding& finding, std::string advice) {
    finding.advice = std::move(advice);
    finding.example.clear();
    finding.fixes.clear();
}

/// The lines that gave the amounts.
void mark(const Formula& formula, std::vector<FinishedLine>& lines) {
    for (FinishedLine& line : lines)
        for (const Part& part : formula.parts)
            if (part.what == line.what) line.span = part.span, line.name_span = part.name_span;
}

}  // namespace

std::string After::title() const {
    return sheet_title(formulary_, shade(), shade().versions[order_.product.version],
                       order_.product.finishing);
}

void After::look(Findings& findings) {
    rescue_.additions = order_.product;
    tell_off();
    weigh(findings);
    const std::vector<FinishedLine> lines = product();
    expect(lines, findings);
    judge_lips(lines, findings);
    fill(lines);
}

/// How far each line is off in the end, by what is weighed: that is what is in the bowl.
void After::tell_off() {
    const Exact& step = in_grams(order_.product.reading.step);
    Exact added;
    for (const RescueLine& line : rescue_.lines) added += line.steps;
    rescue_.foot = rescue_.there + added;
    const Exact whole = in_grams(rescue_.in_bowl) + added * step;
    rescue_.whole = grams(whole);
    if (whole.sign() <= 0) return;
    for (RescueLine& line : rescue_.lines) {
        line.weighed = share((in_grams(line.poured) + line.steps * step) / whole);
        line.off = as_fraction(line.weighed) / as_fraction(line.wanted) - 1;
        rescue_.off = std::max(rescue_.off, line.off.abs());
    }
}

/// The additions as a sheet of their own: what is a blend gets its bowl.
void After::weigh(Findings& findings) {
    Sheet& sheet = rescue_.additions;
    const Exact& step = in_grams(sheet.reading.step);
    sheet.findings.clear();
    sheet.notes.clear();
    sheet.remedies.clear();
    sheet.bowls.clear();
    sheet.total = rescue_.total;
    // Where the balance's own rounding was not the last word, the bowls of blends go by that.
    bool as_sheets = true;
    Mass sum;
    for (const RescueLine& line : rescue_.lines)
        as_sheets = as_sheets && line.steps == steps_half_up(in_grams(line.add), step);
    const auto added = [&](const RescueLine& line) {
        return as_sheets ? line.add : grams(line.steps * step);
    };
    for (const RescueLine& line : rescue_.lines) sum += added(line);
    if (in_grams(sum).sign() <= 0) return;
    std::vector<FinishedLine> lines;
    for (const RescueLine& line : rescue_.lines)
        if (in_grams(added(line)).sign() > 0)
            lines.push_back({line.what, share_of(added(line), sum), {}, {}, {}, false, false});
    Draughtsman draughtsman(formulary_);
    Blueprint blueprint;
    draughtsman.draw(lines, false, blueprint);
    std::vector<Exact> asked;
    make_bowls(blueprint, sum, sheet, asked);
    if (!weighs_well(sheet)) judge_weighing(formulary_, blueprint, title(), shade().span, sheet);
    for (Finding& finding : sheet.findings) {
        // What is still missing of it is less than the balance shows.
        if (finding.code == Code::weigh_nothing) {
            finding.severity = Severity::advice;
            advise_instead(finding, "So little may be left out.");
        }
        findings.push_back(std::move(finding));
    }
    sheet.findings.clear();
}

/// The formula, where it is restored: rounding is not judged, as on a sheet. Else what is weighed.
std::vector<FinishedLine> After::product() const {
    std::vector<FinishedLine> out;
    if (rescue_.restored) {
        for (const SheetLine& line : order_.product.bowls.back().lines)
            if (as_fraction(line.share).sign() > 0)
                out.push_back({line.what, line.share, {}, {}, {}, false, false});
    } else {
        for (const RescueLine& line : rescue_.lines)
            out.push_back({line.what, line.then, {}, {}, {}, false, false});
    }
    for (const OpenedBlend& one : rescue_.opened)
        mark(formulary_.mixes[formulary_.ingredients[one.blend].index].formula, out);
    mark(shade().versions[order_.product.version].formula, out);
    return out;
}

/// A blend that was opened is in the product part by part: of itself nothing can be told, nor of
/// what its role says that its parts don't.
bool After::can_tell(const Expectation& expect) const {
    if (rescue_.restored) return true;
    for (const OpenedBlend& one : rescue_.opened) {
        if (expect.measure == Expectation::Measure::ingredient && expect.ingredient == one.blend)
            return false;
        if (expect.measure != Expectation::Measure::role) continue;
        const Formula& formula = formulary_.mixes[formulary_.ingredients[one.blend].index].formula;
        Share parts;
        for (std::size_t i = 0; i < formula.parts.size(); ++i)
            parts += formula.shares[i] * role_in(formulary_, formula.parts[i].what, expect.role);
        if (parts != role_in(formulary_, one.blend, expect.role)) return false;
    }
    return true;
}

/// Each by itself, so that each has its own verdict and its own words.
void After::expect(const std::vector<FinishedLine>& lines, Findings& findings) {
    Draughtsman drawn(formulary_);
    Blueprint blueprint;
    drawn.draw(lines, true, blueprint);
    Shade one = shade();
    const std::vector<Expectation> expects = std::move(one.expects);
    if (!is_judged(shade(), order_.product.finishing)) return;
    for (const Expectation& expect : expects) {
        if (!can_tell(expect)) {
            rescue_.expects.push_back(
                {expect.wording, Verdict::unknown, "A blend is in this bowl part by part."});
            continue;
        }
        one.expects = {expect};
        Tallies tallies(1);
        Findings found =
            judge_mix({formulary_, names_, one, lines, drawn, densities_}, title(), tallies);
        judge_batch(one, rescue_.whole, title(), tallies, found);
        RescueExpect out{expect.wording, Verdict::unknown, {}};
        if (tallies[0].failed)
            out.verdict = Verdict::fails;
        else if (tallies[0].held > 0)
            out.verdict = Verdict::holds;
        if (!found.empty()) out.said = found.front().message;
        rescue_.expects.push_back(std::move(out));
        for (Finding& finding : found) {
            advise_instead(finding, "Give more room or stock, or make do with it knowingly.");
            findings.push_back(std::move(finding));
        }
    }
}

void After::judge_lips(const std::vector<FinishedLine>& lines, Findings& findings) {
    Draughtsman drawn(formulary_);
    Blueprint blueprint;
    drawn.draw(lines, true, blueprint);
    Product product;
    product.shade = order_.product.shade;
    product.version = order_.product.version;
    product.finishing = order_.product.finishing;
    Marks<Span> brought;
    brought.clear(formulary_.ingredients.size());
    for (const BlueprintLine& line : blueprint.lines)
        if (!brought.has(line.what))
            brought[line.what] = line.name_span ? line.name_span : line.span;
    for (const BlueprintMaterial& material : blueprint.materials)
        product.materials.push_back({material.what, material.share, brought[material.what]});
    LipJudge judge(formulary_, names_, order_.markets);
    judge.add(product);
    for (Finding& finding : judge.findings()) findings.push_back(std::move(finding));
}

/// The containers that the shade's batches go into.
void After::fill(const std::vector<FinishedLine>& lines) {
    std::vector<ContainerId> seen;
    for (const Batch& batch : shade().batches) {
        const auto* count = std::get_if<ContainerCount>(&batch.size.amount);
        if (!count || count->container >= formulary_.containers.size()) continue;
        if (std::find(seen.begin(), seen.end(), count->container) != seen.end()) continue;
        seen.push_back(count->container);
        BatchSize one;
        one.amount = ContainerCount{count->container, Exact(1)};
        std::optional<Density> density;
        if (needs_density(formulary_, one)) density = densities_.of(lines).density;
        const auto each = batch_mass(formulary_, one, density);
        if (!each || in_grams(*each).sign() <= 0) continue;
        const Exact whole = (in_grams(rescue_.whole) / in_grams(*each)).floor();
        rescue_.fills.push_back({formulary_.containers[count->container].name, whole,
                                 rescue_.whole - grams(whole * in_grams(*each))});
    }
}

}  // namespace levigate
