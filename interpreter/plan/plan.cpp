#include "interpreter/plan/plan.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>

#include "interpreter/expand/rounding.hpp"
#include "interpreter/expand/select.hpp"
#include "interpreter/expand/size.hpp"
#include "interpreter/expand/words.hpp"
#include "interpreter/formulary/dilute.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/plan/join.hpp"
#include "interpreter/plan/weighed_needs.hpp"

namespace levigate {
namespace {

/// More than anybody makes at once; all their bowls are kept until the end.
constexpr std::size_t most_batches = 1000;

std::optional<std::string> name_behind(const Names& names, Sym sym) {
    if (sym == no_name) return std::nullopt;
    return std::string(names.folded(sym));
}

Choice choice_of(const Names& names, const PlanLine& line, const std::optional<Reading>& reading,
                 const Strictness& strict) {
    Choice out;
    out.only = line.shade;
    out.variant = name_behind(names, line.variant);
    out.finish = name_behind(names, line.finish);
    out.batch = name_behind(names, line.batch);
    out.make = line.size;
    out.reading = reading;
    out.strict = strict;
    out.words = false;  // filled once all bowls are there
    return out;
}

/// What is said of a batch's own bowl and of what is in it; of blends the plan has bowls of its
/// own.
Findings own_findings(const Formulary& formulary, const Sheet& sheet, const Blueprint& blueprint) {
    const auto of_blend = [&](const Finding& finding) {
        if (!about_weighing(finding.code)) return false;
        for (std::size_t k = 0; k + 1 < blueprint.bowls.size(); ++k) {
            const BlueprintBowl& bowl = blueprint.bowls[k];
            if (finding.span == formulary.ingredients[bowl.mix].span) return true;
            for (std::uint32_t n = bowl.first; n < bowl.first + bowl.count; ++n)
                if (finding.span == blueprint.lines[n].span) return true;
        }
        return false;
    };
    Findings out = sheet.findings;
    std::erase_if(out, of_blend);
    return out;
}

/// Grams for one container, of a batch that is counted in them and comes to `whole`.
Exact each_container(const Formulary& formulary, const BatchSize& size, const Exact& whole) {
    const auto& count = std::get<ContainerCount>(size.amount);
    const Exact over = 1 + as_fraction(size.overage);
    const auto& holds = formulary.containers[count.container].holds;
    if (const Mass* mass = std::get_if<Mass>(&holds)) return over * in_grams(*mass);
    Exact held_back;  // in grams
    if (const Mass* mass = std::get_if<Mass>(&size.holdback)) held_back = in_grams(*mass);
    if (const Volume* volume = std::get_if<Volume>(&size.holdback)) {
        const Exact filled = over * count.count * in_millilitres(std::get<Volume>(holds));
        held_back = whole * in_millilitres(*volume) / (filled + in_millilitres(*volume));
    }
    return (whole - held_back) / count.count;
}

/// Whole containers that `times` the batch fills, what stays in the bowl taken off.
Exact filled_by(const PlanBatch& batch, const Exact& times) {
    const Exact count =
        ((in_grams(batch.sheet.total) * times - batch.holdback) / batch.each).floor();
    return count.sign() < 0 ? Exact() : count;
}

/// Tells materials and containers apart by one number.
std::uint64_t key(const Needed& of) { return std::uint64_t{of.material} << 32 | of.container; }

class Planner {
public:
    Planner(const Formulary& formulary, const Names& names, const Plan& plan,
            const std::optional<Reading>& reading, const Strictness& strict)
        : formulary_(formulary), names_(names), reading_(reading), strict_(strict) {
        out_.plan = &plan;
        for (const Stock& stock : formulary.shelf)
            shelf_[key({stock.material, stock.container, {}})].push_back(&stock);
    }

