#include "interpreter/expand/measured.hpp"

#include <algorithm>
#include <unordered_map>

#include "interpreter/expand/rounding.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/walk.hpp"

namespace levigate {
namespace {

/// "Quince / matte, trial".
std::string title_of(const Formulary& formulary, const Sheet& sheet) {
    const Shade& shade = formulary.shades[sheet.shade];
    std::string out = sheet_title(formulary, shade, shade.versions[sheet.version], sheet.finishing);
    if (sheet.batch != nothing) out += ", " + shade.batches[sheet.batch].name;
    return out;
}

}  // namespace

std::vector<Exact> counts_of(const std::vector<Exact>& sizes, const Exact& volume) {
    std::vector<Exact> out(sizes.size());
    if (sizes.empty()) return out;
    const std::size_t last = sizes.size() - 1;
    Exact left = volume;
    for (std::size_t i = 0; i < last; ++i) {
        out[i] = (left / sizes[i]).floor();
        left -= out[i] * sizes[i];
    }
    out[last] = steps_half_up(left, sizes[last]);
    Exact below = out[last] * sizes[last];
    for (std::size_t i = last; i-- > 0;) {
        if (below >= sizes[i]) {
            std::fill(out.begin() + static_cast<std::ptrdiff_t>(i) + 1, out.end(), Exact());
            out[i] += 1;
            below = Exact();
        }
        below += out[i] * sizes[i];
    }
    return out;
}

/// From its parts, of which the mixes are known.
bool Measurer::find_dry(IngredientId what) const {
    const Ingredient& entry = formulary_.ingredients[what];
    if (entry.bulk) return true;
    if (entry.kind == Ingredient::Kind::material) return formulary_.materials[entry.index].powder;
    const Mix* mix = mix_of(formulary_, what);
    if (!mix || mix->formula.parts.empty()) return false;
    return std::all_of(mix->formula.parts.begin(), mix->formula.parts.end(), [&](const Part& part) {
        const Ingredient& one = formulary_.ingredients[part.what];
        return one.kind == Ingredient::Kind::material
                   ? one.bulk || formulary_.materials[one.index].powder
                   : dry_[part.what] == Dry::yes;
    });
}

bool Measurer::is_dry(IngredientId what) {
    dry_.resize(formulary_.ingredients.size(), Dry::unknown);
    each_inner_first(
        formulary_, what, [&](IngredientId one) { return dry_[one] != Dry::unknown; },
        [&](IngredientId one) { dry_[one] = find_dry(one) ? Dry::yes : Dry::no; });
    if (dry_[what] == Dry::unknown) dry_[what] = find_dry(what) ? Dry::yes : Dry::no;
    return dry_[what] == Dry::yes;
}

const Measurer::Kind& Measurer::kind_of(IngredientId what) {
    kinds_.resize(formulary_.ingredients.size());
    Kind& kind = kinds_[what];
    if (!kind.seen)
        kind = {true, is_dry(what), density_of(formulary_, what, true), figures_.poured(what)};
    return kind;
}

Measurer::Line Measurer::line_of(IngredientId what) {
    const Kind& kind = kind_of(what);
    Line out;
    for (std::size_t i = 0; i < spoons_.size(); ++i)
        if (!kind.dry || !spoons_[i].in_drops) out.with.push_back(i);
    out.known = kind.density.density && !out.with.empty();
    if (!out.known) return out;
    const Exact& each = in_grams_per_millilitre(*kind.density.density);
    for (const std::size_t i : out.with)
        out.sizes.push_back(in_millilitres(spoons_[i].volume) * each);
    return out;
}

/// Measures what is due of each line, in grams, and returns the sum of what is known.
Exact Measurer::measure_lines(const std::vector<Line>& lines, const std::vector<Exact>& due,
                              MeasuredBowl& out) const {
    out.lines.assign(lines.size(), {});
    out.grams = Exact();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!lines[i].known) continue;
        MeasuredLine& line = out.lines[i];
        const std::vector<Exact> counts = counts_of(lines[i].sizes, due[i]);
        line.counts.assign(spoons_.size(), Exact());
        for (std::size_t k = 0; k < counts.size(); ++k) {
            line.counts[lines[i].with[k]] = counts[k];
            line.grams += counts[k] * lines[i].sizes[k];
        }
        out.grams += line.grams;
    }
    return out.grams;
}

