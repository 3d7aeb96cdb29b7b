#pragma once
// What `cost` and `plan` say about money in the same way.

#include <optional>
#include <string_view>
#include <vector>

#include "interpreter/money/costs.hpp"

namespace levigate::cli {

/// "60%", "60 %", "1/3 %": not negative, and as large as one likes; nothing where it is no share.
std::optional<Share> read_percent(std::string_view text);

/// Adds what isn't there yet: each lack is said once a run.
void note_lacking(const Formulary& formulary, const std::vector<Lack>& from,
                  std::vector<Lack>& into);
/// The one warning about all that lacked.
Finding lacking_finding(const Formulary& formulary, const std::vector<Lack>& lacking,
                        std::uint32_t currency = 0);

/// What a balance would say of a sheet is no matter of its cost.
void leave_out_weighing(Findings& findings);

}  // namespace levigate::cli
