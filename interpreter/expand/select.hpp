#pragma once
// Which sheets come out: FILE's own shades in written order; for each, variants, then finishes,
// then batches.

#include <vector>

#include "interpreter/expand/expand.hpp"

namespace levigate {

struct Selected {
    ShadeId shade = nothing;
    std::vector<std::uint32_t> versions;  ///< indices in Shade::versions
    std::vector<FinishingId> finishings;  ///< `nothing`: as made
    std::vector<std::uint32_t> batches;   ///< indices in Shade::batches; one `nothing` under --make
};

struct Selection {
    std::vector<Selected> shades;
    Findings findings;       ///< a choice that names nothing
    std::size_t sheets = 0;  ///< how many sheets that is
};

/// Broken shades, versions and finishes are left out in silence: they were said before.
Selection select(const Formulary& formulary, const Names& names, const Choice& choice);

}  // namespace levigate
