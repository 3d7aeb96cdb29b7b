#pragma once
// What to add to a bowl so that it holds its formula again, or comes as near to it as can be: the
// reckoning alone, in grams and shares.

#include <cstdint>
#include <optional>
#include <vector>

#include "interpreter/measure/quantities.hpp"

namespace levigate {

/// One line of the formula, and what of it is in the bowl.
struct Wanted {
    Share share;  ///< of the whole; more than nothing, and all together 1
    Mass poured;
    std::optional<Mass> there;  ///< so much of it can still be added; empty: as much as it takes
};

struct Room {
    std::optional<Mass> most;     ///< the bowl may hold so much
    std::optional<Mass> planned;  ///< and so much is wanted, where the formula allows it
};

struct Restored {
    enum class How : std::uint8_t {
        exactly,    ///< the formula is there again
        nearest,    ///< no addition does that; the deviations are as small as can be
        empty,      ///< there is nothing in the bowl, and nothing can be made of what is there
        over_full,  ///< the bowl holds more already than it may
        unknown,    ///< too many lines or digits to reckon with
    } how = How::unknown;
    std::vector<Mass> add;  ///< by line
    Mass total;             ///< of all that is then in the bowl
    Exact off;              ///< the largest deviation of a line: a share of its own share
    bool any_size = false;  ///< bowls of other sizes are as near, or would be with more room
};

/// Lines that the nearest formula is sought for.
inline constexpr std::size_t most_restored = 40;

/// Exactly, where the bounds let it be: the smallest total from which every line is topped up, or
/// as near to the planned one as that allows. Else the largest |share − wanted| ÷ wanted is least,
/// then the next largest, and so on; where several totals do that, as near to the planned one as
/// they come, or the smallest.
Restored restore(const std::vector<Wanted>& lines, const Room& room);

/// From this total on nothing would have to be taken out: the greatest poured ÷ share.
Mass least_total(const std::vector<Wanted>& lines);

}  // namespace levigate
