#include "interpreter/expand/remedies.hpp"

#include <algorithm>

#include "interpreter/expand/batch.hpp"
#include "interpreter/expand/rounding.hpp"
#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// A bowl of a blend is asked for what was rounded before, so that a line may need a little more
/// than by its exact weight: half a step is added so often.
constexpr int most_goes = 16;

class Finder {
public:
    Finder(const MadeBy& by, Sheet& sheet)
        : by_(by), sheet_(sheet), scale_(scale_of(sheet.reading)) {}

    void operator()() {
        usual_ = !sheet_.reading.judges();
        const Exact least = usual_ ? Exact(1) : scale_.least_steps();
        for (std::uint32_t k = 0; k < sheet_.bowls.size(); ++k) {
            const Bowl& bowl = sheet_.bowls[k];
            off_.assign(bowl.lines.size(), Exact());
            for (std::uint32_t i = 0; i < bowl.lines.size(); ++i) {
                const SheetLine& line = bowl.lines[i];
                if (!(line.steps < least) || in_grams(line.exact).sign() <= 0) continue;
                if (sheet_.remedies.size() == most_remedies) return;
                sheet_.remedies.push_back(remedy(k, i));
            }
        }
    }

private:
    Remedy remedy(std::uint32_t k, std::uint32_t i) {
        Remedy out;
        out.bowl = k;
        out.line = i;
        out.usual = usual_;
        out.least = scale_.mass(scale_.least_steps());
        size_up(out);
        make_more(out);
        if (const Dilution* one = dilution_of(by_.formulary, line_of(out).what)) {
            out.why_not = NoAliquot::diluted;
            dilute_further(*one, out);
            return out;
        }
        out.diluent = diluent(k, i);
        dilute(out);
        return out;
    }

    const SheetLine& line_of(const Remedy& remedy) const {
        return sheet_.bowls[remedy.bowl].lines[remedy.line];
    }

    /// The largest line whose role is the base, else the largest other line.
    std::uint32_t diluent(std::uint32_t k, std::uint32_t small) const {
        const std::vector<SheetLine>& lines = sheet_.bowls[k].lines;
        const auto is_base = [&](const SheetLine& line) {
            return by_.base_role != no_name &&
                   by_.formulary.ingredients[line.what].role == by_.base_role;
        };
        std::uint32_t best = nothing;
        for (std::uint32_t i = 0; i < lines.size(); ++i) {
            if (i == small || dilution_of(by_.formulary, lines[i].what)) continue;
            const bool better = best == nothing || (is_base(lines[i]) && !is_base(lines[best])) ||
                                (is_base(lines[i]) == is_base(lines[best]) &&
                                 in_grams(lines[i].exact) > in_grams(lines[best].exact));
            if (better) best = i;
        }
        return best;
    }

    // ---- A larger batch ----

    /// What the line would read in a batch that comes to so much.
    Exact reads_at(const Mass& whole, const Remedy& remedy) {
        const BlueprintBowl& plan = by_.blueprint.bowls[remedy.bowl];
        if (plan.mix == no_ingredient)
            return scale_.steps(by_.blueprint.lines[plan.first + remedy.line].share * whole);
        larger_.reading = sheet_.reading;
        make_bowls(by_.blueprint, whole, larger_, asked_);
        return larger_.bowls[remedy.bowl].lines[remedy.line].steps;
    }

    bool fits(const Exact& times) const {
        const auto& most = sheet_.reading.up_to;
        return !most ||
               std::all_of(sheet_.bowls.begin(), sheet_.bowls.end(), [&](const Bowl& bowl) {
                   return in_grams(scale_.mass(bowl.steps)) * times <= in_grams(*most);
               });
    }

    /// The whole of the fewest containers that come to no less than `wanted`; their count stays.
    Mass in_containers(const Mass& wanted, Remedy& remedy) const {
        BatchSize size = *by_.size;
        ContainerCount& count = std::get<ContainerCount>(size.amount);
        const auto whole = [&](const Exact& containers) {
            count.count = containers;
            return batch_mass(by_.formulary, size, by_.density).value_or(Mass());
        };
        const Mass none = whole(0), one = whole(1) - none;
        const Exact containers = (in_grams(wanted - none) / in_grams(one)).ceil();
        const Mass all = whole(containers);
        remedy.containers = count;
        return all;
    }

