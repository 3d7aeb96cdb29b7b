#include "interpreter/expand/stock.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/written_name.hpp"

namespace levigate {

StockDilutions::Want& StockDilutions::want(IngredientId of, IngredientId in,
                                           const Reading& reading) {
    const auto same = [&](const Want& want) {
        return want.of == of && want.in == in && want.reading.balance == reading.balance &&
               in_grams(want.reading.step) == in_grams(reading.step);
    };
    auto found = std::find_if(wants_.begin(), wants_.end(), same);
    if (found != wants_.end()) return *found;
    Want& fresh = wants_.emplace_back();
    fresh.of = of;
    fresh.in = in;
    fresh.reading = reading;
    return fresh;
}

namespace {

bool is_base(const Formulary& formulary, const Bowl& bowl, IngredientId what) {
    return std::any_of(bowl.lines.begin(), bowl.lines.end(), [&](const SheetLine& line) {
        const Dilution* one = dilution_of(formulary, line.what);
        return one && one->base == what;
    });
}

/// What a bowl gives of its exact amounts at the least. A blend's is asked for what was rounded,
/// and once others are diluted, for a step less perhaps.
Exact part_made(const Bowl& bowl, const Exact& step) {
    if (bowl.mix == no_ingredient) return 1;
    Exact whole;
    for (const SheetLine& line : bowl.lines) whole += in_grams(line.exact);
    const Exact made = (bowl.asked - 1) * step / whole;
    return made.sign() > 0 ? std::min(Exact(1), made) : Exact();
}

}  // namespace

void StockDilutions::add(const Formulary& formulary, const Sheet& sheet) {
    for (const Remedy& remedy : sheet.remedies) {
        const Bowl& bowl = sheet.bowls[remedy.bowl];
        const SheetLine& small = bowl.lines[remedy.line];
        const StockUse where{sheet.shade, sheet.version, sheet.finishing, sheet.batch, bowl.mix};
        // What a dilution is made with is no line to dilute.
        if (remedy.diluent == nothing || is_base(formulary, bowl, small.what)) {
            left_.push_back({small.what, where});
            continue;
        }
        const SheetLine& diluent = bowl.lines[remedy.diluent];
        Want& into = want(small.what, diluent.what, sheet.reading);
        if (in_grams(into.least) < in_grams(remedy.least)) into.least = remedy.least;
        const Exact part = part_made(bowl, in_grams(sheet.reading.step));
        into.uses.push_back(
            {where, grams(in_grams(small.exact) * part), grams(in_grams(diluent.exact) * part)});
    }
}

/// One dilution after the other, each beside those that were settled before.
class StockDilutions::Settler {
public:
    void add(const Want& want) {
        const Scale scale{want.reading.step, want.least, want.reading.up_to};
        StockDilution out;
        if (!choose(want, scale, out)) return;
        for (const Use& use : want.uses)
            if (blocked(want, use))
                leave(want, use);
            else if (taken(want, use, out.parts, scale))
                out.serves.push_back(use.where);
            else
                out.leaves.push_back(use.where);
        note(want, out);
        for (const StockUse& use : out.leaves) stocks_.left.push_back({want.of, use});
        stocks_.dilutions.push_back(std::move(out));
    }

    Stocks stocks_;

private:
    /// What stands in a formula already: of what, in what, and what it takes of that line.
    struct Taken {
        IngredientId of, in;
        Exact part;
    };
    /// A blend, or a shade with its variants.
    using Formula = std::pair<bool, std::uint32_t>;
    static Formula formula(const StockUse& use) {
        return use.mix != no_ingredient ? Formula{true, use.mix} : Formula{false, use.shade};
    }

    /// A base isn't diluted itself, and a name is diluted once.
    bool blocked(const Want& want, const Use& use) const {
        const auto found = taken_.find(formula(use.where));
        return found != taken_.end() &&
               std::any_of(found->second.begin(), found->second.end(), [&](const Taken& one) {
                   return one.of == want.of || one.in == want.of || one.of == want.in;
               });
    }

    /// Of a base, what the dilutions before take: 1 where nothing is left of its line.
    Exact gone(const Formula& formula, IngredientId base) const {
        Exact part;
        if (const auto found = taken_.find(formula); found != taken_.end())
            for (const Taken& one : found->second)
                if (one.in == base) part += one.part;
        return part;
    }

    std::optional<Exact> taken(const Want& want, const Use& use, std::int64_t parts,
                               const Scale& scale) const {
        const Exact there = in_grams(use.diluent) * (1 - gone(formula(use.where), want.in));
        return taken_of_stock(use.need, grams(there), parts, scale);
    }

    /// The strongest that serves the most lines.
    bool choose(const Want& want, const Scale& scale, StockDilution& out) {
        std::size_t most = 0;
        Exact wanted;
        for (const std::int64_t parts : stock_strengths) {
            std::size_t served = 0;
            Exact steps;
            for (const Use& use : want.uses) {
                const auto one = blocked(want, use) ? std::nullopt : taken(want, use, parts, scale);
                if (!one) continue;
                ++served;
                steps += *one;
            }
            if (served <= most) continue;
            most = served;
            wanted = steps;
            out.parts = parts;
        }
        const auto weigh = most > 0 ? stock_to_prepare(scale.mass(wanted), out.parts, scale)
                                    : std::optional<Exact>();
        if (!weigh) {
            for (const Use& use : want.uses) leave(want, use);
            return false;
        }
        out.of = want.of;
        out.in = want.in;
        out.reading = want.reading;
        out.weigh = *weigh;
        out.with = *weigh * (out.parts - 1);
        return true;
    }

    /// No line any more where it went into dilutions whole.
    void leave(const Want& want, const Use& use) {
        if (gone(formula(use.where), want.of) != Exact(1))
            stocks_.left.push_back({want.of, use.where});
    }

    /// The line stands in each formula that it serves, and acts on all its batches.
    void note(const Want& want, const StockDilution& out) {
        std::map<Formula, Exact> parts;
        for (const StockUse& use : out.serves) parts.emplace(formula(use), Exact());
        for (const Use& use : want.uses)
            if (const auto one = parts.find(formula(use.where));
                one != parts.end() && in_grams(use.diluent).sign() > 0)
                one->second = std::max(one->second, (out.parts - 1) * in_grams(use.need) /
                                                        in_grams(use.diluent));
        for (const auto& [formula, part] : parts)
            taken_[formula].push_back({want.of, want.in, part});
    }

    std::map<Formula, std::vector<Taken>> taken_;
};

Stocks StockDilutions::settle() const {
    Settler settler;
    settler.stocks_.left = left_;
    for (const Want& want : wants_) settler.add(want);
    return std::move(settler.stocks_);
}

std::string dilute_line(const Formulary& formulary, const StockDilution& stock) {
    return "dilute " + written_name(formulary.name(stock.of)) + " to " +
           (Exact(100) / stock.parts).exactly() + " % in " + written_name(formulary.name(stock.in));
}

std::string use_words(const Formulary& formulary, const StockUse& use) {
    const Shade& shade = formulary.shades[use.shade];
    std::string out = sheet_title(formulary, shade, shade.versions[use.version], use.finishing);
    if (use.batch != nothing) out += ", " + shade.batches[use.batch].name;
    if (use.mix != no_ingredient) out += ": " + formulary.name(use.mix);
    return out;
}

}  // namespace levigate
