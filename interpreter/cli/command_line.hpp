#pragma once

namespace levigate::cli {

/// The whole command; the exit status.
int run(int count, char** words);

}  // namespace levigate::cli
