#pragma once
// Random plans, with what each of their batches needs reckoned as the page is written: another way
// than the tool's, which looks names up, solves and walks through blends.

#include <map>
#include <random>
#include <string>
#include <vector>

#include "interpreter/measure/exact.hpp"

namespace levigate::testing {

struct LotSeen {
    std::string material, lot;
    Exact grams;
    int month = 0;  // of 2027; 0: no date
};

struct RandomPlan {
    std::string page;
    std::vector<std::map<std::string, Exact>> needs;  // by batch and material, grams
    std::map<std::string, Exact> packs;               // grams; none for materials without a price
    std::vector<LotSeen> lots;                        // in written order
    int pots_needed = 0, pots_there = 0;
};

RandomPlan random_plan(std::mt19937_64& random);

}  // namespace levigate::testing
