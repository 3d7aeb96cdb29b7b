#pragma once
// A record as text in the language, ready to be added to a file of records.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/record/record.hpp"

namespace levigate {

struct RecordOrder {
    Sheet sheet;       ///< what was planned
    std::string day;   ///< "2026-11-25"
    std::string made;  ///< "24 slim tubes", where no batch was named
    std::vector<Pour> weighed;
    std::string by, code, filled, note;  ///< as they were given; all but `by` may be empty
    std::optional<BatchSize> size;  ///< what `filled` comes to
    std::vector<Made> others;       ///< what else came of it
    std::string formula;            ///< fingerprint of the product's formula
};

/// What was otherwise than planned, a sentence each.
std::vector<std::string> deviations(const Formulary& formulary, const RecordOrder& order);

/// The next batch number of that day's year, as in 26-12: one more than the highest of the records.
std::string next_code(const std::string& day, const std::vector<Record>& records);

/// Whole lines, from the heading to `formula`, without a stamp.
std::string record_text(const Formulary& formulary, const RecordOrder& order);

}  // namespace levigate