/// The shade's own bowl is measured for what is due; a blend's for a target, as its header says.
void Measurer::measure_bowl(const std::vector<Line>& lines, const Bowl& bowl,
                            MeasuredBowl& out) const {
    Exact whole;
    for (const SheetLine& line : bowl.lines) whole += in_grams(line.exact);
    const auto measure_for = [&](const Exact& target) {
        std::vector<Exact> due;
        for (const SheetLine& line : bowl.lines)
            due.push_back(whole.is_zero() ? Exact() : in_grams(line.exact) / whole * target);
        return measure_lines(lines, due, out);
    };
    out.known = std::all_of(lines.begin(), lines.end(), [](const Line& one) { return one.known; });
    if (bowl.mix == no_ingredient) {
        measure_for(whole);
        return;
    }
    if (!(measure_for(out.asked) < out.asked) || !out.known) return;
    // Rounding takes half of the smallest measure of a line at most.
    Exact lost;
    for (const Line& line : lines) lost += line.sizes.back() / 2;
    std::int64_t low = 0, high = 0;
    if (!((lost / out.asked * 100).floor() + 1).to_int64(high)) return;
    while (low < high) {
        const std::int64_t middle = low + (high - low) / 2;
        if (measure_for(out.asked * Exact(100 + middle, 100)) < out.asked)
            low = middle + 1;
        else
            high = middle;
    }
    measure_for(out.asked * Exact(100 + low, 100));
}

std::string Measurer::enlarged(const Sheet& sheet, const Blueprint& blueprint, At at,
                               const Spoon& smallest) {
    constexpr int most_goes = 16;  // a blend's bowl goes by what was measured before
    const SheetLine& line = sheet.bowls[at.bowl].lines[at.line];
    const Exact& each = in_grams_per_millilitre(*kind_of(line.what).density.density);
    const Exact volume = in_grams(line.exact) / each;
    const Exact times = in_millilitres(smallest.volume) / 2 / volume;
    const Exact& step = in_grams(sheet.reading.step);
    const Exact& now = in_grams(sheet.onto ? *sheet.onto : sheet.total);
    std::string out;
    for (int go = 0; go < most_goes && out.empty(); ++go) {
        const Exact wanted = (now * times * Exact(8 + go, 8) / step).ceil() * step;
        if (!wanted.known()) break;
        Sheet larger;
        larger.reading = sheet.reading;
        std::vector<Exact> asked;
        make_bowls(blueprint, grams(in_grams(sheet.total) * wanted / now), larger, asked);
        if (reckon(larger).bowls[at.bowl].lines[at.line].grams.sign() <= 0) continue;
        out = std::string(sheet.onto ? "Add it to " : "Make ") +
              wanted.fixed(sheet.reading.places) + " g" + (sheet.onto ? " of the bulk" : "") +
              " or more, t";
    }
    const Exact size = (volume * 2 * 1000).floor() / 1000;
    out += out.empty() ? "T" : "";
    out += size.sign() > 0 ? "ake a measure of " + size.exactly() + " mL or less"
                           : std::string("ake a smaller measure");
    return out + ", or weigh it as part of a blend.";
}

