#pragma once
// Which sheets were asked for: the options that weigh and card share.

#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"

namespace levigate::cli {

/// From --shade, --variant, --finish, --batch, --make, --onto, --all, --reads, --error and --usp41,
/// as far as the verb has them; or why the command line can't be followed.
Outcome<Choice> read_choice(Compiled& compiled, const Arguments& arguments);

}  // namespace levigate::cli
