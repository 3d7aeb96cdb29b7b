#pragma once
// The best additions that a balance can weigh: whole steps, by the order of goals of restore.hpp.

#include <optional>
#include <vector>

#include "interpreter/rescue/restore.hpp"

namespace levigate {

/// Totals that were compared, in grams, where there are more than anyone waits for.
struct Compared {
    Mass least, greatest;
};

/// What to weigh.
struct Stepped {
    std::vector<Exact> add;            ///< by line, in steps
    std::optional<Compared> compared;  ///< empty: no other bowl is nearer
};

/// How far from the exact additions those are that are looked at, where bowls of several sizes
/// are equally near.
inline constexpr int steps_aside = 10;
/// Totals that are compared, to each side of the exact one.
inline constexpr int most_totals = 5000;

/// `restored` is what restore() found for these lines and this room; `most`: so many steps may be
/// added in all. Nearest first: the largest |share − wanted| ÷ wanted is least, then the next
/// largest, and so on; then no less comes out than is planned, as far as that goes; then the
/// smallest addition.
///
/// Where one total alone is the nearest before rounding, all additions are compared. Where bowls of
/// several sizes are equally near before rounding, the size is chosen (restore.hpp), and larger or
/// smaller bowls would only suit the balance better by chance: each addition is then within
/// `steps_aside` of the exact one, a line that has enough gets nothing, and no less comes out than
/// was planned, or than the chosen size where limits keep that below the plan. Above
/// `most_restored` lines only the total next to the exact one is looked at.
Stepped in_steps(const std::vector<Wanted>& lines, const Restored& restored, const Room& room,
                 const Mass& step, const std::optional<Exact>& most);

}  // namespace levigate
