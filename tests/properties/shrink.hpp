#pragma once
// Makes a failing book smaller for as long as it fails in the same way.

#include <functional>
#include <string>

#include "tests/properties/book.hpp"

namespace levigate::testing {

/// An empty text: the book is in order. The seed serves what the property itself tosses up.
using Property = std::function<std::string(const Book& book, std::uint64_t seed)>;

Book shrink(Book book, const Property& property, std::uint64_t seed);

}  // namespace levigate::testing
