#pragma once
// Linear programs, solved exactly: the least of a cost under linear bounds, over numbers that are
// not negative.

#include <cstdint>
#include <vector>

#include "interpreter/measure/exact.hpp"

namespace levigate::linear {

enum class Relation : std::uint8_t { at_most, exactly, at_least };

struct Row {
    std::vector<Exact> of;  ///< a factor for each unknown
    Relation relation = Relation::at_most;
    Exact bound;
};

struct Problem {
    std::vector<Exact> cost;  ///< a factor for each unknown; the sum is to be least
    std::vector<Row> rows;
};

enum class Status : std::uint8_t {
    best,
    impossible,  ///< nothing keeps all the bounds
    unbounded,   ///< the cost falls for ever
    unknown,     ///< beyond the digit cap, or so many turns that nobody waits for them
};

struct Answer {
    Status status = Status::unknown;
    Exact cost;
    std::vector<Exact> at;  ///< the unknowns; empty unless `best`
};

/// The simplex method in two phases over fractions. Bland's rule (R. G. Bland, "New finite pivoting
/// rules for the simplex method", Mathematics of Operations Research 2, 1977) keeps it from going
/// round in circles, and makes the answer the same everywhere.
Answer least(const Problem& problem);

}  // namespace levigate::linear
