#pragma once
// What a quantity of a file can be, and which of them may be put together how. A closed list: what
// a file defines is a factor on one of these.

#include "interpreter/measure/exact.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace levigate {

enum class Kind : std::uint8_t {
    number,
    share,
    mass,
    volume,
    count,
    money,
    density,
    volume_per_mass,
    money_per_mass,
    money_per_volume,
    money_per_count,
    temperature_step,
    temperature_point,
};
inline constexpr std::size_t kind_count = 13;

// `per` is ÷ as it stands in a rate ("0.3 g per 100 g", "14.20 USD per 30 g"): behind it stands
// an amount of something (a mass, a volume, a count), and what comes out is not a plain number.
enum class Op : std::uint8_t { add, subtract, multiply, divide, per };
inline constexpr std::size_t op_count = 5;

// What comes out, or nothing if the two don't go together so. The table behind it is derived from
// the compile-time quantities (quantities.hpp) in legality.cpp.
std::optional<Kind> result_kind(Op op, Kind left, Kind right);

// "a weight", "a share", "a plain number": in the maker's words, with the article.
std::string_view kind_words(Kind kind);

// Exact conversions of readings: 50 °F is 10 °C. A difference converts by 5/9 alone: 50 degrees
// Fahrenheit warmer is 27 7/9 degrees Celsius warmer.
Exact celsius_from_fahrenheit(const Exact& reading);
Exact fahrenheit_from_celsius(const Exact& reading);

}  // namespace levigate
