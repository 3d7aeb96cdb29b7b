#include "interpreter/expand/sheet_ends.hpp"

#include <algorithm>
#include <unordered_map>

#include "interpreter/formulary/dilute.hpp"

namespace levigate {
namespace {

using MaybeEnds = std::optional<Ends>;

bool any_open(const std::vector<Ends>& all) {
    return std::any_of(all.begin(), all.end(), [](const Ends& one) { return one.open(); });
}

/// Numbers that grew beyond the digit cap tell nothing.
MaybeEnds known(const MaybeEnds& ends) {
    return ends && ends->least.known() && ends->most.known() ? ends : std::nullopt;
}

struct Adding {
    std::vector<Ends> sizes;  ///< one for each addition; those that go by others as they are
    Ends all = Ends::at(0);
    bool relative = false;
};

/// What a finish adds, as shares of the finished whole; nothing where it can't be told.
std::optional<Adding> adding(FigureEnds& figures, const Finishing& finishing) {
    Adding out;
    for (const Addition& addition : finishing.additions) {
        Ends& size = out.sizes.emplace_back(Ends::at(0));
        if (const auto* fixed = std::get_if<Share>(&addition.amount)) {
            size = Ends::at(as_fraction(*fixed));
            if (addition.estimated) {
                const MaybeEnds times = figures.poured(addition.what);
                if (!times) return std::nullopt;
                size = size * *times;
            }
        } else {
            out.relative = true;
        }
        out.all = out.all + size;
    }
    return out;
}

/// Of each line of the shade's own bowl, as a share of the finished whole.
ShareEnds finished_ends(FigureEnds& figures, const EndsFrom& from) {
    const ShareEnds bulk = figures.shares(from.bulk);
    if (!bulk || !from.finishing || from.finishing->additions.empty()) return bulk;
    const std::optional<Adding> more = adding(figures, *from.finishing);
    if (!more) return std::nullopt;
    std::vector<Ends> out;
    const bool open = any_open(*bulk) || any_open(more->sizes);
    if (open && (more->relative || !(more->all.most < Exact(1)))) return std::nullopt;
    for (std::size_t i = 0; i < from.finished.lines.size(); ++i) {
        const FinishedLine& line = from.finished.lines[i];
        if (!open) {
            out.push_back(Ends::at(as_fraction(line.share)));
            continue;
        }
        Ends own = Ends::at(0);
        for (std::size_t k = 0; k < more->sizes.size(); ++k)
            if (from.finishing->additions[k].what == line.what) own = own + more->sizes[k];
        const Ends inside = i < bulk->size() ? (*bulk)[i] : Ends::at(0);
        const Ends others{more->all.least - own.least, more->all.most - own.most};
        // More of its own takes from the bulk, and yet the line never has less of it.
        out.push_back({inside.least * (1 - own.least - others.most) + own.least,
                       inside.most * (1 - own.most - others.least) + own.most});
    }
    return out;
}

MaybeEnds density_of_lines(FigureEnds& figures, const std::vector<FinishedLine>& lines,
                           const ShareEnds& shares) {
    if (!shares) return std::nullopt;
    std::vector<std::pair<IngredientId, Ends>> mix;
    for (std::size_t i = 0; i < shares->size(); ++i) mix.emplace_back(lines[i].what, (*shares)[i]);
    return figures.of_mix(mix);
}

/// So much in grams; a volume by the density of the mix.
MaybeEnds weighed(const Ends& amount, bool volume, const MaybeEnds& density) {
    if (!volume) return amount;
    if (!density) return std::nullopt;
    return amount * *density;
}

/// What the size itself comes to, without overage and holdback.
MaybeEnds asked(const Formulary& formulary, const BatchSize& size, const MaybeEnds& density) {
    if (const Mass* mass = std::get_if<Mass>(&size.amount)) return Ends::at(in_grams(*mass));
    if (const Volume* volume = std::get_if<Volume>(&size.amount))
        return weighed(Ends::at(in_millilitres(*volume)), true, density);
    const ContainerCount& count = std::get<ContainerCount>(size.amount);
    const Container& container = formulary.containers[count.container];
    const bool volume = std::holds_alternative<Volume>(container.holds);
    const Exact held = volume ? in_millilitres(std::get<Volume>(container.holds))
                              : in_grams(std::get<Mass>(container.holds));
    return weighed(Ends::at(count.count) * Ends::around(held, container.holds_by), volume, density);
}

MaybeEnds total_ends(const Formulary& formulary, const BatchSize& size, const MaybeEnds& density) {
    MaybeEnds out = asked(formulary, size, density);
    if (!out) return out;
    *out = *out * Ends::at(1 + as_fraction(size.overage));
    MaybeEnds more = Ends::at(0);
    if (const Mass* mass = std::get_if<Mass>(&size.holdback)) more = Ends::at(in_grams(*mass));
    if (const Volume* volume = std::get_if<Volume>(&size.holdback))
        more = weighed(Ends::at(in_millilitres(*volume)), true, density);
    if (!more) return std::nullopt;
    return *out + *more;
}

/// The container that the sheet's batch is counted in, or else another batch of its shade.
ContainerId container_of(const Shade& shade, const BatchSize& size) {
    if (const auto* count = std::get_if<ContainerCount>(&size.amount)) return count->container;
    for (const Batch& batch : shade.batches)
        if (const auto* count = std::get_if<ContainerCount>(&batch.size.amount))
            return count->container;
    for (const Expectation& expect : shade.expects)
        if (expect.measure == Expectation::Measure::cost_per) return expect.container;
    return nothing;
}

/// How many containers that takes which is weighed: overage and holdback are not filled.
void count_pieces(const Formulary& formulary, const Shade& shade, const EndsFrom& from,
                  const Sheet& sheet, const MaybeEnds& density, SheetEnds& out) {
    const ContainerId id = container_of(shade, *from.size);
    if (id >= formulary.containers.size()) return;
    const Container& container = formulary.containers[id];
    Exact grams_filled;
    if (const Mass* mass = std::get_if<Mass>(&from.size->amount))
        grams_filled = in_grams(*mass);
    else if (from.size->holdback.index() == 0)
        grams_filled = in_grams(sheet.total) / (1 + as_fraction(from.size->overage));
    else
        return;  // what stays in the bowl is not told apart here
    Ends each;
    if (const Volume* volume = std::get_if<Volume>(&container.holds)) {
        if (!density) return;
        each = Ends::around(in_millilitres(*volume), container.holds_by) * *density;
    } else if (const Mass* mass = std::get_if<Mass>(&container.holds)) {
        each = Ends::around(in_grams(*mass), container.holds_by);
    } else {
        return;
    }
    if (!each.open()) return;
    out.container = id;
    out.pieces = known(Ends::at(grams_filled) / each);
}

/// Of the lines of a formula, one after the other, by name.
using NamedEnds = std::unordered_map<IngredientId, Ends>;

NamedEnds named(const std::vector<IngredientId>& what, const ShareEnds& ends) {
    NamedEnds out;
    for (std::size_t i = 0; ends && i < what.size(); ++i) out.emplace(what[i], (*ends)[i]);
    return out;
}

/// Of a line as it is weighed: a dilution holds what it stands for, and its base is weighed less.
/// What such a base may lie off by isn't told where the two hang together.
MaybeEnds inside_of(const Formulary& formulary, const Bowl& bowl, const SheetLine& line,
                    const NamedEnds& all) {
    const auto of = [&](IngredientId what) {
        const auto found = all.find(what);
        return found == all.end() ? MaybeEnds() : MaybeEnds(found->second);
    };
    if (formulary.dilutions.empty()) return of(line.what);
    if (const Dilution* one = dilution_of(formulary, line.what)) {
        const MaybeEnds thin = of(one->what);
        return thin ? MaybeEnds(*thin / Ends::at(as_fraction(one->strength))) : thin;
    }
    MaybeEnds out = of(line.what);
    for (const SheetLine& other : bowl.lines) {
        const Dilution* one = dilution_of(formulary, other.what);
        if (!out || !one || one->base != line.what) continue;
        const MaybeEnds thin = of(one->what);
        if (!thin || thin->open() || out->open()) return std::nullopt;
        const Exact brought = thin->least / as_fraction(one->strength) - thin->least;
        out = Ends::at(out->least - brought);
    }
    return out;
}

std::vector<IngredientId> names_in(const Formula& formula) {
    std::vector<IngredientId> out;
    for (const Part& part : formula.parts) out.push_back(part.what);
    return out;
}

/// Of each line, in a gram of the whole: from the shade's own bowl back to the blends in it.
void line_ends(FigureEnds& figures, const Formulary& formulary, const Sheet& sheet,
               const NamedEnds& own, std::vector<std::vector<MaybeEnds>>& out) {
    const std::size_t count = sheet.bowls.size();
    out.assign(count, {});
    std::vector<MaybeEnds> need(count, Ends::at(0));
    need.back() = Ends::at(1);
    std::unordered_map<IngredientId, std::size_t> bowls;
    for (std::size_t k = 0; k + 1 < count; ++k) bowls[sheet.bowls[k].mix] = k;
    for (std::size_t k = count; k-- > 0;) {
        const Bowl& bowl = sheet.bowls[k];
        NamedEnds blend;
        if (bowl.mix != no_ingredient) {
            const MixId mix = formulary.ingredients[bowl.mix].index;
            blend = named(names_in(formulary.mixes[mix].formula), figures.shares(mix));
        }
        const NamedEnds& all = bowl.mix == no_ingredient ? own : blend;
        for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
            MaybeEnds line = inside_of(formulary, bowl, bowl.lines[i], all);
            line = line && need[k] ? known(*line * *need[k]) : std::nullopt;
            out[k].push_back(line);
            const auto inner = bowls.find(bowl.lines[i].what);
            if (inner == bowls.end()) continue;
            MaybeEnds& sum = need[inner->second];
            sum = sum && line ? MaybeEnds(*sum + *line) : std::nullopt;
        }
    }
}

/// The additions alone: so much of the bulk is there, and the finish is a part of what comes out.
ShareEnds addition_ends(FigureEnds& figures, const EndsFrom& from) {
    if (!from.finishing) return std::vector<Ends>();
    const ShareEnds bulk = figures.shares(from.bulk);
    const std::optional<Adding> more = adding(figures, *from.finishing);
    if (!bulk || any_open(*bulk) || !more || any_open(more->sizes)) return std::nullopt;
    std::vector<Ends> out;
    for (const FinishedLine& line : from.finished.lines)
        if (line.addition) out.push_back(Ends::at(as_fraction(line.added)));
    return out;
}

}  // namespace

