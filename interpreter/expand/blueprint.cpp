// Every mix is walked once, however many bowls use it: depth first gives the order of first use
// and, backwards, an order in which each mix comes after all that use it. Along that one, needs
// and depths add up. No recursion, and the work is linear in the lines of the mixes reached.

#include "interpreter/expand/blueprint.hpp"

#include <algorithm>

namespace levigate {

MixId Draughtsman::mix_at(IngredientId what) const {
    const Ingredient& entry = formulary_.ingredients[what];
    return entry.kind == Ingredient::Kind::material ? nothing : entry.index;
}

const Formula& Draughtsman::formula_of(MixId mix) const {
    const Mix& one = formulary_.mixes[mix];
    return weighed_ && one.weighed.solved() ? one.weighed : one.formula;
}

void Draughtsman::meet(IngredientId what, bool contents) {
    MixId mix = mix_at(what);
    if (mix != nothing) {
        if (places_.has(mix)) return;
        places_[mix].rank = static_cast<std::uint32_t>(closed_.size() + open_.size());
        open_.push_back({mix});
    } else if (contents && !contents_.has(what)) {
        contents_[what] = Share();
        raw_.push_back(what);
    }
}

void Draughtsman::walk(const std::vector<FinishedLine>& lines, bool contents) {
    for (const FinishedLine& line : lines) {
        meet(line.what, contents);
        while (!open_.empty()) {
            Frame& top = open_.back();
            const std::vector<Part>& parts = formula_of(top.mix).parts;
            if (top.next < parts.size()) {
                meet(parts[top.next++].what, contents);
            } else {
                closed_.push_back(top.mix);
                open_.pop_back();
            }
        }
    }
}

void Draughtsman::spread(const std::vector<FinishedLine>& lines) {
    for (const FinishedLine& line : lines) {
        MixId mix = mix_at(line.what);
        if (mix == nothing) continue;
        Place& place = places_[mix];
        place.need += line.share;
        place.depth = std::max(place.depth, 1u);
    }
    for (std::size_t i = closed_.size(); i-- > 0;) {
        const Place& from = places_[closed_[i]];
        const Formula& formula = formula_of(closed_[i]);
        for (std::size_t k = 0; k < formula.parts.size(); ++k) {
            MixId mix = mix_at(formula.parts[k].what);
            if (mix == nothing) continue;
            Place& place = places_[mix];
            place.need += from.need * formula.shares[k];
            place.depth = std::max(place.depth, from.depth + 1);
        }
    }
}

void Draughtsman::order_bowls(Blueprint& out) {
    making_.clear();
    for (MixId mix : closed_)
        if (!as_fraction(places_[mix].need).is_zero())  // of nothing no bowl is made
            making_.push_back(mix);
    std::sort(making_.begin(), making_.end(), [this](MixId a, MixId b) {
        const Place &left = *places_.find(a), &right = *places_.find(b);
        return left.depth != right.depth ? left.depth > right.depth : left.rank < right.rank;
    });
    out.bowls.clear();
    out.bowls.reserve(making_.size() + 1);
    for (MixId mix : making_) {
        Place& place = places_[mix];
        place.bowl = static_cast<std::uint32_t>(out.bowls.size());
        const bool dilution = formulary_.mixes[mix].dilution != nothing;
        out.bowls.push_back({formulary_.mixes[mix].self, place.need, 0, 0, dilution});
    }
}

void Draughtsman::write_lines(const std::vector<FinishedLine>& lines, Blueprint& out) {
    out.lines.clear();
    out.exact = true;
    for (BlueprintBowl& bowl : out.bowls) {
        const Formula& formula = formula_of(formulary_.ingredients[bowl.mix].index);
        bowl.first = static_cast<std::uint32_t>(out.lines.size());
        bowl.count = static_cast<std::uint32_t>(formula.parts.size());
        for (std::size_t i = 0; i < formula.parts.size(); ++i) {
            const Part& part = formula.parts[i];
            MixId mix = mix_at(part.what);
            out.lines.push_back({part.what, formula.shares[i], bowl.need * formula.shares[i],
                                 mix == nothing ? nothing : places_[mix].bowl, part.span,
                                 part.name_span, part.estimated, false});
            out.exact = out.exact && as_fraction(out.lines.back().share).known();
        }
    }
    auto first = static_cast<std::uint32_t>(out.lines.size());
    for (const FinishedLine& line : lines) {
        MixId mix = mix_at(line.what);
        out.lines.push_back({line.what, line.share, line.share,
                             mix == nothing ? nothing : places_[mix].bowl, line.span,
                             line.name_span, line.estimated, line.addition});
        out.exact = out.exact && as_fraction(line.share).known();
    }
    out.bowls.push_back({no_ingredient, share(1), first, static_cast<std::uint32_t>(lines.size())});
}

void Draughtsman::list_materials(const std::vector<FinishedLine>& lines, Blueprint& out) {
    for (MixId mix : closed_) contents_[formulary_.mixes[mix].self] = places_[mix].need;
    for (const FinishedLine& line : lines)
        if (mix_at(line.what) == nothing) contents_[line.what] += line.share;
    for (MixId mix : closed_) {
        const Formula& formula = formulary_.mixes[mix].formula;
        const Share& need = places_[mix].need;
        for (std::size_t i = 0; i < formula.parts.size(); ++i)
            if (mix_at(formula.parts[i].what) == nothing)
                contents_[formula.parts[i].what] += need * formula.shares[i];
    }
    for (IngredientId what : raw_) {
        const Share& size = contents_[what];
        if (!as_fraction(size).is_zero()) out.materials.push_back({what, size});
        out.exact = out.exact && as_fraction(size).known();
    }
    std::stable_sort(
        out.materials.begin(), out.materials.end(),
        [](const BlueprintMaterial& a, const BlueprintMaterial& b) { return b.share < a.share; });
}

void Draughtsman::start() {
    places_.clear(formulary_.mixes.size());
    closed_.clear();
}

void Draughtsman::draw(const std::vector<FinishedLine>& lines, bool contents, Blueprint& out) {
    start();
    contents_.clear(formulary_.ingredients.size());
    raw_.clear();
    out.materials.clear();
    walk(lines, contents);
    spread(lines);
    order_bowls(out);
    write_lines(lines, out);
    if (contents) list_materials(lines, out);
}

void Draughtsman::draw_weighed(const std::vector<FinishedLine>& lines, Blueprint& out) {
    weighed_ = true;
    start();
    walk(lines, false);
    spread(lines);
    order_bowls(out);
    write_lines(lines, out);
    weighed_ = false;
}

}  // namespace levigate