    Planned operator()() {
        if (out_.plan->lines.size() > most_batches) {
            report_too_many();
            return std::move(out_);
        }
        WorkCounter work(formulary_);
        for (const PlanLine& line : out_.plan->lines)
            work.add(select(formulary_, names_, choice_of(names_, line, reading_, strict_)));
        if (work.too_much()) {
            out_.findings.push_back(say_too_much(out_.plan->span));
            return std::move(out_);
        }
        for (const PlanLine& line : out_.plan->lines) draw(line);
        if (out_.batches.empty() || !settle_reading()) {
            out_.batches.clear();
            return std::move(out_);
        }
        make_all_bowls();
        fill_all_words();
        supply_all();
        find_largest();
        return std::move(out_);
    }

private:
    void report_too_many() {
        out_.findings.push_back({Code::too_many_sheets,
                                 "More than " + std::to_string(most_batches) +
                                     " batches stand in " + out_.plan->name + ".",
                                 out_.plan->span, "Write several plans of fewer batches."});
    }

    void draw(const PlanLine& line) {
        bool made = false;
        const Choice choice = choice_of(names_, line, reading_, strict_);
        Findings found =
            expand_drawn(formulary_, names_, choice, [&](Sheet& sheet, const Blueprint& blueprint) {
                made = true;
                const BatchSize& size =
                    line.size ? *line.size
                              : formulary_.shades[line.shade].batches[sheet.batch].size;
                add_batch(sheet, blueprint, size);
            });
        for (Finding& finding : found) {
            if (!finding.span) finding.span = line.span;
            out_.findings.push_back(std::move(finding));
        }
        if (!made) out_.left_out.push_back(formulary_.shades[line.shade].name);
    }

    void add_batch(const Sheet& sheet, const Blueprint& blueprint, const BatchSize& size) {
        PlanBatch& batch = out_.batches.emplace_back();
        batch.sheet = sheet;
        batch.sheet.findings = own_findings(formulary_, sheet, blueprint);
        for (const Finding& finding : batch.sheet.findings) out_.findings.push_back(finding);
        drawn_.push_back({blueprint, sheet.total});
        out_.total += sheet.total;
        const auto* count = std::get_if<ContainerCount>(&size.amount);
        if (!count) return;
        batch.filled = *count;
        const Exact& whole = in_grams(sheet.total);
        batch.each = each_container(formulary_, size, whole);
        batch.holdback = whole - batch.each * count->count;
    }

    /// Blends are weighed once for all, so that all must be weighed on one balance.
    bool settle_reading() {
        out_.reading = out_.batches.front().sheet.reading;
        for (const PlanBatch& batch : out_.batches) {
            const Reading& other = batch.sheet.reading;
            if (in_grams(other.step) == in_grams(out_.reading.step) &&
                other.balance == out_.reading.balance)
                continue;
            out_.findings.push_back(
                {Code::balance_choice,
                 "The shades of " + out_.plan->name +
                     " are weighed on different balances, and what they share is weighed once.",
                 out_.plan->span,
                 "Say in which steps all of it is weighed, as in `--reads 0.01g`."});
            return false;
        }
        return true;
    }

    void make_all_bowls() {
        const Blueprint joined = join(formulary_, drawn_, out_.total);
        Sheet sheet;
        sheet.reading = out_.reading;
        std::vector<Exact> asked;
        make_bowls(joined, out_.total, sheet, asked);
        const std::size_t blends = sheet.bowls.size() - out_.batches.size();
        for (std::size_t k = 0; k < sheet.bowls.size(); ++k) {
            PlanBowl& bowl = out_.bowls.emplace_back();
            bowl.bowl = sheet.bowls[k];
            if (k >= blends) bowl.batch = k - blends;
        }
        for (std::size_t k = 0; k < sheet.bowls.size(); ++k)
            for (std::uint32_t n = 0; n < joined.bowls[k].count; ++n)
                if (const auto inner = joined.lines[joined.bowls[k].first + n].bowl;
                    inner != nothing)
                    out_.bowls[inner].portions.push_back({k, sheet.bowls[k].lines[n].steps});
        materials_ = sheet.materials;
        weighed_.emplace(formulary_, sheet.bowls, out_.reading);
        for (PlanBowl& bowl : out_.bowls) {
            for (const SheetLine& line : bowl.bowl.lines)
                bowl.needs.push_back(line.steps * in_grams(out_.reading.step));
            if (dilution_of(formulary_, bowl.bowl.mix))
                bowl.kept = bowl.bowl.steps - bowl.bowl.asked;
        }
        sheet.bowls.resize(blends);
        sheet.findings.clear();
        judge_weighing(formulary_, joined, out_.plan->name, out_.plan->span, sheet);
        for (Finding& finding : sheet.findings) out_.findings.push_back(std::move(finding));
    }

