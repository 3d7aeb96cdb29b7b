#pragma once
// What a fix promises, by the tests' own count of what `check` says of a line.

#include <string>

#include "interpreter/query/mended.hpp"

namespace levigate::testing {

/// The disk, with this text in the place of one file.
World world_with(const std::string& path, const std::string& text);

/// A certain fix: put in its place, the finding is gone and nothing new is wrong on that line.
/// Empty where it is so, else what broke it.
std::string broken_promise(const std::string& path, const CheckedFile& before,
                           const Finding& finding, const Fix& fix);
/// A possible fix: put in its place, the finding of that code on that line is gone, or else all of
/// the line can at least be read.
std::string of_no_use(const std::string& path, const CheckedFile& before, const Finding& finding,
                      const Fix& fix);

}  // namespace levigate::testing
