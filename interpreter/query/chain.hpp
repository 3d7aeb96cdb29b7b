#pragma once
// Building the sections of a `why`. Private to the room.

#include <string>
#include <unordered_map>

#include "interpreter/formulary/ends.hpp"
#include "interpreter/query/why.hpp"

namespace levigate::query {

struct Chain {
    const Compiled& compiled;
    Why& why;
    std::unordered_map<std::uint64_t, std::uint32_t> known{};  ///< sections by formula and line

    const Formulary& formulary() const { return compiled.formulary; }
    const std::string& name(IngredientId id) const { return compiled.formulary.name(id); }
    /// A line of a file, as a person reads it.
    std::string written(Span span) const { return tidy_name(compiled.sources.text(span)); }
    /// The line that gave an addition.
    Span origin_span(const Addition& addition) const {
        return addition.origin == no_origin ? addition.span
                                            : compiled.formulary.origins[addition.origin].span;
    }
    /// Adds a section and reckons it; its number is returned.
    std::uint32_t add(WhySection section);
    const Exact& result(std::uint32_t section) const { return why.sections[section].result; }
};

WhyStep step(WhyOp op, std::string words, Exact operand, Span span = {},
             std::uint32_t from = nothing);
/// The same, of an operand that is a share.
WhyStep share_step(WhyOp op, std::string words, Exact operand, Span span = {});

/// ", 0.88 to 0.92"; empty where the figure is known outright, or its ends can't be told.
std::string ends_words(const std::optional<Ends>& ends);

/// The share of one line in its formula. `key` tells formulas apart; `whose` is its name.
std::uint32_t line_section(Chain& chain, const Formula& formula, std::size_t line,
                           const std::string& whose, std::uint32_t key);

/// The steps that an amount went through, from the first line to the last edit.
void origin_steps(Chain& chain, const Part& part, std::vector<WhyStep>& steps);

/// What of the finished whole is bulk, and of the finished whole one line is.
struct FinishSections {
    std::uint32_t bulk = nothing;
    /// Each addition against one of bulk, and as a share of the whole; `nothing` where not so.
    std::vector<std::uint32_t> against_bulk, of_whole;
};
/// What of the finished whole one addition is.
std::uint32_t addition_section(Chain& chain, const FinishSections& finished,
                               const Finishing& finishing, std::size_t addition);
FinishSections finish_sections(Chain& chain, const Formula& bulk, const Finishing& finishing,
                               const std::string& whose, std::uint32_t key);

/// The grams of a batch.
std::uint32_t batch_section(Chain& chain, const BatchSize& size, const std::string& batch,
                            const Exact& total);

}  // namespace levigate::query
