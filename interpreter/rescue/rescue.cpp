#include "interpreter/rescue/rescue.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/rescue/after.hpp"
#include "interpreter/rescue/pours.hpp"
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

std::vector<Wanted> wanted(const std::vector<RescueLine>& lines) {
    std::vector<Wanted> out;
    for (const RescueLine& line : lines) out.push_back({line.wanted, line.poured, line.there});
    return out;
}

/// The steps that still fit in: what is in the bowl may read more than it is, and yet no more is
/// said than fits.
std::optional<Exact> most_steps(const Rescue& rescue, const Exact& step) {
    if (!rescue.room) return std::nullopt;
    const Exact room = in_grams(*rescue.room);
    const Exact left = ((room - in_grams(rescue.in_bowl)) / step).floor();
    return std::max(Exact(), std::min(left, (room / step).floor() - rescue.there));
}

/// A bowl as it was poured, and what would restore it.
struct Tried {
    Rescue rescue;
    Restored restored;
    BowlLines bowl;
};

Tried try_rescue(const Formulary& formulary, const RescueOrder& order, bool wide,
                 Findings& findings) {
    Tried out{{}, {}, BowlLines(formulary, order, wide)};
    BowlLines& bowl = out.bowl;
    Rescue& made = out.rescue;
    for (const std::vector<Pour>& pours : order.poured) {
        for (const Pour& pour : pours) bowl.pour(pour);
        made.chain.push_back({pours, bowl.in_bowl, least_total(wanted(bowl.lines))});
    }
    bowl.say_foreign(title(formulary, order), findings);
    for (const Pour& pour : order.there) bowl.limit(pour, findings);
    made.opened = bowl.opened();
    made.in_bowl = bowl.in_bowl;
    made.room = order.room;
    if (order.sized) made.planned = order.product.total;
    if (any_error(findings)) return out;
    // Less than the balance shows is nothing.
    for (RescueLine& line : bowl.lines)
        if (line.there && *line.there < order.product.reading.step) line.there = Mass();
    out.restored = restore(wanted(bowl.lines), {made.room, made.planned});
    return out;
}

/// Restored at all, then with less in the bowl; else nearer.
bool serves_more(const Restored& a, const Restored& b) {
    const bool exactly = a.how == Restored::How::exactly;
    if (exactly != (b.how == Restored::How::exactly)) return exactly;
    return exactly ? a.total < b.total : a.how == Restored::How::nearest && a.off < b.off;
}

/// Where a powder has a line of its own and is part of a blend besides, the blend is opened if that
/// serves more: what is too much of it for its line may be good in the blend.
Tried try_rescue(const Formulary& formulary, const RescueOrder& order, Findings& findings) {
    Tried out = try_rescue(formulary, order, false, findings);
    if (!out.bowl.could_open() || any_error(findings)) return out;
    Findings of_other;
    Tried other = try_rescue(formulary, order, true, of_other);
    const bool other_serves = !any_error(of_other) && serves_more(other.restored, out.restored);
    return other_serves ? std::move(other) : std::move(out);
}

/// Why nothing came of it.
Finding refusal(const Formulary& formulary, const RescueOrder& order, const BowlLines& bowl,
                Restored::How how) {
    const std::string shade = title(formulary, order);
    if (how == Restored::How::over_full)
        return {Code::rescue_room,
                fmt::format("{} are in the bowl of {}, and it may hold {}.",
                            gram_words(bowl.in_bowl), shade, gram_words(*order.room)),
                Span{}, "Give more room, or take some out into a second bowl."};
    if (how == Restored::How::unknown)
        return {Code::number_too_long,
                fmt::format("{} has more lines or longer numbers than a nearest mix is sought for.",
                            shade),
                Span{}, "Give more room and stock, so that the formula can be restored exactly."};
    std::vector<std::string> lacking;
    for (const RescueLine& line : bowl.lines)
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

/// What to weigh. If the formula is restored, that is the exact additions to the nearest steps;
/// else it is what comes of it.
void weigh_out(const Restored& restored, const Mass& step, Rescue& made) {
    const Stepped stepped = in_steps(wanted(made.lines), restored, {made.room, made.planned}, step,
                                     most_steps(made, in_grams(step)));
    made.restored = restored.how == Restored::How::exactly;
    made.any_size = restored.any_size;
    made.compared = stepped.compared;
    made.total = made.in_bowl;
    for (std::size_t i = 0; i < made.lines.size(); ++i) {
        RescueLine& line = made.lines[i];
        line.steps = stepped.add[i];
        line.add = made.any_size ? restored.add[i] : grams(line.steps * in_grams(step));
        made.total += line.add;
    }
    for (RescueLine& line : made.lines) line.then = share_of(line.poured + line.add, made.total);
}

}  // namespace

Outcome<std::optional<Rescue>> rescue(const Formulary& formulary, const Names& names,
                                      const RescueOrder& order) {
    Outcome<std::optional<Rescue>> out;
    Tried tried = try_rescue(formulary, order, out.findings);
    if (any_error(out.findings)) return out;
    const Restored& restored = tried.restored;
    if (restored.how != Restored::How::exactly && restored.how != Restored::How::nearest) {
        out.findings.push_back(refusal(formulary, order, tried.bowl, restored.how));
        return out;
    }
    Rescue made = std::move(tried.rescue);
    made.lines = std::move(tried.bowl.lines);
    const Mass& step = order.product.reading.step;
    made.there = steps_half_up(in_grams(made.in_bowl), in_grams(step));
    weigh_out(restored, step, made);
    After(formulary, names, order, made).look(out.findings);
    out.value = std::move(made);
    return out;
}

}  // namespace levigate
