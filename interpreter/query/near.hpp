#pragma once
// "Did you mean …?" for the words of a command line.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/finding.hpp"

namespace levigate {

/// The word that `written` is most likely meant for; empty where none is near.
std::string_view nearest(std::string_view written, std::span<const std::string_view> words);
/// Of names, those that `written` is most likely meant for, the likeliest first.
std::vector<std::string> near_ones(std::string_view written, const std::vector<std::string>& all);
/// Tells in the finding which names are near, or else which are known at all.
void offer_known(std::string_view written, const std::vector<std::string>& all, Finding& finding);

}  // namespace levigate
