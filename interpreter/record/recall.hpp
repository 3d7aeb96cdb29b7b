#pragma once
// Where a lot went, or a batch: through the bowls of a record, and from one record to the next by
// the lots that came of it.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/formulary/records.hpp"

namespace levigate {

/// What is looked for: a lot, of one ingredient or of any, or a batch by its number or stamp.
struct RecallOrder {
    std::string lot, of, batch;
};
/// `lot L-204`, `soft base lot L-204`, `24-11`.
RecallOrder recall_order(std::string_view text);

struct Recalled {
    std::size_t record = 0;         ///< which of the records
    bool itself = false;            ///< it is the batch that was looked for
    std::vector<std::string> ways;  ///< "Windfall mica, lot W-1, made on 2026-11-20 (batch 24-9)"
};

struct Recall {
    RecallOrder order;
    std::vector<Recalled> batches;    ///< in the order of the records
    std::vector<std::string> others;  ///< what else was made with it: "12 g Windfall mica, lot …"
    std::vector<std::string> shelf;   ///< what of it is on a shelf: "120 g soft base, lot L-204"
    std::string edition, edition_date;  ///< of FILE; empty where it has none
    std::vector<bool> in_edition;       ///< by batch: its shade goes out in it
    std::size_t doubtful = 0;  ///< records of which some can't be read, and that may hold it too
};

/// Records that are not whole count as well: each may hold it.
Recall recall(const Formulary& formulary, const std::vector<Record>& records, RecallOrder order);

}  // namespace levigate
