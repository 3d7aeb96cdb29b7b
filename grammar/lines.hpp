#pragma once
// Cutting a text into lines: where each begins and ends without indentation, bullet and comment,
// and what no line may hold. Private to the room.

#include <cstdint>
#include <string_view>

#include "grammar/finding.hpp"
#include "grammar/tree.hpp"

namespace levigate {

/// Longer than anyone writes; a longer one is not looked at.
inline constexpr std::uint32_t longest_line = 1u << 16;

struct PhysicalLine {
    std::uint32_t begin = 0, end = 0;  ///< the content, trimmed; equal where there is none
    std::uint32_t next = 0;            ///< where the next line begins
    std::uint32_t comment = 0;         ///< where a comment begins, or `next`
    std::uint32_t comment_end = 0;
    bool bullet = false;
    bool plain = true;  ///< no byte that needs a closer look
};

/// The line that begins at `at`.
PhysicalLine cut_line(std::string_view text, std::uint32_t at);

/// What no text may hold, in [begin, end): bytes that are no UTF-8, control and bidirectional
/// characters. Says the first of it.
bool check_characters(std::string_view text, std::uint32_t begin, std::uint32_t end,
                      SourceId source, Findings& findings);

enum class Marker : std::uint8_t { none, ours, base, middle, theirs };
/// The marks that version control leaves where two people changed the same lines.
Marker merge_marker(std::string_view line);

std::uint32_t skip_blanks(std::string_view text, std::uint32_t at, std::uint32_t end);
/// Where [begin, end) ends without the blanks at its end.
std::uint32_t trim_end(std::string_view text, std::uint32_t begin, std::uint32_t end);
/// Length in bytes of the quote at `at`, straight or curly; 0 where there is none.
std::uint32_t quote_at(std::string_view text, std::uint32_t at);

}  // namespace levigate
