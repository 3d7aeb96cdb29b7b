#pragma once
// What is needed, held against the shelf: which lots go where, what is short, and what to buy.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/expand/sheet.hpp"
#include "interpreter/money/costs.hpp"

namespace levigate {

/// So much of a lot for one bowl.
struct Taken {
    const Stock* stock = nullptr;
    std::size_t bowl = 0;  ///< of containers the batch
    Exact amount;
};

/// One material or container.
struct Supply {
    Needed need;
    Exact have;                  ///< on the shelf, without lots that are past their date
    Exact lacking;               ///< need − taken: of a material in whole steps
    std::vector<Taken> taken;    ///< never more than a lot holds
    std::optional<Exact> pack;   ///< grams or pieces that are bought at once
    std::optional<Exact> packs;  ///< whole ones; nothing where no pack is known
    Exact bought;                ///< grams or pieces that come with them, or just what lacks
    std::optional<Cost> cost;    ///< of what is bought; nothing where nothing is
};

/// Where a thing is needed, bowl by bowl in the order of making.
struct Use {
    std::size_t bowl = 0;
    Exact amount;
};

using Lots = std::vector<const Stock*>;
/// `lots`: all that is there of it, in written order. Lots that go first are used first: by their
/// dates, those without one last, equal ones as they are written. A lot that is past its date on
/// that day is left where it is, with a finding. `step`: what is weighed is taken in such steps.
/// Only where all is there, and whole steps of each lot aren't enough, are lots emptied.
Supply supply(const Formulary& formulary, const Needed& need, const Lots& lots,
              const std::vector<Use>& uses, const std::optional<Mass>& step,
              const std::optional<Date>& on, Findings& findings);

/// How many times as much there is as is needed, by the scarcest of what is needed.
struct Largest {
    std::optional<Exact> times;  ///< nothing where nothing is needed
    Needed by;                   ///< the scarcest
};
/// `have`: how much there is of each.
Largest largest(const std::vector<Needed>& needs, const std::vector<Exact>& have);
/// Exact needs and needs in whole steps differ by a few steps: where one of them can be met and the
/// other can't, `weighed` decides whether all of it can be made.
void settle_by_steps(const std::vector<Needed>& weighed, const std::vector<Exact>& have,
                     Largest& largest);

}  // namespace levigate
