#pragma once
// The properties, each on one book. See shrink.hpp for the form.

#include <cstdint>
#include <string>

#include "tests/properties/book.hpp"

namespace levigate::testing {

std::string reckoned_alike(const Book& book, std::uint64_t seed);
std::string added_onto(const Book& book, std::uint64_t seed);
std::string told_alike(const Book& book, std::uint64_t seed);
std::string balanced(const Book& book, std::uint64_t seed);
std::string scales(const Book& book, std::uint64_t seed);
std::string order_free(const Book& book, std::uint64_t seed);
std::string flattens(const Book& book, std::uint64_t seed);
std::string twins(const Book& book, std::uint64_t seed);
std::string compared_alike(const Book& book, std::uint64_t seed);
std::string edits_are_told(const Book& book, std::uint64_t seed);
std::string tidies(const Book& book, std::uint64_t seed);
std::string isolates_names(const Book& book, std::uint64_t seed);

}  // namespace levigate::testing
