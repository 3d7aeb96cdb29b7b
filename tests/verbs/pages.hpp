#pragma once
// Pages of a maker of our invention, with what each verb asks for: labels, prices, markets, plans,
// balances, finishes. Most are right; `mutated` makes slips in a page.

#include <string>

#include "tests/properties/random.hpp"

namespace levigate::testing {

/// One page, which uses nothing but the library.
std::string made_page(Random& random);

/// The same with one to three slips: a line gone, twice or moved, a number or a name changed.
std::string mutated(std::string page, Random& random);

}  // namespace levigate::testing
