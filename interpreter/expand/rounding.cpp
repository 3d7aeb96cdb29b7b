#include "interpreter/expand/rounding.hpp"

#include <algorithm>

#include "interpreter/expand/remedies.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

/// Rounds the bowl's lines for a target and returns their sum.
Exact round_lines(const Blueprint& blueprint, const BlueprintBowl& plan, const Exact& target,
                  std::vector<SheetLine>& lines) {
    Exact sum;
    if (target.sign() <= 0) {
        for (SheetLine& line : lines) line.steps = Exact();
        return sum;
    }
    // share × target, rounded: so many steps of 1/target.
    const Exact step = 1 / target;
    for (std::uint32_t i = 0; i < plan.count; ++i) {
        const Share& inside = blueprint.lines[plan.first + i].inside;
        lines[i].steps = steps_half_up(as_fraction(inside), step);
        sum += lines[i].steps;
    }
    return sum;
}

/// The sum never falls as the target grows, and the first target is seldom short by much: a few
/// steps are tried in turn, the rest by halving. Rounding takes at most 1/2 of a line, so that the
/// number of lines is always enough.
Exact round_blend(const Blueprint& blueprint, const BlueprintBowl& plan, const Exact& asked,
                  std::vector<SheetLine>& lines) {
    constexpr int in_turn = 4;
    Exact target = asked;
    for (int i = 0; i < in_turn; ++i) {
        Exact sum = round_lines(blueprint, plan, target, lines);
        if (!(sum < asked)) return sum;
        target += 1;
    }
    std::int64_t low = in_turn, high = in_turn + std::int64_t{plan.count};
    while (low < high) {
        std::int64_t middle = low + (high - low) / 2;
        if (round_lines(blueprint, plan, asked + middle, lines) < asked)
            low = middle + 1;
        else
            high = middle;
    }
    return round_lines(blueprint, plan, asked + low, lines);
}

/// So much of a dilution that each of its lines can be weighed, in steps.
Exact weighable(const Blueprint& blueprint, const BlueprintBowl& plan, const Exact& asked,
                const Reading& reading) {
    const Exact least = scale_of(reading).least_steps();
    Exact target = asked;
    for (std::uint32_t i = 0; i < plan.count; ++i) {
        const Exact whole = least / as_fraction(blueprint.lines[plan.first + i].inside);
        target = std::max(target, whole.ceil());
    }
    return target;
}

void start_lines(const Blueprint& blueprint, const BlueprintBowl& plan, const Mass& whole,
                 std::vector<SheetLine>& lines) {
    lines.resize(plan.count);
    for (std::uint32_t i = 0; i < plan.count; ++i) {
        const BlueprintLine& from = blueprint.lines[plan.first + i];
        SheetLine& line = lines[i];
        line.what = from.what;
        line.share = from.share;
        line.exact = from.share * whole;
        line.estimated = from.estimated;
        line.addition = from.addition;
    }
}

std::string on_balance(const Reading& reading) {
    return reading.balance.empty() ? "the balance" : reading.balance;
}

/// What is common to all lines of a sheet.
struct JudgedSheet {
    const Formulary& formulary;
    const std::string& title;
    std::optional<Least> least;
};

void judge_line(const JudgedSheet& by, const BlueprintLine& from, const SheetLine& line,
                const Remedy* remedy, Sheet& sheet) {
    const Reading& reading = sheet.reading;
    const std::string& name = by.formulary.name(line.what);
    std::string ways = remedy ? remedy_sentence(by.formulary, sheet, *remedy) : "";
    if (line.steps.is_zero()) {
        if (in_grams(line.exact).sign() <= 0) return;
        if (ways.empty())
            ways = "Make a larger batch, or weigh it as part of a blend, or on a finer balance.";
        sheet.findings.push_back({Code::weigh_nothing,
                                  by.title + ": " + name + " is " + gram_words(line.exact) +
                                      ", which reads " + read_words(line.steps, reading) + ".",
                                  from.span, std::move(ways)});
        return;
    }
    if (!line.steps.known()) {
        sheet.findings.push_back({Code::number_too_long,
                                  by.title + ": the grams of " + name + " grow beyond " +
                                      std::to_string(digit_cap) + " digits.",
                                  from.span, "Use rounder numbers."});
        return;
    }
    if (!by.least || !(line.steps * in_grams(reading.step) < in_grams(by.least->mass))) return;
    if (ways.empty()) ways = "Make a larger batch, or weigh it as part of a blend.";
    const std::string why = why_no_less(*by.least, reading);
    sheet.findings.push_back({Code::weigh_least,
                              by.title + ": " + read_words(line.steps, reading) + " of " + name +
                                  " is less than " + on_balance(reading) + " weighs well (" +
                                  gram_words(by.least->mass) + (why.empty() ? "" : ": " + why) +
                                  ").",
                              from.span, std::move(ways)});
}

}  // namespace

