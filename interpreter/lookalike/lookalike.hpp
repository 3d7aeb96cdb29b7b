#pragma once
// Names that a person can't tell apart by eye: `Rose I` and `Rose l`, a Latin and a Cyrillic a.
// By Unicode Technical Standard 39 (Unicode Security Mechanisms), sections 4 and 5.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace levigate::lookalike {

/// The skeleton of section 4: texts that look alike have the same. For comparing, not for showing.
std::string skeleton(std::string_view text);
/// A hash of the skeleton, which takes no memory for plain ASCII.
std::uint64_t skeleton_hash(std::string_view text);
/// True for two texts that differ and look alike, as they stand.
bool look_alike(std::string_view a, std::string_view b);

/// Where two texts first differ, for people: `I (U+0049, Latin)`. The second is of `b`.
struct Difference {
    std::string in_a, in_b;
};
Difference difference(std::string_view a, std::string_view b);

/// The first word with letters of scripts that aren't written together in any language, and two of
/// those scripts. A word ends at everything but letters, so that `β-carotene` is two. Stricter than
/// none, and not quite section 5.2's "highly restrictive": each letter counts for one script.
struct Mixed {
    std::string_view word, first, second;
};
std::optional<Mixed> mixed_word(std::string_view text);

}  // namespace levigate::lookalike
