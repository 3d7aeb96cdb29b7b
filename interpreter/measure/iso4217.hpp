#pragma once
// The currencies that a price may be in: the alphabetic codes of ISO 4217, in either case. Some
// are words too (CUP, ALL, TOP): look for a measure first.

#include <cstdint>
#include <string_view>

namespace levigate {

// The tag of a Quantity of money: 1 and up within one build of the program, 0 if there is no such
// currency. Tags are not for keeping in files.
std::uint32_t currency_tag(std::string_view code);

// The code in capitals, "" for 0 or a number that is no tag.
std::string_view currency_code(std::uint32_t tag);

// Places behind the point that amounts of it are written with: its minor unit. 2 for what is no
// tag.
int currency_places(std::uint32_t tag);

}  // namespace levigate