void Measurer::judge_line(Sheet& sheet, const Blueprint& blueprint, At at,
                          const MeasuredLine& measured, const std::string& title) {
    const SheetLine& line = sheet.bowls[at.bowl].lines[at.line];
    const BlueprintLine& from = blueprint.lines[blueprint.bowls[at.bowl].first + at.line];
    const Kind& kind = kind_of(line.what);
    const std::string& name = formulary_.name(line.what);
    if (!kind.density.density) {
        if (kind.density.lacking.empty()) return;  // a line was lost that may have said it
        std::vector<std::string> lacking;
        for (const IngredientId one : kind.density.lacking)
            lacking.push_back(one == line.what ? "it" : formulary_.name(one));
        sheet.findings.push_back(
            {Code::density_missing,
             title + ": " + name + " can't be measured by volume: " + list_words(lacking) +
                 (lacking.size() == 1 ? " has no density." : " have no density."),
             from.span,
             "Add a line `density … g/mL` to its block (or `bulk … g/mL`, for a powder), or weigh "
             "it."});
        return;
    }
    if (measured.counts.empty()) {
        sheet.findings.push_back(
            {Code::measure_nothing,
             title + ": " + name + " is a powder, and powders aren't counted in drops.", from.span,
             "Add a spoon: --with \"1/8 tsp, drop\"."});
        return;
    }
    const Ingredient& entry = formulary_.ingredients[line.what];
    const bool solid = kind.dry && !entry.bulk && entry.kind == Ingredient::Kind::material;
    if (solid && in_grams(line.exact).sign() > 0)
        sheet.findings.push_back(
            {Code::bulk_missing,
             title + ": " + name +
                 " is a powder measured by volume, and only the density of its grains is known: a "
                 "spoon of it holds much less.",
             from.span, "Weigh a level spoon of it and add a line `bulk … g/mL` to its block."});
    if (measured.grams.sign() > 0 || in_grams(line.exact).sign() <= 0) return;
    const Spoon* smallest = nullptr;
    for (const Spoon& spoon : spoons_)
        if (!kind.dry || !spoon.in_drops) smallest = &spoon;
    sheet.findings.push_back({Code::measure_nothing,
                              title + ": " + name + " is " + gram_words(line.exact) +
                                  ", less than half of " + (smallest->written.empty() ? "a " : "") +
                                  spoon_name(*smallest) + ".",
                              from.span, enlarged(sheet, blueprint, at, *smallest)});
}

MeasuredSheet Measurer::reckon(const Sheet& sheet) {
    MeasuredSheet out;
    const std::size_t count = sheet.bowls.size();
    out.bowls.resize(count);
    std::unordered_map<IngredientId, std::size_t> bowls;
    for (std::size_t k = 0; k + 1 < count; ++k) bowls[sheet.bowls[k].mix] = k;
    for (std::size_t k = count; k-- > 0;) {
        const Bowl& bowl = sheet.bowls[k];
        MeasuredBowl& mine = out.bowls[k];
        std::vector<Line> lines;
        for (const SheetLine& line : bowl.lines) lines.push_back(line_of(line.what));
        measure_bowl(lines, bowl, mine);
        // A blend's bowl may give more than is taken: its lines are held against what is made.
        Exact times = 1, whole;
        for (const SheetLine& line : bowl.lines) whole += in_grams(line.exact);
        if (bowl.mix != no_ingredient && mine.known && mine.grams.sign() > 0 && whole.sign() > 0)
            times = mine.grams / whole;
        for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
            const SheetLine& line = bowl.lines[i];
            MeasuredLine& measured = mine.lines[i];
            const Exact& due = in_grams(line.exact);
            if (const auto inner = bowls.find(line.what); inner != bowls.end())
                out.bowls[inner->second].asked += lines[i].known ? measured.grams : due;
            if (!lines[i].known) continue;
            if (due.sign() > 0) measured.off = measured.grams / (due * times) - 1;
            measured.comes_to = Ends::at(measured.grams);
            if (const std::optional<Ends>& interval = kind_of(line.what).times)
                measured.comes_to = *measured.comes_to * *interval;
        }
    }
    return out;
}

MeasuredSheet Measurer::measure(Sheet& sheet, const Blueprint& blueprint) {
    const std::string title = title_of(formulary_, sheet);
    MeasuredSheet out = reckon(sheet);
    for (std::size_t k = 0; k < sheet.bowls.size(); ++k)
        for (std::size_t i = 0; i < sheet.bowls[k].lines.size(); ++i)
            judge_line(sheet, blueprint, {k, i}, out.bowls[k].lines[i], title);
    judge_expects(sheet, out, title);
    return out;
}

}  // namespace levigate
