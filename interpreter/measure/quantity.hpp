#pragma once
// A quantity whose kind is known only when a file has been read.

#include "interpreter/measure/dimension.hpp"

#include <variant>

namespace levigate {

// The value counts base units: grams, millilitres, pieces, units of a currency, kelvins, their
// ratios (g/mL, mL/g, money per g, mL or piece), 1 for the whole as a share, degrees Celsius for a
// reading.
//
// The tag says which one where a kind alone doesn't: of money and prices the currency (see
// iso4217.hpp), of a count the container, by whatever numbers the caller gives them; 0 is no
// matter which. Two different tags, neither 0, are two things that don't mix.
struct Quantity {
    Kind kind = Kind::number;
    Exact value;
    std::uint32_t tag = 0;
};

// Why two quantities don't go together. The words and the remedy are the caller's.
struct Refusal {
    enum class Why : std::uint8_t {
        kinds,       // these kinds can't be put together by this operation
        currencies,  // two currencies
        containers,  // counts of two containers
        by_zero,     // ÷ or per of exactly nothing
    };
    Why why = Why::kinds;
    Op op = Op::add;
    Kind left = Kind::number;
    Kind right = Kind::number;
};

// An unknown value on either side gives an unknown value of the kind that is due: kinds are
// judged whatever the values are. The result takes the tag of the side that has one of its sort; a
// price per container doesn't remember which container.
std::variant<Quantity, Refusal> combine(Op op, const Quantity& left, const Quantity& right);

}  // namespace levigate
