#include "interpreter/rescue/pours.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/walk.hpp"

namespace levigate {

BowlLines::BowlLines(const Formulary& formulary, const RescueOrder& order, bool wide)
    : formulary_(formulary), order_(order) {
    std::size_t end = 0;
    for (const SheetLine& line : order.product.bowls.back().lines)
        if (as_fraction(line.share).sign() > 0) add_line(line.what, line.share, end);
    for (const auto& pours : order.poured)
        for (const Pour& pour : pours) open_for(pour.what, wide);
    // So much of a powder is all there is, in a blend too.
    for (const Pour& pour : order.there) open_for(pour.what, true);
}

std::size_t BowlLines::at(IngredientId what) const {
    std::size_t i = 0;
    while (i < lines.size() && lines[i].what != what) ++i;
    return i;
}

/// More of its line, or a new one before `where`, which then moves on.
void BowlLines::add_line(IngredientId what, const Share& wanted, std::size_t& where) {
    if (const std::size_t i = at(what); i < lines.size()) {
        lines[i].wanted += wanted;
        return;
    }
    RescueLine line;
    line.what = what;
    line.wanted = wanted;
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(where++), std::move(line));
}

const Mix* BowlLines::mix_of(IngredientId what) const {
    if (what == no_ingredient) return nullptr;
    const Ingredient& entry = formulary_.ingredients[what];
    if (entry.kind == Ingredient::Kind::material || entry.index >= formulary_.mixes.size())
        return nullptr;
    const Mix& mix = formulary_.mixes[entry.index];
    return mix.formula.solved() ? &mix : nullptr;
}

/// At any depth.
bool BowlLines::holds(IngredientId outer, IngredientId what) const {
    std::vector<IngredientId> open{outer};
    std::unordered_set<IngredientId> seen;
    while (!open.empty()) {
        const Mix* mix = mix_of(open.back());
        open.pop_back();
        if (!mix) continue;
        for (std::size_t i = 0; i < mix->formula.parts.size(); ++i) {
            const IngredientId part = mix->formula.parts[i].what;
            if (as_fraction(mix->formula.shares[i]).sign() <= 0) continue;
            if (part == what) return true;
            if (seen.insert(part).second) open.push_back(part);
        }
    }
    return false;
}

/// A line that holds it, and that no other such line holds: so each blend is opened only once, when
/// all of it is there. As many as there are lines where there is none.
std::size_t BowlLines::outermost(IngredientId what) const {
    std::vector<std::size_t> holding;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (holds(lines[i].what, what)) holding.push_back(i);
    for (const std::size_t one : holding) {
        const auto is_outside = [&](std::size_t other) {
            return holds(lines[other].what, lines[one].what);
        };
        if (std::none_of(holding.begin(), holding.end(), is_outside)) return one;
    }
    return lines.size();
}

/// Puts the parts of a blend in its place; what has a line already gets more of it.
void BowlLines::open(std::size_t line, IngredientId part) {
    const RescueLine blend = lines[line];
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(line));
    const auto is_it = [&](const OpenedBlend& one) { return one.blend == blend.what; };
    if (std::none_of(opened_.begin(), opened_.end(), is_it)) opened_.push_back({blend.what, part});
    const Formula& formula = mix_of(blend.what)->formula;
    for (std::size_t i = 0; i < formula.parts.size(); ++i)
        if (as_fraction(formula.shares[i]).sign() > 0)
            add_line(formula.parts[i].what, formula.shares[i] * blend.wanted, line);
}

void BowlLines::open_for(IngredientId what, bool wide) {
    std::vector<IngredientId> todo{what};
    std::unordered_set<IngredientId> seen;
    while (!todo.empty()) {
        const IngredientId one = todo.back();
        todo.pop_back();
        if (one == no_ingredient || !seen.insert(one).second) continue;
        const bool own = at(one) < lines.size();
        for (std::size_t i = outermost(one); i < lines.size(); i = outermost(one)) {
            if (own && !wide) {
                could_open_ = true;
                break;
            }
            open(i, one);
        }
        if (at(one) < lines.size()) continue;
        // What was mixed beforehand, a dilution or another blend, counts as its parts.
        if (const Mix* mix = mix_of(one))
            for (const Part& part : mix->formula.parts) todo.push_back(part.what);
    }
}

/// None where some of it is in no line. The mixes in it are known.
std::optional<BowlLines::Spread> BowlLines::spread_of(const Formula& formula) {
    Spread out(lines.size());
    for (std::size_t i = 0; i < formula.parts.size(); ++i) {
        if (formula.shares[i] == Share()) continue;
        const std::optional<Spread> part = spread_of(formula.parts[i].what);
        if (!part) return std::nullopt;
        for (std::size_t k = 0; k < out.size(); ++k) out[k] += formula.shares[i] * (*part)[k];
    }
    return out;
}

/// What stands in no line counts as its parts, the innermost first, and each is looked into once.
std::optional<BowlLines::Spread> BowlLines::spread_of(IngredientId what) {
    const auto known = [&](IngredientId one) {
        return at(one) < lines.size() || spreads_.contains(one);
    };
    each_inner_first(formulary_, what, known, [&](IngredientId one) {
        spreads_.emplace(one, spread_of(mix_of(one)->formula));
    });
    if (const std::size_t line = at(what); line < lines.size()) {
        Spread out(lines.size());
        out[line] = share(1);
        return out;
    }
    const auto found = spreads_.find(what);
    return found == spreads_.end() ? std::nullopt : found->second;
}

const Formula& BowlLines::bulk() const {
    return formulary_.shades[order_.product.shade].versions[order_.product.version].formula;
}

void BowlLines::pour(const Pour& pour) {
    const bool is_bulk = pour.shade == order_.product.shade && pour.shade != nothing;
    const std::optional<Spread> spread =
        is_bulk && at(pour.what) == lines.size() ? spread_of(bulk()) : spread_of(pour.what);
    if (spread)
        for (std::size_t i = 0; i < lines.size(); ++i) lines[i].poured += (*spread)[i] * pour.mass;
    else
        foreign_.push_back(&pour);
    in_bowl += pour.mass;
}

void BowlLines::limit(const Pour& pour, Findings& findings) {
    if (const std::size_t i = at(pour.what); i < lines.size()) {
        RescueLine& line = lines[i];
        line.there = line.there ? *line.there + pour.mass : pour.mass;
        return;
    }
    for (const OpenedBlend& one : opened_) {
        if (one.blend != pour.what) continue;
        std::vector<std::string> parts;
        for (const Part& part : mix_of(one.blend)->formula.parts)
            parts.push_back(formulary_.name(part.what));
        findings.push_back(
            {Code::pour_foreign,
             fmt::format("{} is part of {} and is named by itself, so {} is added "
                         "part by part, and a limit on the blend limits nothing.",
                         formulary_.name(one.part), pour.name, pour.name),
             pour.span,
             fmt::format("Write how much there is of its parts: {}.", list_words(parts))});
        return;
    }
    findings.push_back(
        {Code::pour_foreign,
         fmt::format("{} is not in this bowl, so that none of it is added.", pour.name), pour.span,
         "Leave it out."});
}

void BowlLines::say_foreign(const std::string& title, Findings& findings) const {
    for (const Pour* pour : foreign_)
        findings.push_back(
            {Code::pour_foreign,
             fmt::format("{} is not in the bowl of {}, and is {} of what was poured: the formula "
                         "can't be restored.",
                         pour->name, title, percent_words(share_of(pour->mass, in_bowl))),
             pour->span, "Begin again, or write what is in the bowl now as a shade of its own."});
}

}  // namespace levigate
