#pragma once
// How much work sheets are, told before any of them is made: a property of the file and of what is
// asked for.

#include <optional>
#include <vector>

#include "interpreter/expand/select.hpp"

namespace levigate {

/// Lines of all bowls of all sheets of a run. A line whose numbers may have n digits, as they grow
/// from blend to blend, counts n²/128 times more: so much longer such numbers take.
inline constexpr std::size_t most_work = 2'000'000;

/// Counts products, each mix of one once. Stops beyond `most_work`: counting takes no longer than
/// making so much would.
class WorkCounter {
public:
    explicit WorkCounter(const Formulary& formulary) : formulary_(formulary) {}

    /// What is selected; a shade without batches counts as one of one batch.
    void add(const Selection& selection);
    /// A version with or without a finish, so many times.
    void add(const Version& version, FinishingId finishing, std::size_t times);
    bool too_much() const { return work_ > most_work; }
    std::size_t work() const { return work_; }

private:
    std::uint32_t digits_of(IngredientId what);
    void meet(IngredientId what);
    std::size_t lines_of(const Formula& bulk, const std::vector<Addition>& additions);

    const Formulary& formulary_;
    std::size_t work_ = 0;
    std::vector<std::uint32_t> met_;     ///< by MixId: the last product that it was met in
    std::vector<std::uint32_t> digits_;  ///< by MixId: of all numbers below, + 1; 0: unknown
    std::vector<MixId> todo_;
    std::uint32_t product_ = 0;
};

/// What is said if that is too much; nothing if it isn't.
std::optional<Finding> too_much_work(const Formulary& formulary, const Selection& selection);
/// The same of all shades of FILE with all variants, finishes and batches.
std::optional<Finding> too_much_work(const Formulary& formulary, const Names& names);
Finding say_too_much(Span where = {});

}  // namespace levigate
