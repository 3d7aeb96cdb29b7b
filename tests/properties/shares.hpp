#pragma once
// What `share` promises: the edition comes to the same sheets, and nothing private is in it.

#include <string>

#include "tests/properties/book.hpp"

namespace levigate::testing {

/// How many pages went which way, over all calls.
struct SharesSeen {
    int shared = 0, sealed = 0, part = 0;  // of these with a sealed blend; with some shades only
    int refused = 0;                       // by share-differs, with a reason
    int broken = 0;                        // pages with errors of their own
};
SharesSeen& shares_seen();

std::string shares(const Book& book, std::uint64_t seed);

}  // namespace levigate::testing
