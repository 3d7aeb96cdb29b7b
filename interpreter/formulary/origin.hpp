#pragma once
// Where a value came from. Each amount points at its last origin, and each origin at the one
// before it, so that `why` can tell the story from the first line that was written to the last
// edit. Origins live in one flat table (Formulary::origins) and are never changed.

#include <cstdint>

#include "grammar/span.hpp"
#include "interpreter/measure/exact.hpp"

namespace levigate {

using OriginId = std::uint32_t;
inline constexpr OriginId no_origin = 0xFFFFFFFFu;

enum class OriginKind : std::uint8_t {
    written,       ///< an ingredient line; `value` is the amount as a number of its own kind
    set,           ///< `set`; `value` is the new amount
    added,         ///< `add`; `value` is the amount
    swapped,       ///< `swap`; the amount stands, the name changed from `was`
    scaled,        ///< `scale`; the amount was multiplied by `value`
    rebalanced,    ///< `rebalance`; the share was multiplied by `value`
    interpolated,  ///< `between`; `value` is the share
    filled,        ///< a hole in the line was given its value here (`let`, `vary`, a row)
};

struct Origin {
    OriginKind kind = OriginKind::written;
    Span span;  ///< the line that did it
    OriginId before = no_origin;
    /// Of `swapped`: the IngredientId that stood there. Of `interpolated` and `rebalanced`: which
    /// Interpolation or Rebalancing.
    std::uint32_t was = 0;
    Exact value;
};

/// Why untouched shares were multiplied by `left` ÷ `aside`.
struct Rebalancing {
    Exact left;   ///< what the lines that stand leave of the whole
    Exact aside;  ///< all that stood aside, before, and what goes by it
};

/// Both ends of a line in a family between two shades; an origin's value lies between them.
struct Interpolation {
    Exact from, to;
};

}  // namespace levigate
