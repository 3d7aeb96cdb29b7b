#pragma once
// Adding to a file that is never rewritten.

#include <string>

namespace levigate::cli {

/// Adds a block behind all that is there, with an empty line between, in one piece: whoever looks
/// sees all of it, or, where the machine went out while it was written, what is there before and a
/// piece of it. Nothing that stood there is touched. Empty, or why it could not be done.
std::string append_block(const std::string& path, const std::string& block);

}  // namespace levigate::cli
