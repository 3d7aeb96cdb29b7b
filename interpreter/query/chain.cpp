// The story of one line: how its amount was written and edited, and how the formula gave its share.

#include "interpreter/query/chain.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"

namespace levigate::query {

namespace {

std::string amount_words(const PartAmount& amount, const Exact& value) {
    if (std::holds_alternative<Share>(amount)) return exact_percent_words(share(value));
    if (const auto* weight = std::get_if<Weight>(&amount))
        return weight->parts ? value.exactly() + (value > Exact(1) ? " parts" : " part")
                             : value.exactly() + " g";
    return value.exactly() + " times";
}

}  // namespace

WhyStep step(WhyOp op, std::string words, Exact operand, Span span, std::uint32_t from) {
    WhyStep out;
    out.op = op;
    out.words = std::move(words);
    out.operand = std::move(operand);
    out.span = span;
    out.from = from;
    return out;
}

WhyStep share_step(WhyOp op, std::string words, Exact operand, Span span) {
    WhyStep out = step(op, std::move(words), std::move(operand), span);
    out.unit = WhyUnit::share;
    return out;
}

std::uint32_t Chain::add(WhySection section) {
    for (WhyStep& one : section.steps)
        if (one.from != nothing) one.unit = why.sections[one.from].unit;
    section.result = reckon(section);
    why.sections.push_back(std::move(section));
    return static_cast<std::uint32_t>(why.sections.size() - 1);
}

namespace {

/// What one origin did to the number so far.
void origin_step(Chain& chain, const Part& part, const Origin& origin, Exact& so_far,
                 std::vector<WhyStep>& steps) {
    switch (origin.kind) {
        case OriginKind::filled:
            steps.push_back(step(WhyOp::note, chain.written(origin.span), {}, origin.span));
            return;
        case OriginKind::swapped:
            steps.push_back(step(WhyOp::note,
                                 fmt::format("{} gives way to {}; the amount stands",
                                             chain.name(origin.was), chain.name(part.what)),
                                 {}, origin.span));
            return;
        case OriginKind::scaled:
            so_far *= origin.value;
            steps.push_back(
                step(WhyOp::times, chain.written(origin.span), origin.value, origin.span));
            return;
        case OriginKind::rebalanced: {
            const Rebalancing& how = chain.formulary().rebalancings[origin.was];
            so_far *= origin.value;
            steps.push_back(share_step(WhyOp::times, "rebalance: what the lines that stand leave",
                                       how.left, origin.span));
            steps.push_back(share_step(WhyOp::divide, "all that stood aside, before", how.aside));
            return;
        }
        case OriginKind::interpolated: {
            const Interpolation& ends = chain.formulary().interpolations[origin.was];
            const Exact way =
                ends.to == ends.from ? Exact() : (origin.value - ends.from) / (ends.to - ends.from);
            so_far = origin.value;
            steps.push_back(share_step(WhyOp::start, "what the last shade of the family has",
                                       ends.to, origin.span));
            steps.push_back(share_step(WhyOp::minus, "less what the first has", ends.from));
            steps.push_back(step(WhyOp::times, "so far from the first to the last", way));
            steps.push_back(share_step(WhyOp::plus, "and what the first has again", ends.from));
            return;
        }
        default: break;
    }
    so_far = origin.value;
    // An earlier amount is told, and then it no longer counts.
    for (WhyStep& old : steps) {
        if (old.op == WhyOp::note) continue;
        old.words += " (no longer counts)";
        old.op = WhyOp::note;
    }
    const bool found_later =
        std::holds_alternative<Rest>(part.amount) || std::holds_alternative<Enough>(part.amount);
    const std::string line = chain.written(origin.span);
    steps.push_back(found_later ? step(WhyOp::note, line, {}, origin.span)
                                : step(WhyOp::start, line, origin.value, origin.span));
    if (std::holds_alternative<Share>(part.amount) && !part.estimated)
        steps.back().unit = WhyUnit::share;
}

}  // namespace

std::string ends_words(const std::optional<Ends>& ends) {
    if (!ends || !ends->open()) return {};
    return fmt::format(", {} to {}", exact_words(ends->least), exact_words(ends->most));
}

namespace {

/// By a spoon's density, where figures have ends: ", 0.88 to 0.92".
std::string ends_of_density(const Chain& chain, IngredientId what) {
    if (!chain.formulary().has_ends) return {};
    return ends_words(FigureEnds(chain.formulary()).density(what, true));
}

}  // namespace

void origin_steps(Chain& chain, const Part& part, std::vector<WhyStep>& steps) {
    std::vector<const Origin*> story;
    const auto& origins = chain.formulary().origins;
    for (OriginId id = part.origin; id != no_origin; id = origins[id].before)
        story.push_back(&origins[id]);
    std::reverse(story.begin(), story.end());
    Exact so_far;
    for (const Origin* origin : story) origin_step(chain, part, *origin, so_far, steps);
    // A volume: what the story reckoned are millilitres, and the density makes a weight of them.
    Exact now;
    if (const auto* size = std::get_if<Share>(&part.amount))
        now = as_fraction(*size);
    else if (const auto* weight = std::get_if<Weight>(&part.amount))
        now = in_grams(weight->mass);
    else
        return;
    if (part.estimated && !so_far.is_zero())
        steps.push_back(step(WhyOp::times,
                             fmt::format("grams in a millilitre of {} (an estimate{})",
                                         chain.name(part.what), ends_of_density(chain, part.what)),
                             now / so_far));
}

namespace {

struct Affine {
    Exact fixed, times;
};

/// Each line as fixed + times × the formula's unknown; relative lines by what they refer to.
std::vector<Affine> affine(Chain& chain, const Formula& formula) {
    const auto& parts = formula.parts;
    std::vector<Affine> out(parts.size());
    std::vector<bool> done(parts.size());
    // Relative lines hang on others that may be relative too: at most so many rounds.
    for (std::size_t round = 0; round <= parts.size(); ++round) {
        bool all = true;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            if (done[i]) continue;
            const PartAmount& amount = parts[i].amount;
            done[i] = true;
            if (const auto* size = std::get_if<Share>(&amount))
                out[i].fixed = as_fraction(*size);
            else if (const auto* weight = std::get_if<Weight>(&amount))
                out[i].times = in_grams(weight->mass);
            else if (std::holds_alternative<Enough>(amount))
                out[i].times = in_grams(formula.solving.enough);
            else if (const auto* as_much = std::get_if<AsMuch>(&amount)) {
                for (std::size_t j = 0; j < parts.size(); ++j) {
                    const Exact inside =
                        as_much->ref.kind == Ref::Kind::role
                            ? as_fraction(
                                  role_in(chain.formulary(), parts[j].what, as_much->ref.role))
                            : Exact(parts[j].what == as_much->ref.ingredient ? 1 : 0);
                    if (inside.is_zero()) continue;
                    if (!done[j]) done[i] = false;
                    out[i].fixed += as_much->factor * inside * out[j].fixed;
                    out[i].times += as_much->factor * inside * out[j].times;
                }
                if (!done[i]) out[i] = {};
            } else {
                out[i].times = 1;
            }
            all = all && done[i];
        }
        if (all) break;
    }
    return out;
}

std::string line_words(Chain& chain, const Part& part, const Affine& size, bool fixed) {
    const Exact& value = fixed ? size.fixed : size.times;
    const bool own = fixed ? std::holds_alternative<Share>(part.amount)
                           : std::holds_alternative<Weight>(part.amount);
    if (std::holds_alternative<Rest>(part.amount)) return chain.name(part.what) + ", the rest";
    if (std::holds_alternative<Enough>(part.amount)) return chain.name(part.what) + ", enough";
    return own ? fmt::format("{}: {}", chain.name(part.what), amount_words(part.amount, value))
               : fmt::format("{}, which goes by another line", chain.name(part.what));
}

std::uint64_t key_of(std::uint32_t key, std::uint32_t line) {
    return (std::uint64_t{key} << 32) | line;
}

/// "What the shares leave in Quince"; nothing where there are no shares.
std::uint32_t left_section(Chain& chain, const Formula& formula, const std::vector<Affine>& sizes,
                           const std::string& whose, std::uint32_t key) {
    const bool any = std::any_of(sizes.begin(), sizes.end(),
                                 [](const Affine& size) { return !size.fixed.is_zero(); });
    if (!any) return nothing;
    const std::uint64_t at = key_of(key, 0xFFFFFFFFu);
    if (const auto known = chain.known.find(at); known != chain.known.end()) return known->second;
    WhySection section;
    section.title = fmt::format("what the shares leave in {}", whose);
    section.steps.push_back(share_step(WhyOp::start, "the whole", 1));
    for (std::size_t i = 0; i < sizes.size(); ++i)
        if (!sizes[i].fixed.is_zero())
            section.steps.push_back(share_step(WhyOp::minus,
                                               line_words(chain, formula.parts[i], sizes[i], true),
                                               sizes[i].fixed, formula.parts[i].span));
    return chain.known[at] = chain.add(std::move(section));
}

/// "All weights of Quince together"; nothing where a rest stands alone.
std::uint32_t together_section(Chain& chain, const Formula& formula,
                               const std::vector<Affine>& sizes, const std::string& whose,
                               std::uint32_t key) {
    if (formula.solving.by == Solving::By::rest) {
        Exact times;
        for (const Affine& size : sizes) times += size.times;
        if (times == Exact(1)) return nothing;
    }
    const std::uint64_t at = key_of(key, 0xFFFFFFFEu);
    if (const auto known = chain.known.find(at); known != chain.known.end()) return known->second;
    WhySection section;
    const bool rest = formula.solving.by == Solving::By::rest;
    section.unit = WhySection::Unit::number;
    section.title = rest ? fmt::format("the rest of {} and what goes by it", whose)
                         : fmt::format("all weights of {} together", whose);
    for (std::size_t i = 0; i < sizes.size(); ++i)
        if (!sizes[i].times.is_zero())
            section.steps.push_back(step(section.steps.empty() ? WhyOp::start : WhyOp::plus,
                                         line_words(chain, formula.parts[i], sizes[i], false),
                                         sizes[i].times, formula.parts[i].span));
    return chain.known[at] = chain.add(std::move(section));
}

/// Where a relative line looks: all lines that REF means, each with what of it counts.
std::uint32_t ref_section(Chain& chain, const Formula& formula, const Ref& ref,
                          const std::string& whose, std::uint32_t key) {
    WhySection section;
    section.title =
        fmt::format("{} in {}", ref_words(chain.formulary(), chain.compiled.names, ref), whose);
    std::vector<std::pair<std::uint32_t, Exact>> lines;
    for (std::size_t j = 0; j < formula.parts.size(); ++j) {
        const IngredientId what = formula.parts[j].what;
        const Exact inside = ref.kind == Ref::Kind::role
                                 ? as_fraction(role_in(chain.formulary(), what, ref.role))
                                 : Exact(what == ref.ingredient ? 1 : 0);
        if (!inside.is_zero())
            lines.emplace_back(line_section(chain, formula, j, whose, key), inside);
    }
    if (lines.size() == 1 && lines[0].second == Exact(1)) return lines[0].first;
    for (const auto& [line, inside] : lines) {
        std::uint32_t from = line;
        std::string words = chain.why.sections[line].title;
        if (inside != Exact(1)) {
            WhySection part;
            part.title = fmt::format("{}, the part that counts", words);
            part.steps.push_back(step(WhyOp::start, words, chain.result(line), {}, line));
            part.steps.push_back(share_step(WhyOp::times, "of it is of that role", inside));
            from = chain.add(std::move(part));
        }
        section.steps.push_back(step(section.steps.empty() ? WhyOp::start : WhyOp::plus, words,
                                     chain.result(from), {}, from));
    }
    return chain.add(std::move(section));
}

Exact content_in(const Chain& chain, IngredientId what, IngredientId wanted) {
    if (what == wanted) return 1;
    const Mix* mix = mix_of(chain.formulary(), what);
    return mix ? as_fraction(content_of(chain.formulary(), mix->formula, wanted)) : Exact();
}

/// x = (p × all others − what of REF they hold) ÷ (what of REF a gram of it holds − p).
void enough_steps(Chain& chain, const Formula& formula, const Part& part, WhySection& section) {
    const auto& enough = std::get<Enough>(part.amount);
    const Exact x = in_grams(formula.solving.enough), all = in_grams(formula.solving.all_weights);
    const Exact p = as_fraction(enough.share);
    const std::string ref = ref_words(chain.formulary(), chain.compiled.names, enough.ref);
    const Exact inside = enough.ref.kind == Ref::Kind::role
                             ? as_fraction(role_in(chain.formulary(), part.what, enough.ref.role))
                             : content_in(chain, part.what, enough.ref.ingredient);
    bool relative = false;
    for (const Part& other : formula.parts)
        relative = relative || std::holds_alternative<AsMuch>(other.amount);
    if (relative || inside == p) {  // other lines grow with it: the result is stated and proved
        section.steps.push_back(step(WhyOp::start, "the weight at which that is so", x, part.span));
        section.steps.push_back(step(
            WhyOp::note,
            fmt::format("proof: {} of all {} is {}, and so much {} is in it",
                        exact_percent_words(enough.share), all.exactly(), (p * all).exactly(), ref),
            {}));
        return;
    }
    section.steps.push_back(step(WhyOp::start, "all other weights together", all - x, part.span));
    section.steps.push_back(share_step(WhyOp::times, fmt::format("what {} is to come to", ref), p));
    section.steps.push_back(
        step(WhyOp::minus, fmt::format("what of {} is in the others", ref), p * all - inside * x));
    section.steps.push_back(
        share_step(WhyOp::divide,
                   fmt::format("{} in {}, less what it is to come to", ref, chain.name(part.what)),
                   inside - p));
}

}  // namespace

