#pragma once
// "Did you mean …?" for the words of a command line.

#include <span>
#include <string_view>

namespace levigate {

/// The word that `written` is most likely a slip of; empty where none is near.
std::string_view nearest(std::string_view written, std::span<const std::string_view> words);

}  // namespace levigate
