#pragma once
// The digest of an edition: SHA-256 over its text, by which a reader sees that nobody changed it
// on the way. It is no signature: who changes an edition can write a new digest.

#include <string>
#include <string_view>

namespace levigate {

/// "sha256 " and 64 hexadecimal digits. What mail does to a text doesn't count: the kind of line
/// ends, indentation, runs of blanks, empty lines, `>` in front, and the shape of quotes and
/// dashes. Nor does the digest's own line.
std::string edition_digest(std::string_view text);

}  // namespace levigate