std::uint32_t line_section(Chain& chain, const Formula& formula, std::size_t line,
                           const std::string& whose, std::uint32_t key) {
    const std::uint64_t at = key_of(key, static_cast<std::uint32_t>(line));
    if (const auto known = chain.known.find(at); known != chain.known.end()) return known->second;
    const Part& part = formula.parts[line];
    const auto sizes = affine(chain, formula);
    WhySection section;
    section.title = fmt::format("{} in {}", chain.name(part.what), whose);
    origin_steps(chain, part, section.steps);
    if (std::holds_alternative<Rest>(part.amount)) {
        const std::uint32_t left = left_section(chain, formula, sizes, whose, key);
        section.steps.push_back(left == nothing ? share_step(WhyOp::start, "the whole", 1)
                                                : step(WhyOp::start, "what the shares leave",
                                                       chain.result(left), {}, left));
        const std::uint32_t times = together_section(chain, formula, sizes, whose, key);
        if (times != nothing)
            section.steps.push_back(step(WhyOp::divide, "the rest and what goes by it",
                                         chain.result(times), {}, times));
    } else if (std::holds_alternative<AsMuch>(part.amount)) {
        // The story gave the factor; what it is a factor of comes behind.
        const auto& as_much = std::get<AsMuch>(part.amount);
        const std::uint32_t ref = ref_section(chain, formula, as_much.ref, whose, key);
        section.steps.push_back(
            step(WhyOp::times, chain.why.sections[ref].title, chain.result(ref), {}, ref));
    } else if (!std::holds_alternative<Share>(part.amount)) {
        if (std::holds_alternative<Enough>(part.amount))
            enough_steps(chain, formula, part, section);
        const std::uint32_t all = together_section(chain, formula, sizes, whose, key);
        const std::uint32_t left = left_section(chain, formula, sizes, whose, key);
        section.steps.push_back(
            step(WhyOp::divide, "all weights together", chain.result(all), {}, all));
        if (left != nothing)
            section.steps.push_back(
                step(WhyOp::times, "what the shares leave", chain.result(left), {}, left));
    }
    return chain.known[at] = chain.add(std::move(section));
}

}  // namespace levigate::query
