#pragma once
// The bands in which the amounts of a sealed blend are told.

#include <vector>

#include "interpreter/formulary/formulary.hpp"

namespace levigate::sharing {

/// How narrow an interval may be where the maker doesn't say: 5 %, the narrowest of the bands
/// above 5 %. Much closer than that, an interval is a formula.
inline const Share usual_within = share(Exact(1, 20));

/// The ends of the bands, from 0 to 1: a fixed partition, neighbours joined from below until each
/// band is at least `within` wide. A band holds its lower end, the last one both. They are ranges
/// in which 29 CFR 1910.1200(i)(1)(iv), as amended in 2024, lets a secret concentration be told,
/// the overlapping ones left out, and 0 to 0.1 % below them (from memory, not compared with the
/// text). No advice on whether that section applies.
std::vector<Share> band_ends(const Share& within);

/// The lower end of the band that holds `size`, and the upper end.
Share band_below(const std::vector<Share>& ends, const Share& size);
Share band_above(const std::vector<Share>& ends, const Share& size);

}  // namespace levigate::sharing
