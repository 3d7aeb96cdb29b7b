#include "interpreter/rescue/rescue.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/rescue/after.hpp"
#include "interpreter/rescue/restore.hpp"

namespace levigate {
namespace {

const Shade& shade_of(const Formulary& formulary, const RescueOrder& order) {
    return formulary.shades[order.product.shade];
}

std::string title(const Formulary& formulary, const RescueOrder& order) {
    const Shade& shade = shade_of(formulary, order);
    return sheet_title(formulary, shade, shade.versions[order.product.version],
                       order.product.finishing);
}

/// The lines of the shade's own bowl, as its formula has them, that hold anything, and where each
/// ingredient stands.
class Bowls {
public:
    Bowls(const Formulary& formulary, const RescueOrder& order)
        : formulary_(formulary), order_(order) {
        for (const SheetLine& line : order.product.bowls.back().lines)
            if (as_fraction(line.share).sign() > 0) {
                RescueLine& one = lines.emplace_back();
                one.what = line.what;
                one.wanted = line.share;
            }
    }

    RescueLine* line(IngredientId what) {
        for (RescueLine& one : lines)
            if (one.what == what) return &one;
        return nullptr;
    }

    void pour(const Pour& pour) {
        if (RescueLine* one = line(pour.what)) {
            one->poured += pour.mass;
        } else if (pour_dilution(pour)) {
            // counted as what is in it
        } else if (pour.shade == order_.product.shade && pour.shade != nothing) {
            pour_bulk(pour.mass);
        } else {
            foreign_.push_back(&pour);
        }
        in_bowl += pour.mass;
    }

    /// What isn't in the shade can't be taken out again.
    void say_foreign(Findings& findings) const {
        for (const Pour* pour : foreign_)
            findings.push_back(
                {Code::pour_foreign,
                 fmt::format("{} is not in the bowl of {}, and is {} of what was poured: the "
                             "formula can't be restored.",
                             pour->name, title(formulary_, order_),
                             percent_words(share_of(pour->mass, in_bowl))),
                 pour->span,
                 within(pour->what)
                     ? "It is part of a blend of this shade. Pour the rest of that blend as well, "
                       "and count them as the blend; else begin again."
                     : "Begin again, or write what is in the bowl now as a shade of its own."});
    }

    std::vector<RescueLine> lines;
    Mass in_bowl;

private:
    /// The made bulk counts as what is in it.
    void pour_bulk(const Mass& mass) {
        const Formula& bulk = shade_of(formulary_, order_).versions[order_.product.version].formula;
        for (std::size_t i = 0; i < bulk.parts.size(); ++i)
            if (RescueLine* one = line(bulk.parts[i].what)) one->poured += bulk.shares[i] * mass;
    }

    /// A dilution counts as what it dilutes, and its base. False where it is none of these lines.
    bool pour_dilution(const Pour& pour) {
        const Dilution* one = dilution_of(formulary_, pour.what);
        RescueLine *thin = one ? line(one->what) : nullptr, *base = one ? line(one->base) : nullptr;
        if (!thin || !base) return false;
        thin->poured += one->strength * pour.mass;
        base->poured += (share(1) - one->strength) * pour.mass;
        return true;
    }

    bool within(IngredientId what) const {
        for (const Bowl& bowl : order_.product.bowls)
            for (const SheetLine& line : bowl.lines)
                if (what != no_ingredient && line.what == what) return true;
        return false;
    }

    const Formulary& formulary_;
    const RescueOrder& order_;
    std::vector<const Pour*> foreign_;
};

std::vector<Wanted> wanted(const std::vector<RescueLine>& lines) {
    std::vector<Wanted> out;
    for (const RescueLine& line : lines) out.push_back({line.wanted, line.poured, line.there});
    return out;
}

/// What there is of each line; what is named and not in the shade helps nobody, and says so.
void set_there(const RescueOrder& order, Bowls& bowls, Findings& findings) {
    for (const Pour& pour : order.there) {
        RescueLine* line = bowls.line(pour.what);
        if (line)
            line->there = line->there ? *line->there + pour.mass : pour.mass;
        else
            findings.push_back(
                {Code::pour_foreign,
                 fmt::format("{} is not in this bowl, so that none of it is added.", pour.name),
                 pour.span, "Leave it out."});
    }
}

std::vector<RescuePour> pour_all(const RescueOrder& order, Bowls& bowls, Findings& findings) {
    std::vector<RescuePour> chain;
    for (const std::vector<Pour>& pours : order.poured) {
        for (const Pour& pour : pours) bowls.pour(pour);
        chain.push_back({pours, bowls.in_bowl, least_total(wanted(bowls.lines))});
    }
    bowls.say_foreign(findings);
    return chain;
}

/// Why nothing came of it.
Finding refusal(const Formulary& formulary, const RescueOrder& order, const Bowls& bowls,
                Restored::How how) {
    const std::string shade = title(formulary, order);
    if (how == Restored::How::over_full)
        return {Code::rescue_room,
                fmt::format("{} are in the bowl of {}, and it may hold {}.",
                            gram_words(bowls.in_bowl), shade, gram_words(*order.room)),
                Span{}, "Give more room, or take some out into a second bowl."};
    if (how == Restored::How::unknown)
        return {Code::number_too_long,
                fmt::format("{} has more lines or longer numbers than a nearest mix is sought for.",
                            shade),
                Span{}, "Give more room and stock, so that the formula can be restored exactly."};
    std::vector<std::string> lacking;
    for (const RescueLine& line : bowls.lines)
        if (line.there && in_grams(*line.there).is_zero())
            lacking.push_back(formulary.name(line.what));
    if (lacking.empty())
        return {Code::rescue_nothing,
                fmt::format("Nothing is in the bowl of {}, and no batch is named.", shade), Span{},
                "Name a batch with --batch or --make, or go by the sheet of `levigate weigh`."};
    return {Code::rescue_nothing,
            fmt::format("Nothing is in the bowl of {}, and there is no {}.", shade,
                        list_words(lacking)),
            Span{}, "Nothing can be made of it until there is some."};
}

}  // namespace

Outcome<std::optional<Rescue>> rescue(const Formulary& formulary, const Names& names,
                                      const RescueOrder& order) {
    Outcome<std::optional<Rescue>> out;
    Bowls bowls(formulary, order);
    Rescue made;
    made.chain = pour_all(order, bowls, out.findings);
    set_there(order, bowls, out.findings);
    if (any_error(out.findings)) return out;
    made.room = order.room;
    if (order.sized) made.planned = order.product.total;
    const Restored restored = restore(wanted(bowls.lines), {made.room, made.planned});
    if (restored.how != Restored::How::exactly && restored.how != Restored::How::nearest) {
        out.findings.push_back(refusal(formulary, order, bowls, restored.how));
        return out;
    }
    made.restored = restored.how == Restored::How::exactly;
    made.in_bowl = bowls.in_bowl;
    made.total = restored.total;
    made.lines = std::move(bowls.lines);
    for (std::size_t i = 0; i < made.lines.size(); ++i) {
        RescueLine& line = made.lines[i];
        line.add = restored.add[i];
        line.then = share_of(line.poured + line.add, made.total);
    }
    After(formulary, names, order, made).look(out.findings);
    out.value = std::move(made);
    return out;
}

}  // namespace levigate
