#pragma once
// `expect cost …` and `expect cost per CONTAINER …`, held against what prices make of a mix.

#include <functional>
#include <string>

#include "interpreter/expand/expectations.hpp"
#include "interpreter/expand/sheet.hpp"
#include "interpreter/money/costs.hpp"

namespace levigate {

bool expects_of_cost(const Shade& shade);

/// How many sheets a cost expectation is judged in, of so many mixes: `cost` in each batch;
/// `cost per CONTAINER` in those that are counted in it, else once a mix.
std::size_t cost_sheets(const Shade& shade, const Expectation& expect, std::size_t mixes);

/// What a mix is made of, gram by gram of the finished whole.
struct MixCost {
    const Formulary& formulary;
    const Shade& shade;
    const std::vector<Needed>& of_gram;
};

/// What one container costs where no batch is counted in it: its fill, without overage.
/// `density`: of the mix, asked for where a container holds a volume.
Findings judge_mix_cost(const MixCost& mix, const std::function<std::optional<Density>()>& density,
                        const std::string& title, Tallies& tallies);

/// What one batch that the shade names costs: overage and holdback counted, and its containers.
Findings judge_batch_cost(const MixCost& mix, const BatchSize& size, const Mass& whole,
                          const std::string& title, Tallies& tallies);

}  // namespace levigate