    static bool more_than_counted(const BatchSize& size) {
        return size.overage != Share() || !std::holds_alternative<std::monostate>(size.holdback);
    }

    void size_up(Remedy& out) {
        const Mass& now = sheet_.onto ? *sheet_.onto : sheet_.total;
        const bool counted = by_.size && std::holds_alternative<ContainerCount>(by_.size->amount);
        const Exact& step = in_grams(scale_.step);
        for (int go = 0; go < most_goes; ++go) {
            const Exact line = in_grams(out.least) + step * Exact(go, 2);
            const Exact times = line / in_grams(line_of(out).exact);
            Mass wanted = grams((in_grams(now) * times / step).ceil() * step);
            if (counted) wanted = in_containers(wanted, out);
            const Exact grown = in_grams(wanted) / in_grams(now);
            if (!grown.known() || !fits(grown)) break;
            if (reads_at(grams(in_grams(sheet_.total) * grown), out) < scale_.least_steps())
                continue;
            out.batch = wanted;
            // Of --make the sheet doesn't keep what is made beyond the count: its weight tells.
            if (counted && sheet_.batch == nothing && more_than_counted(*by_.size))
                out.containers.reset();
            return;
        }
        out.containers.reset();
    }

    /// More of a blend than is asked for: what is over keeps.
    void make_more(Remedy& out) const {
        const BlueprintBowl& plan = by_.blueprint.bowls[out.bowl];
        if (plan.mix == no_ingredient) return;
        const Share& inside = by_.blueprint.lines[plan.first + out.line].inside;
        const Exact steps = (scale_.least_steps() / as_fraction(inside)).ceil();
        const auto& most = sheet_.reading.up_to;
        if (!steps.known() || (most && in_grams(scale_.mass(steps)) > in_grams(*most))) return;
        out.bowl_steps = steps;
    }

    // ---- An aliquot ----

    /// The strongest of the usual strengths at which so little of a dilution can be weighed.
    void dilute_further(const Dilution& one, Remedy& out) const {
        const Mass& there = line_of(out).exact;
        const Mass need = one.strength * there;
        Mass base = there - need;
        for (const SheetLine& line : sheet_.bowls[out.bowl].lines)
            if (line.what == one.base) base += line.exact;
        for (const std::int64_t parts : stock_strengths) {
            if (!taken_of_stock(need, base, parts, scale_)) continue;
            out.further = share(Exact(1, parts));
            return;
        }
    }

    void dilute(Remedy& out) {
        if (out.diluent == nothing) {
            out.why_not = NoAliquot::no_diluent;
            return;
        }
        const std::vector<SheetLine>& lines = sheet_.bowls[out.bowl].lines;
        const SheetLine& diluent = lines[out.diluent];
        const Mass need = lines[out.line].exact;
        const auto made = aliquot(need, scale_);
        if (!made) {
            out.why_not = NoAliquot::over_capacity;
            return;
        }
        // What a blend's bowl really holds of it stands in its reading.
        const bool own = sheet_.bowls[out.bowl].mix == no_ingredient;
        const Exact there = in_grams(own ? diluent.exact : scale_.mass(diluent.steps));
        Exact& off = off_[out.diluent];
        const Exact less = in_grams(made->take - need);
        const Exact reads = scale_.steps(grams(there - off - less));
        if (!(reads >= scale_.least_steps())) {
            out.why_not = NoAliquot::too_little;
            return;
        }
        AliquotRemedy& aliquot = out.aliquot.emplace();
        aliquot.factor = made->factor;
        aliquot.weigh = scale_.steps(made->weigh);
        aliquot.with = scale_.steps(made->with);
        aliquot.take = scale_.steps(made->take);
        aliquot.less = diluent.steps - scale_.steps(grams(there - less));
        aliquot.reads = reads;
        aliquot.others = !off.is_zero();
        off += less;
    }

