#pragma once
// What mails, chats and editors do to a page on its way.

#include <string>

#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {

/// A page with comments of each kind, numbered `# remark 1;` …, blank lines, private notes and
/// lists that are broken behind a comma.
std::string decorated(std::vector<TextBlock> blocks, Random& random);

/// A page in canonical form, with other blanks, quotes, bullets, signs, capitals and line ends. It
/// still says the same, and all of its comments stand where they stood.
std::string mangled(const std::string& canonical, Random& random);

}  // namespace levigate::testing