void make_bowls(const Blueprint& blueprint, const Mass& whole, Sheet& sheet,
                std::vector<Exact>& asked) {
    const std::size_t count = blueprint.bowls.size();
    const Exact& step = in_grams(sheet.reading.step);
    sheet.bowls.resize(count);
    asked.assign(count, Exact());
    // Users first: the shade's own bowl is last, and what it holds stands before it.
    for (std::size_t k = count; k-- > 0;) {
        const BlueprintBowl& plan = blueprint.bowls[k];
        Bowl& bowl = sheet.bowls[k];
        bowl.mix = plan.mix;
        start_lines(blueprint, plan, whole, bowl.lines);
        if (plan.mix == no_ingredient) {
            bowl.asked = bowl.steps = Exact();
            for (SheetLine& line : bowl.lines) {
                line.steps = steps_half_up(in_grams(line.exact), step);
                bowl.steps += line.steps;
            }
        } else {
            bowl.asked = asked[k];
            const Exact target =
                plan.dilution ? weighable(blueprint, plan, asked[k], sheet.reading) : asked[k];
            bowl.steps = round_blend(blueprint, plan, target, bowl.lines);
        }
        for (std::uint32_t i = 0; i < plan.count; ++i) {
            std::uint32_t inner = blueprint.lines[plan.first + i].bowl;
            if (inner != nothing) asked[inner] += bowl.lines[i].steps;
        }
    }
    sheet.foot = sheet.bowls.back().steps;
    sheet.materials.clear();
    sheet.materials.reserve(blueprint.materials.size());
    for (const BlueprintMaterial& material : blueprint.materials) {
        Mass exact = material.share * whole;
        Exact steps = steps_half_up(in_grams(exact), step);
        sheet.materials.push_back({material.what, material.share, exact, steps});
    }
}

bool weighs_well(const Sheet& sheet) {
    if (sheet.reading.judges() || sheet.reading.up_to) return false;
    for (const Bowl& bowl : sheet.bowls)
        for (const SheetLine& line : bowl.lines)
            if (line.steps.is_zero() || !line.steps.known()) return false;
    return true;
}

void judge_weighing(const Formulary& formulary, const Blueprint& blueprint,
                    const std::string& title, Span size, Sheet& sheet) {
    const Reading& reading = sheet.reading;
    const JudgedSheet by{formulary, title, least_weight(reading)};
    auto remedy = sheet.remedies.begin();
    for (std::size_t k = 0; k < sheet.bowls.size(); ++k) {
        const Bowl& bowl = sheet.bowls[k];
        const BlueprintBowl& plan = blueprint.bowls[k];
        for (std::uint32_t i = 0; i < plan.count; ++i) {
            const bool has =
                remedy != sheet.remedies.end() && remedy->bowl == k && remedy->line == i;
            judge_line(by, blueprint.lines[plan.first + i], bowl.lines[i],
                       has ? &*remedy++ : nullptr, sheet);
        }
        if (!reading.up_to || !(bowl.steps * in_grams(reading.step) > in_grams(*reading.up_to)))
            continue;
        bool own = bowl.mix == no_ingredient;
        sheet.findings.push_back(
            {Code::weigh_capacity,
             title + ": " + (own ? std::string("the bowl") : formulary.name(bowl.mix)) +
                 " comes to " + read_words(bowl.steps, reading) + ", and " + on_balance(reading) +
                 " weighs up to " + gram_words(*reading.up_to) + ".",
             own ? size : formulary.ingredients[bowl.mix].span,
             "Make it in two goes, or on a larger balance."});
    }
}

}  // namespace levigate
