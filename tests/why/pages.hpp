#pragma once
#include <cstdint>
#include <string>

namespace levigate::testing {

// A page with every way to come by an amount: parts, grams, shares, rest, as much, per, drops,
// enough, blends in blends, each edit, a variant, finishes, a family between two shades, batches
// by tubes. The same seed gives the same page. Names and figures are invented.
std::string page(std::uint64_t seed);

}  // namespace levigate::testing
