#pragma once
// Documents as bytes. Both append, so that a long catalogue goes out piece by piece.

#include <string>
#include <string_view>

#include "grammar/isolates.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// Plain text for a terminal or a printer, prose at most 96 columns wide. Every text passes
/// through `shown`, and names from right to left keep to themselves.
void append_text(std::string& out, const document::Document& document,
                 const Isolates& isolates = {});

/// CommonMark with pipe tables. Names are escaped, so that none becomes markup.
void append_markdown(std::string& out, const document::Document& document,
                     const Isolates& isolates = {});

/// A text of ours or of a file that reads as itself in Markdown. `starts_line`: also what would
/// open a list or a heading there is escaped.
std::string markdown_escaped(std::string_view text, bool starts_line);

}  // namespace levigate