MixEnds mix_ends(FigureEnds& figures, const Formulary& formulary, const EndsFrom& from,
                 const Sheet& sheet) {
    MixEnds out;
    ShareEnds own = from.size ? finished_ends(figures, from) : addition_ends(figures, from);
    out.density = from.size
                      ? density_of_lines(figures, from.finished.lines, own)
                      : density_of_lines(figures, from.finished.lines, figures.shares(from.bulk));
    std::vector<IngredientId> what;  // of which `own` tells
    for (const FinishedLine& line : from.finished.lines)
        if (from.size || line.addition) what.push_back(line.what);
    line_ends(figures, formulary, sheet, named(what, own), out.lines);
    return out;
}

SheetEnds sheet_ends(const Formulary& formulary, const EndsFrom& from, const MixEnds& mix,
                     const Sheet& sheet) {
    SheetEnds out;
    if (from.size) {
        out.total = known(total_ends(formulary, *from.size, mix.density));
        count_pieces(formulary, formulary.shades[sheet.shade], from, sheet, mix.density, out);
    } else {
        MaybeEnds there = Ends::at(in_grams(*sheet.onto));
        if (from.there) there = weighed(Ends::at(in_millilitres(*from.there)), true, mix.density);
        if (there) out.total = known(*there / Ends::at(as_fraction(from.finished.bulk)));
    }
    for (std::size_t k = 0; k < mix.lines.size(); ++k) {
        std::vector<MaybeEnds>& lines = out.lines.emplace_back();
        for (std::size_t i = 0; i < mix.lines[k].size(); ++i) {
            const MaybeEnds& one = mix.lines[k][i];
            if (!one || !out.total)
                lines.emplace_back();
            else if (!one->open() && !out.total->open())
                lines.push_back(Ends::at(in_grams(sheet.bowls[k].lines[i].exact)));
            else
                lines.push_back(known(*one * *out.total));
        }
    }
    return out;
}

}  // namespace levigate
