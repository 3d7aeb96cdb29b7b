#pragma once
// Records of earlier versions, which a merge could make one of two. Nobody outside the room
// includes this.

#include <string>

#include "grammar/tree.hpp"
#include "interpreter/formulary/records.hpp"

namespace levigate::resolving {

/// Why a record looks as if it were two in one; empty where it doesn't. "two lines `by`"
std::string joined_words(const tree::File& file, const tree::Block& block, const Record& record);

}  // namespace levigate::resolving
