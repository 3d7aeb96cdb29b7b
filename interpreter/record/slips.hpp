#pragma once
// What the records of a file say against each other, and a record against itself.

#include <cstddef>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/record/record.hpp"

namespace levigate {

/// More was filled than was weighed: an error where both were weighed and more than a step of the
/// balance is between them, else a warning.
Findings filled_over(const Formulary& formulary, const RecordReport& report);

/// A warning for each record from the one at `first` on whose batch number an earlier one has.
Findings codes_twice(const std::vector<Record>& records, std::size_t first);

}  // namespace levigate
