#pragma once
// What `changes --for members` tells: all that two editions differ in, and nothing else.

#include <string>

#include "tests/properties/book.hpp"

namespace levigate::testing {

struct MembersSeen {
    int alike = 0, different = 0, refused = 0;
};
MembersSeen& members_seen();

std::string told_to_members(const Book& book, std::uint64_t seed);

}  // namespace levigate::testing
