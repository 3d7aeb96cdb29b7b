#pragma once
// What the bowls of a plan take of each line. A dilution's bowl may be made larger than what is
// asked of it, so that it can be weighed: what is over is kept, and yet it has to be there.

#include <unordered_map>
#include <vector>

#include "interpreter/expand/sheet.hpp"

namespace levigate {

/// Grams, and how fast they grow with what is made; where that changes, how fast they did before.
struct Growing {
    Exact grams, slope;
};

class WeighedNeeds {
public:
    /// Bowls in the order of making, weighed as they are.
    WeighedNeeds(const Formulary& formulary, const std::vector<Bowl>& bowls,
                 const Reading& reading);

    /// By bowl and by line, where `times` as much is made: its exact share, or in the bowl of a
    /// dilution no less than can be weighed.
    std::vector<std::vector<Growing>> at(const Exact& times) const;
    /// The same by ingredient.
    std::unordered_map<IngredientId, Growing> sums_at(const Exact& times) const;

private:
    struct Line {
        IngredientId what = no_ingredient;
        std::size_t bowl = nothing;  ///< that it comes from
        Exact exact, least;  ///< grams; `least`: of this bowl, however little is asked of it
    };
    struct Asked {
        Exact exact;  ///< grams of all lines
        std::vector<Line> lines;
    };
    std::vector<Asked> bowls_;
};

}  // namespace levigate
