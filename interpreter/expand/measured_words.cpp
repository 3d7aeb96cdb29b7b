// What a measured sheet says in words, and what of its expectations no longer holds.

#include <algorithm>
#include <unordered_map>

#include "interpreter/expand/expectations.hpp"
#include "interpreter/expand/measured.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// What of a measured sheet's whole something is: 1 where a line is it, what is inside a blend as
/// its own bowl was measured, else nothing.
class Contents {
public:
    Contents(const Sheet& sheet, const MeasuredSheet& measured)
        : sheet_(sheet), measured_(measured) {
        for (std::size_t k = 0; k + 1 < sheet.bowls.size(); ++k) bowls_[sheet.bowls[k].mix] = k;
    }

    /// `own`: of one gram of an ingredient; nothing where its bowl tells. Nothing at all where some
    /// line is neither told nor has a bowl.
    template <typename Own>
    std::optional<Exact> all(Own&& own) const {
        std::vector<Exact> inside(sheet_.bowls.size());
        for (std::size_t k = 0; k < inside.size(); ++k) {
            const MeasuredBowl& bowl = measured_.bowls[k];
            if (bowl.grams.sign() <= 0) continue;
            for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
                const IngredientId what = sheet_.bowls[k].lines[i].what;
                std::optional<Exact> each = own(what);
                const auto deeper = bowls_.find(what);
                if (!each && deeper != bowls_.end()) each = inside[deeper->second];
                if (!each && bowl.lines[i].grams.is_zero()) continue;
                if (!each) return std::nullopt;
                inside[k] += bowl.lines[i].grams / bowl.grams * *each;
            }
        }
        return inside.back();
    }

private:
    const Sheet& sheet_;
    const MeasuredSheet& measured_;
    std::unordered_map<IngredientId, std::size_t> bowls_;
};

std::optional<Exact> density_in(const Formulary& formulary, const Contents& contents) {
    const auto volume = contents.all([&](IngredientId what) -> std::optional<Exact> {
        const auto& stated = formulary.ingredients[what].density;
        if (!stated) return std::nullopt;
        return 1 / in_grams_per_millilitre(*stated);
    });
    if (!volume || volume->sign() <= 0) return std::nullopt;
    return 1 / *volume;
}

bool failed_anyway(const Sheet& sheet, Span expect) {
    for (const Finding& finding : sheet.findings)
        if (finding.code == Code::expect_failed && finding.span == expect) return true;
    return false;
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 32);
    return text;
}

}  // namespace

void Measurer::judge_expects(Sheet& sheet, const MeasuredSheet& measured,
                             const std::string& title) {
    const Shade& shade = formulary_.shades[sheet.shade];
    if (sheet.onto || !is_judged(shade, sheet.finishing)) return;
    for (const MeasuredBowl& bowl : measured.bowls)
        if (!bowl.known) return;
    using Measure = Expectation::Measure;
    const Contents contents(sheet, measured);
    const std::string whose = title + ", as it is measured";
    const auto share_of_it = [&](auto&& is_it) {
        return contents.all([&](IngredientId what) -> std::optional<Exact> {
            if (is_it(what)) return Exact(1);
            if (formulary_.ingredients[what].kind == Ingredient::Kind::material) return Exact();
            return std::nullopt;
        });
    };
    for (const Expectation& expect : shade.expects) {
        if (failed_anyway(sheet, expect.span)) continue;
        std::optional<Exact> value;
        std::string what;
        levigate::Kind kind = levigate::Kind::share;
        if (expect.measure == Measure::ingredient && expect.ingredient != no_ingredient) {
            value = share_of_it([&](IngredientId one) { return one == expect.ingredient; });
            what = formulary_.name(expect.ingredient);
        } else if (expect.measure == Measure::role) {
            value = share_of_it(
                [&](IngredientId one) { return formulary_.ingredients[one].role == expect.role; });
            what = "the " + role_words(formulary_, names_, expect.role);
        } else if (expect.measure == Measure::density) {
            value = density_in(formulary_, contents);
            what = "the density";
            kind = levigate::Kind::density;
        } else if (expect.measure == Measure::whole && sheet.batch != nothing) {
            value = measured.bowls.back().grams;
            what = "the whole";
            kind = levigate::Kind::mass;
        }
        if (!value) continue;
        const std::string words = missed_words(expect, kind, *value, what, whose);
        if (!words.empty())
            sheet.findings.push_back(
                {Code::measure_expect, capital(words), expect.span,
                 "Weigh it, or measure a larger batch or by a smaller spoon."});
    }
}

std::optional<Product> measured_product(const Formulary& formulary, const Sheet& sheet,
                                        const MeasuredSheet& measured) {
    for (const MeasuredBowl& bowl : measured.bowls)
        if (!bowl.known) return std::nullopt;
    Product out;
    out.shade = sheet.shade;
    out.version = sheet.version;
    out.finishing = sheet.finishing;
    // From the shade's own bowl, which is last, back to the blends in it.
    const std::size_t count = sheet.bowls.size();
    std::unordered_map<IngredientId, std::size_t> bowls;
    for (std::size_t k = 0; k + 1 < count; ++k) bowls[sheet.bowls[k].mix] = k;
    std::vector<Exact> part(count);
    part.back() = 1;
    std::unordered_map<IngredientId, Exact> shares;
    for (std::size_t k = count; k-- > 0;) {
        const MeasuredBowl& bowl = measured.bowls[k];
        if (bowl.grams.sign() <= 0) continue;
        for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
            const IngredientId what = sheet.bowls[k].lines[i].what;
            const Exact here = part[k] * bowl.lines[i].grams / bowl.grams;
            const auto deeper = bowls.find(what);
            (deeper == bowls.end() ? shares[what] : part[deeper->second]) += here;
        }
    }
    for (const MaterialLine& line : sheet.materials)
        out.materials.push_back(
            {line.what, share(shares[line.what]), formulary.ingredients[line.what].span});
    return out;
}

std::string spoon_name(const Spoon& spoon) {
    if (spoon.written.empty()) return spoon.measure;
    return spoon.written + " " + counted(spoon.measure, spoon.number);
}

std::string spoon_words(const Spoons& spoons, const std::vector<Exact>& counts) {
    if (counts.empty()) return "not known";
    std::string out;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i].sign() <= 0) continue;
        if (!out.empty()) out += " + ";
        const Spoon& spoon = spoons[i];
        if (spoon.written.empty())
            out += counts[i].exactly() + " " + counted(spoon.measure, counts[i]);
        else
            out += (counts[i] == Exact(1) ? "" : counts[i].exactly() + " × ") + spoon_name(spoon);
    }
    return out.empty() ? "nothing" : out;
}

void fill_measured_words(const Formulary& formulary, const Spoons& spoons,
                         const MeasuredSheet& measured, Sheet& sheet) {
    fill_words(formulary, sheet, [&](const Bowl& here, IngredientId what) {
        const auto k = static_cast<std::size_t>(&here - sheet.bowls.data());
        for (std::size_t i = 0; i < here.lines.size(); ++i)
            if (here.lines[i].what == what)
                return "(" + spoon_words(spoons, measured.bowls[k].lines[i].counts) + ")";
        return std::string();
    });
}

}  // namespace levigate
