#pragma once
// What a reader takes a sealed blend to be made of: its materials, and the blends in it that go out
// as well, of which the reader knows the formula, or ranges.

#include <set>
#include <vector>

#include "interpreter/measure/linear.hpp"
#include "interpreter/share/seal.hpp"

namespace levigate::sharing {

/// What goes out beside it.
struct GoesOut {
    std::set<IngredientId> blends;  ///< line by line: of the source
    const std::vector<Seal>* seals = nullptr;
};

/// How much of the blend each column is, is what a reader looks for; together they are all of it.
struct Columns {
    std::vector<Linear> of;         ///< how much of each of Seal::materials a column holds
    std::vector<linear::Row> rows;  ///< over columns: what is told of a sealed blend in it
};

Columns columns_of(const Formulary& formulary, const Seal& seal, const GoesOut& out);

/// A bound on materials as one on columns.
linear::Row over_columns(const Columns& columns, const linear::Row& row);

}  // namespace levigate::sharing