    /// What a step says of a blend is what the plan weighs of it.
    void fill_all_words() {
        std::vector<Bowl> blends;
        for (const PlanBowl& bowl : out_.bowls)
            if (bowl.batch == nothing) blends.push_back(bowl.bowl);
        for (PlanBowl& bowl : out_.bowls) {
            if (bowl.batch == nothing) continue;
            Sheet sheet = out_.batches[bowl.batch].sheet;
            sheet.bowls = blends;
            sheet.bowls.push_back(bowl.bowl);
            fill_words(formulary_, sheet);
            for (std::size_t k = 0; k < blends.size(); ++k) {
                out_.bowls[k].bowl.steps_text = sheet.bowls[k].steps_text;
                out_.bowls[k].bowl.notes = sheet.bowls[k].notes;
            }
            bowl.bowl.steps_text = sheet.bowls.back().steps_text;
            bowl.bowl.notes = sheet.notes;
        }
    }

    void supply_all() {
        std::unordered_map<IngredientId, std::vector<Use>> uses;
        for (std::size_t k = 0; k < out_.bowls.size(); ++k)
            for (std::size_t n = 0; n < out_.bowls[k].needs.size(); ++n)
                uses[out_.bowls[k].bowl.lines[n].what].push_back({k, out_.bowls[k].needs[n]});
        for (const Needed& need : material_needs(uses)) add_supply(need, uses[need.material]);
        std::map<ContainerId, std::vector<Use>> filled;
        for (std::size_t i = 0; i < out_.batches.size(); ++i)
            if (const auto& count = out_.batches[i].filled)
                filled[count->container].push_back({i, count->count});
        for (const auto& [container, of] : filled) {
            Exact count;
            for (const Use& use : of) count += use.amount;
            add_supply({no_ingredient, container, count}, of);
        }
    }

    /// All that is weighed of each, the most needed first.
    std::vector<Needed>
    material_needs(const std::unordered_map<IngredientId, std::vector<Use>>& uses) const {
        std::vector<Needed> out;
        for (const MaterialLine& line : materials_) {
            Needed& need = out.emplace_back(Needed{line.what, nothing, {}});
            if (const auto of = uses.find(line.what); of != uses.end())
                for (const Use& use : of->second) need.amount += use.amount;
        }
        std::stable_sort(out.begin(), out.end(),
                         [](const Needed& a, const Needed& b) { return b.amount < a.amount; });
        return out;
    }

    void add_supply(const Needed& need, const std::vector<Use>& uses) {
        std::optional<Mass> step;
        if (need.material != no_ingredient) step = out_.reading.step;
        Supply made =
            supply(formulary_, need, shelf_[key(need)], uses, step, out_.plan->on, out_.findings);
        if (made.cost) {
            if (const Coin* coin = std::get_if<Coin>(&*made.cost))
                out_.to_buy.add(*coin);
            else
                out_.lacking.push_back(std::get<Lack>(*made.cost));
        }
        have_[key(need)] = made.have;
        out_.supplies.push_back(std::move(made));
    }

    std::vector<Exact> have_of(const std::vector<Needed>& needs) {
        std::vector<Exact> out;
        for (const Needed& need : needs) out.push_back(have_[key(need)]);
        return out;
    }

