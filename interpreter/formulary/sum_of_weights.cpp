#include "interpreter/formulary/sum_of_weights.hpp"

namespace levigate {

std::optional<Mass> sum_of_weights(const Formula& formula) {
    if (!formula.solved() || formula.solving.by != Solving::By::weights) return std::nullopt;
    for (const Part& part : formula.parts)
        if (const auto* weight = std::get_if<Weight>(&part.amount); weight && weight->parts)
            return std::nullopt;
    const Exact& left = as_fraction(formula.solving.left);
    if (left.sign() <= 0) return std::nullopt;
    const Exact whole = in_grams(formula.solving.all_weights) / left;
    return whole.known() ? std::optional(grams(whole)) : std::nullopt;
}

}  // namespace levigate