    const MadeBy& by_;
    Sheet& sheet_;
    const Scale scale_;
    bool usual_ = false;
    std::vector<Exact> off_;  ///< of each line of the bowl: what aliquots before have taken of it
    Sheet larger_;
    std::vector<Exact> asked_;
};

}  // namespace

Scale scale_of(const Reading& reading) {
    const auto least = least_weight(reading);
    return {reading.step, least ? least->mass : least_by_error(sensitivity(reading), usual_error()),
            reading.up_to};
}

bool has_bowl(const Sheet& sheet, IngredientId what) {
    return std::any_of(sheet.bowls.begin(), sheet.bowls.end(),
                       [&](const Bowl& bowl) { return bowl.mix == what; });
}

void find_remedies(const MadeBy& by, Sheet& sheet) { Finder(by, sheet)(); }

std::string why_no_less(const Least& least, const Reading& reading) {
    if (least.by == LeastBy::stated) return {};
    if (least.by == LeastBy::error)
        return gram_words(sensitivity(reading)) + " is " + percent_words(*reading.error) +
               " of that";
    const auto& stated = reading.repeatability;
    if (stated && in_grams(*stated) > Exact(41, 100) * in_grams(reading.step))
        return "USP <41>, 2000 times its repeatability of " + gram_words(*stated);
    return std::string("USP <41>, 2000 times 0.41 steps of ") + gram_words(reading.step) +
           (stated ? " (its repeatability is less)" : ", since no repeatability is stated");
}

std::string read_words(const Exact& steps, const Reading& reading) {
    return (steps * in_grams(reading.step)).fixed(reading.places) + " g";
}

std::string batch_words(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy) {
    const std::string whole =
        read_words((in_grams(*remedy.batch) / in_grams(sheet.reading.step)).ceil(), sheet.reading);
    if (sheet.onto) return whole + " of the bulk";
    if (!remedy.containers) return whole;
    const ContainerCount& count = *remedy.containers;
    std::string out = count.count.exactly() + " " +
                      counted(formulary.containers[count.container].name, count.count);
    if (sheet.batch != nothing) {
        const BatchSize& size = formulary.shades[sheet.shade].batches[sheet.batch].size;
        if (size.overage != Share()) out += ", overage " + percent_words(size.overage);
        if (const Mass* held = std::get_if<Mass>(&size.holdback))
            out += ", holdback " + gram_words(*held);
        if (const Volume* held = std::get_if<Volume>(&size.holdback))
            out += ", holdback " + in_millilitres(*held).exactly() + " mL";
    }
    return out + " (" + whole + ")";
}

std::string remedy_sentence(const Formulary& formulary, const Sheet& sheet, const Remedy& remedy) {
    std::string out;
    if (remedy.batch)
        out = (sheet.onto ? "Add it to " : "Make ") + batch_words(formulary, sheet, remedy) +
              " or more";
    if (remedy.bowl_steps) {
        out += out.empty() ? "Make " : sheet.onto ? ", or make " : ", or ";
        out += read_words(*remedy.bowl_steps, sheet.reading) + " of " +
               formulary.name(sheet.bowls[remedy.bowl].mix) + " at once";
    }
    if (const auto& made = remedy.aliquot) {
        const SheetLine& diluent = sheet.bowls[remedy.bowl].lines[remedy.diluent];
        out += out.empty() ? "Weigh " : ", or weigh ";
        out += read_words(made->weigh, sheet.reading) + " of it with " +
               read_words(made->with, sheet.reading) + " of " + formulary.name(diluent.what) +
               ", take " + read_words(made->take, sheet.reading) + " of that, and weigh " +
               read_words(made->less, sheet.reading) + " less of " + formulary.name(diluent.what);
        if (has_bowl(sheet, diluent.what))
            out += " (make " + read_words(made->with - made->less, sheet.reading) +
                   " more of it for that)";
    }
    if (remedy.further)
        out += (out.empty() ? "Dilute" : ", or dilute") + std::string(" it further, to ") +
               percent_words(*remedy.further);
    if (out.empty()) return out;
    if (remedy.usual) out += " (for " + percent_words(usual_error()) + " of error)";
    return out + ".";
}

}  // namespace levigate
