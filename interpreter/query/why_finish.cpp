// The sections of a finish and of a batch.

#include <fmt/format.h>

#include "interpreter/expand/finished.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solve.hpp"
#include "interpreter/query/chain.hpp"

namespace levigate::query {

namespace {

/// How much of REF a gram of bulk holds, told line by line.
std::uint32_t ref_in_bulk(Chain& chain, const Formula& bulk, const Ref& ref,
                          const std::string& whose, std::uint32_t key) {
    WhySection section;
    section.title = fmt::format("{} in {}, counted for the finish",
                                ref_words(chain.formulary(), chain.compiled.names, ref), whose);
    for (std::size_t i = 0; i < bulk.parts.size(); ++i) {
        const IngredientId what = bulk.parts[i].what;
        const Exact inside = ref.kind == Ref::Kind::role
                                 ? as_fraction(role_in(chain.formulary(), what, ref.role))
                                 : Exact(what == ref.ingredient ? 1 : 0);
        if (inside.is_zero()) continue;
        const std::uint32_t line = line_section(chain, bulk, i, whose, key);
        std::uint32_t from = line;
        if (inside != Exact(1)) {
            WhySection part;
            part.title = fmt::format("{}, the part that counts", chain.why.sections[line].title);
            part.steps.push_back(
                step(WhyOp::start, chain.why.sections[line].title, chain.result(line), {}, line));
            part.steps.push_back(share_step(WhyOp::times, "of it is of that role", inside));
            from = chain.add(std::move(part));
        }
        section.steps.push_back(step(section.steps.empty() ? WhyOp::start : WhyOp::plus,
                                     chain.why.sections[from].title, chain.result(from), {}, from));
    }
    if (section.steps.size() == 1 && section.steps[0].from != nothing) return section.steps[0].from;
    return chain.add(std::move(section));
}

const Exact& factor_of(const Addition& addition) {
    return std::get<AsMuch>(addition.amount).factor;
}

bool refers_to_addition(const Formula& bulk, const Ref& ref) {
    if (ref.kind != Ref::Kind::ingredient) return false;
    for (const Part& part : bulk.parts)
        if (part.what == ref.ingredient) return false;
    return true;
}

std::size_t addition_of(const Finishing& finishing, IngredientId what) {
    for (std::size_t i = 0; i < finishing.additions.size(); ++i)
        if (finishing.additions[i].what == what) return i;
    return 0;
}

using Sizes = FinishSections;

void size_one(Chain& chain, const Formula& bulk, const Finishing& finishing, std::size_t i,
              const std::string& whose, std::uint32_t key, Sizes& sizes) {
    const Addition& addition = finishing.additions[i];
    const std::string& name = chain.name(addition.what);
    if (const auto* fixed = std::get_if<Share>(&addition.amount)) {
        WhySection section;
        section.title = fmt::format("{} that the finish adds, of the whole", name);
        section.steps.push_back(share_step(WhyOp::start, chain.written(chain.origin_span(addition)),
                                           as_fraction(*fixed), chain.origin_span(addition)));
        if (addition.estimated)
            section.steps.push_back(
                step(WhyOp::note, "an estimate: it was written as a volume", {}));
        sizes.of_whole[i] = chain.add(std::move(section));
        return;
    }
    const Ref& ref = std::get<AsMuch>(addition.amount).ref;
    const auto times = [&](std::uint32_t base, std::string_view title, WhyUnit unit) {
        WhySection section;
        section.unit = unit;
        section.title = fmt::format("{} {}", name, title);
        section.steps.push_back(
            step(WhyOp::start, chain.why.sections[base].title, chain.result(base), {}, base));
        section.steps.push_back(step(WhyOp::times, chain.written(chain.origin_span(addition)),
                                     factor_of(addition), chain.origin_span(addition)));
        return chain.add(std::move(section));
    };
    if (ref.kind == Ref::Kind::bulk) {
        WhySection section;
        section.unit = WhySection::Unit::number;
        section.title = fmt::format("{} for each gram of bulk", name);
        section.steps.push_back(step(WhyOp::start, chain.written(chain.origin_span(addition)),
                                     factor_of(addition), chain.origin_span(addition)));
        sizes.against_bulk[i] = chain.add(std::move(section));
    } else if (refers_to_addition(bulk, ref)) {
        const std::size_t other = addition_of(finishing, ref.ingredient);
        if (sizes.against_bulk[other] != nothing)
            sizes.against_bulk[i] =
                times(sizes.against_bulk[other], "for each gram of bulk", WhyUnit::number);
        if (sizes.of_whole[other] != nothing)
            sizes.of_whole[i] =
                times(sizes.of_whole[other], "that the finish adds, of the whole", WhyUnit::share);
    } else {
        sizes.against_bulk[i] = times(ref_in_bulk(chain, bulk, ref, whose, key),
                                      "for each gram of bulk", WhyUnit::number);
    }
}

/// An addition and all that it is as much as, the last of them first.
void size_addition(Chain& chain, const Formula& bulk, const Finishing& finishing, std::size_t first,
                   const std::string& whose, std::uint32_t key, Sizes& sizes,
                   std::vector<bool>& done) {
    std::vector<std::size_t> way;
    for (std::size_t i = first; !done[i];) {
        done[i] = true;
        way.push_back(i);
        const auto* amount = std::get_if<AsMuch>(&finishing.additions[i].amount);
        if (!amount || amount->ref.kind == Ref::Kind::bulk) break;
        if (!refers_to_addition(bulk, amount->ref)) break;
        i = addition_of(finishing, amount->ref.ingredient);
    }
    for (; !way.empty(); way.pop_back())
        size_one(chain, bulk, finishing, way.back(), whose, key, sizes);
}

}  // namespace

FinishSections finish_sections(Chain& chain, const Formula& bulk, const Finishing& finishing,
                               const std::string& whose, std::uint32_t key) {
    const std::size_t count = finishing.additions.size();
    FinishSections sizes;
    sizes.against_bulk.assign(count, nothing);
    sizes.of_whole.assign(count, nothing);
    std::vector<bool> done(count);
    for (std::size_t i = 0; i < count; ++i)
        size_addition(chain, bulk, finishing, i, whose, key, sizes, done);
    WhySection left;
    left.title = fmt::format("what added shares leave of {}", whose);
    left.steps.push_back(share_step(WhyOp::start, "the finished whole", 1));
    WhySection grown;
    grown.unit = WhySection::Unit::number;
    grown.title = fmt::format("one gram of {} with all that is added to it", whose);
    grown.steps.push_back(step(WhyOp::start, "the bulk", 1));
    for (std::size_t i = 0; i < count; ++i) {
        const auto tell = [&](WhySection& section, WhyOp op, std::uint32_t from) {
            if (from == nothing) return;
            section.steps.push_back(step(op, chain.why.sections[from].title, chain.result(from),
                                         chain.origin_span(finishing.additions[i]), from));
        };
        tell(left, WhyOp::minus, sizes.of_whole[i]);
        tell(grown, WhyOp::plus, sizes.against_bulk[i]);
    }
    // One step is no reckoning: such a part is left out.
    WhySection part;
    part.title = fmt::format("{} in the finished whole", whose);
    if (left.steps.size() == 1) {
        part.steps.push_back(left.steps[0]);
    } else {
        const std::uint32_t from = chain.add(std::move(left));
        part.steps.push_back(
            step(WhyOp::start, chain.why.sections[from].title, chain.result(from), {}, from));
    }
    if (grown.steps.size() > 1) {
        const std::uint32_t from = chain.add(std::move(grown));
        part.steps.push_back(
            step(WhyOp::divide, chain.why.sections[from].title, chain.result(from), {}, from));
    }
    sizes.bulk = chain.add(std::move(part));
    return sizes;
}

std::uint32_t addition_section(Chain& chain, const FinishSections& finished,
                               const Finishing& finishing, std::size_t addition) {
    const std::uint32_t against = finished.against_bulk[addition];
    const std::uint32_t fixed = finished.of_whole[addition];
    if (against == nothing) return fixed;
    WhySection section;
    section.title =
        fmt::format("{} that the finish adds", chain.name(finishing.additions[addition].what));
    section.steps.push_back(
        step(WhyOp::start, chain.why.sections[against].title, chain.result(against), {}, against));
    section.steps.push_back(step(WhyOp::times, chain.why.sections[finished.bulk].title,
                                 chain.result(finished.bulk), {}, finished.bulk));
    if (fixed != nothing)
        section.steps.push_back(
            step(WhyOp::plus, chain.why.sections[fixed].title, chain.result(fixed), {}, fixed));
    return chain.add(std::move(section));
}

std::uint32_t batch_section(Chain& chain, const BatchSize& size, const std::string& batch,
                            const Exact& total) {
    WhySection section;
    section.unit = WhySection::Unit::grams;
    section.title = fmt::format("the batch {}", batch);
    const Formulary& formulary = chain.formulary();
    std::optional<Exact> volume;
    if (const auto* mass = std::get_if<Mass>(&size.amount))
        section.steps.push_back(step(WhyOp::start, "grams asked for", in_grams(*mass), size.span));
    if (const auto* asked = std::get_if<Volume>(&size.amount)) {
        volume = in_millilitres(*asked);
        section.steps.push_back(step(WhyOp::start, "millilitres asked for", *volume, size.span));
    }
    if (const auto* count = std::get_if<ContainerCount>(&size.amount)) {
        const Container& container = formulary.containers[count->container];
        section.steps.push_back(
            step(WhyOp::start, counted(container.name, count->count), count->count, size.span));
        if (const auto* mass = std::get_if<Mass>(&container.holds))
            section.steps.push_back(step(
                WhyOp::times,
                "grams in each" + ends_words(Ends::around(in_grams(*mass), container.holds_by)),
                in_grams(*mass), container.span));
        if (const auto* held = std::get_if<Volume>(&container.holds)) {
            volume = count->count * in_millilitres(*held);
            section.steps.push_back(
                step(WhyOp::times,
                     "millilitres in each" +
                         ends_words(Ends::around(in_millilitres(*held), container.holds_by)),
                     in_millilitres(*held), container.span));
        }
    }
    const Exact over = as_fraction(size.overage);
    if (!over.is_zero())
        section.steps.push_back(
            step(WhyOp::times, fmt::format("with {} overage", exact_percent_words(size.overage)),
                 over + 1, size.span));
    const auto* held_mass = std::get_if<Mass>(&size.holdback);
    const auto* held_volume = std::get_if<Volume>(&size.holdback);
    if (volume && held_volume)
        section.steps.push_back(step(WhyOp::plus, "millilitres that stay in the bowl",
                                     in_millilitres(*held_volume), size.span));
    if (volume) {
        // The batch's own density follows from what it came to.
        Exact grams_of = held_mass ? total - in_grams(*held_mass) : total;
        section.steps.push_back(step(WhyOp::times, "grams in a millilitre of the mix (an estimate)",
                                     grams_of / reckon(section)));
    }
    if (held_mass)
        section.steps.push_back(
            step(WhyOp::plus, "grams that stay in the bowl", in_grams(*held_mass), size.span));
    if (!volume && held_volume)
        section.steps.push_back(step(WhyOp::plus, "grams that stay in the bowl (an estimate)",
                                     total - reckon(section), size.span));
    return chain.add(std::move(section));
}

}  // namespace levigate::query
