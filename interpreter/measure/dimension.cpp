#include "interpreter/measure/dimension.hpp"

namespace levigate {

std::string_view kind_words(Kind kind) {
    switch (kind) {
        case Kind::number: return "a plain number";
        case Kind::share: return "a share";
        case Kind::mass: return "a weight";
        case Kind::volume: return "a volume";
        case Kind::count: return "a count of containers";
        case Kind::money: return "money";
        case Kind::density: return "a density (weight per volume)";
        case Kind::volume_per_mass: return "a volume per weight";
        case Kind::money_per_mass: return "a price per weight";
        case Kind::money_per_volume: return "a price per volume";
        case Kind::money_per_count: return "a price per container";
        case Kind::temperature_step: return "a difference of temperature";
        case Kind::temperature_point: return "a temperature reading";
    }
    return "something unknown";
}

// 0 °C is 32 °F, and 5 kelvins are 9 degrees Fahrenheit, both by definition.
Exact celsius_from_fahrenheit(const Exact& reading) { return (reading - 32) * Exact(5, 9); }
Exact fahrenheit_from_celsius(const Exact& reading) { return reading * Exact(9, 5) + 32; }

}  // namespace levigate
