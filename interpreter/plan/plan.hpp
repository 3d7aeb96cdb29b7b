#pragma once
// All batches of a plan together: one bowl for each blend that they share, one for each batch, what
// the shelf gives to them, and what is to be bought.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/expand/expand.hpp"
#include "interpreter/plan/supply.hpp"

namespace levigate {

/// What one bowl gives to another.
struct Portion {
    std::size_t into = 0;  ///< bowl
    Exact steps;
};

struct PlanBowl {
    Bowl bowl;
    std::size_t batch = nothing;    ///< of a batch's own bowl
    std::vector<Portion> portions;  ///< of a blend: together what was asked for
    std::vector<Exact> needs;       ///< grams by line, as they are weighed: in whole steps
    Exact kept;                     ///< steps of a dilution that no bowl takes
};

struct PlanBatch {
    Sheet sheet;  ///< as it is made by itself
    std::optional<ContainerCount> filled;
    Exact each;         ///< grams for one container, overage counted
    Exact holdback;     ///< grams that stay in the bowl
    Largest alone;      ///< if nothing else of the plan is made: by its materials and containers
    Exact alone_grams;  ///< what that comes to
    Exact alone_count;  ///< of containers, whole ones
};

struct Planned {
    const Plan* plan = nullptr;
    Reading reading;
    Mass total;                      ///< exact, of all finished products
    std::vector<PlanBowl> bowls;     ///< blends in the order of making, then the batches
    std::vector<PlanBatch> batches;  ///< as the plan has them
    std::vector<Supply> supplies;    ///< materials, the most needed first; then containers
    Largest all;                     ///< if all batches are scaled together
    Purse to_buy;
    std::vector<Lack> lacking;          ///< what is bought and has no known price
    std::vector<std::string> left_out;  ///< batches that can't be made; why was said
    Findings findings;                  ///< about this plan
};

/// So many whole containers, where all batches are scaled to `times` as much.
Exact containers_at(const PlanBatch& batch, const Exact& times);

/// `reading`: in place of the balances that the shades name; `strict`: asked of any.
Planned make_plan(const Formulary& formulary, const Names& names, const Plan& plan,
                  const std::optional<Reading>& reading, const Strictness& strict = {});

}  // namespace levigate
