#pragma once
// What several batches say in the same words, said once.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace levigate {

/// A word that all texts have, or the words of each where they differ.
struct WordBeside {
    std::string_view lead;               ///< the bracket that opens before all of them
    std::vector<std::string_view> each;  ///< one: all have it
};

/// Nothing where the texts don't have the same number of words.
std::optional<std::vector<WordBeside>> words_beside(const std::vector<std::string_view>& texts);

/// "Work soft base 4.92 | 173.58 g into …": one text for all, with a bar between the words that
/// differ. Nothing where the texts don't have the same number of words.
std::optional<std::string> side_by_side(const std::vector<std::string_view>& texts);

}  // namespace levigate
