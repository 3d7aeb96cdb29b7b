#pragma once
// What a balance can still weigh.

#include "interpreter/expand/sheet.hpp"

namespace levigate {

/// The least that can be read well: what the balance states, else 20 of its steps, so that a step
/// is 5 % of it. That is common practice, the pharmacists' rule of the least weighable quantity
/// (sensitivity over acceptable error).
inline Mass least_reading(const Reading& reading) {
    constexpr int steps = 20;
    return reading.least ? *reading.least : grams(in_grams(reading.step) * steps);
}

}  // namespace levigate
