#pragma once
// Files that are no plain text, called by the name of what they are. Private to the room.

#include <optional>
#include <string_view>

#include "grammar/finding.hpp"

namespace levigate {

/// What the file is, told by its first bytes; nothing of a text in UTF-8.
std::optional<Finding> not_plain_text(std::string_view bytes, SourceId source);
/// For the place behind which nothing is read, since so much before it can't be.
Finding explain_too_much(Span here);

}  // namespace levigate