    /// As the sheet's bowls weigh them.
    static void weigh_in_steps(const Sheet& sheet, std::vector<Needed>& needs) {
        std::unordered_map<IngredientId, Exact> steps;
        for (const Bowl& bowl : sheet.bowls)
            for (const SheetLine& line : bowl.lines) steps[line.what] += line.steps;
        for (Needed& need : needs)
            need.amount = steps[need.material] * in_grams(sheet.reading.step);
    }

    /// What the exact needs let be made, and then less, until what is kept of dilutions is there as
    /// well. Needs never grow slower than before, so that going down the slope passes no answer.
    Largest largest_of(const std::vector<Needed>& needs, const WeighedNeeds& weighed) {
        const std::vector<Exact> have = have_of(needs);
        Largest out = largest(needs, have);
        for (bool over = true; over && out.times && out.times->sign() > 0;) {
            over = false;
            auto grown = weighed.sums_at(*out.times);
            for (std::size_t i = 0; i < needs.size(); ++i) {
                if (needs[i].material == no_ingredient) continue;
                const Growing& due = grown[needs[i].material];
                if (!(have[i] < due.grams)) continue;
                const Exact less =
                    due.slope.sign() > 0 ? (due.grams - have[i]) / due.slope : *out.times;
                const Exact times = less < *out.times ? *out.times - less : Exact();
                if (!(times < *out.times)) continue;
                out.times = times;
                out.by = needs[i];
                over = true;
                break;
            }
        }
        return out;
    }

    void find_largest() {
        std::vector<Needed> all;
        for (const MaterialLine& line : materials_)
            all.push_back({line.what, nothing, in_grams(line.exact)});
        for (const Supply& one : out_.supplies)
            if (one.need.material == no_ingredient) all.push_back(one.need);
        out_.all = largest_of(all, *weighed_);
        std::vector<Needed> weighed;
        for (const Supply& one : out_.supplies) weighed.push_back(one.need);
        settle_by_steps(weighed, have_of(weighed), out_.all);
        for (PlanBatch& batch : out_.batches) {
            std::vector<Needed> needs;
            for (const MaterialLine& line : batch.sheet.materials)
                needs.push_back({line.what, nothing, in_grams(line.exact)});
            batch.alone =
                largest_of(needs, WeighedNeeds(formulary_, batch.sheet.bowls, batch.sheet.reading));
            weigh_in_steps(batch.sheet, needs);
            settle_by_steps(needs, have_of(needs), batch.alone);
            if (batch.alone.times) find_largest_alone(batch);
        }
    }

    /// Whole containers by the materials, and by the containers that are there; else a weight.
    void find_largest_alone(PlanBatch& batch) {
        batch.alone_grams = in_grams(batch.sheet.total) * *batch.alone.times;
        if (!batch.filled) return;
        batch.alone_count = filled_by(batch, *batch.alone.times);
        const Needed need{no_ingredient, batch.filled->container, batch.filled->count};
        const Exact there = have_[key(need)].floor();
        if (there < batch.alone_count) {
            batch.alone_count = there;
            batch.alone.by = need;
        }
        batch.alone_grams = batch.alone_count.sign() > 0
                                ? batch.alone_count * batch.each + batch.holdback
                                : Exact();
    }

    const Formulary& formulary_;
    const Names& names_;
    const std::optional<Reading>& reading_;
    const Strictness& strict_;
    Planned out_;
    std::vector<Drawn> drawn_;
    std::vector<MaterialLine> materials_;
    std::optional<WeighedNeeds> weighed_;
    std::unordered_map<std::uint64_t, Lots> shelf_;  ///< by what it is of
    std::unordered_map<std::uint64_t, Exact> have_;  ///< what of that can be used
};

}  // namespace

Exact containers_at(const PlanBatch& batch, const Exact& times) {
    const Exact by_mass = filled_by(batch, times);
    const Exact by_count = (batch.filled->count * times).floor();
    return by_count < by_mass ? by_count : by_mass;
}

Planned make_plan(const Formulary& formulary, const Names& names, const Plan& plan,
                  const std::optional<Reading>& reading, const Strictness& strict) {
    return Planner(formulary, names, plan, reading, strict)();
}

}  // namespace levigate
