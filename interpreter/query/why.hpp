#pragma once
// Where a number comes from: every line that had a part in it, in order, with the arithmetic.
// Each section reckons one number, from numbers that its lines name or that earlier sections
// reckoned; a reader can redo it with a pocket calculator, and a test does.

#include <optional>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/compile.hpp"

namespace levigate {

/// What a step does with the number so far.
enum class WhyOp : std::uint8_t { start, plus, minus, times, divide, note };

/// What a number is, which says how it is written: a share is a percentage.
enum class WhyUnit : std::uint8_t { share, number, grams };

struct WhyStep {
    WhyOp op = WhyOp::start;
    std::string words;               ///< what happens here
    Exact operand;                   ///< of all but `note`; a share counts as its fraction
    std::uint32_t from = nothing;    ///< the section that reckoned the operand
    Span span;                       ///< the line that says so; none where it follows by itself
    WhyUnit unit = WhyUnit::number;  ///< of the operand
};

struct WhySection {
    using Unit = WhyUnit;
    Unit unit = Unit::share;
    std::string title;  ///< "copper mica in Windfall mica"
    std::vector<WhyStep> steps;
    Exact result;
};

/// What the balance reads for it in one bowl of one batch.
struct WhyReading {
    std::string batch, bowl, grams;
    std::string as;  ///< the dilution that it is weighed as; empty: as it is
    Span span;       ///< the line that says so
};

struct Why {
    std::string ingredient, shade, variant, finish;
    std::vector<WhySection> sections;  ///< in the order of reckoning
    Exact share;                       ///< of the finished whole
    std::vector<WhyReading> readings;
};

struct WhyQuestion {
    std::string shade;  ///< `Quince`, or `Quince / sheer / matte`
    std::string ingredient;
    std::optional<std::string> batch;  ///< none: every batch that the shade names
    std::optional<BatchSize> make;
};

Outcome<std::optional<Why>> why(const Compiled& compiled, const WhyQuestion& question);

/// The result of a section's steps, redone.
Exact reckon(const WhySection& section);

}  // namespace levigate
