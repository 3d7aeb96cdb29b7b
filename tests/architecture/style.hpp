#pragma once
#include "tests/architecture/scan.hpp"

namespace levigate::testing {

Offences long_files(const std::vector<SourceFile>& files, std::size_t most_lines);
// Lines of C++ files with more code points than that.
Offences long_lines(const std::vector<SourceFile>& files, std::size_t most);
// Function bodies of C++ files, from the opening brace's line to the closing one's. Found by
// counting braces: a body whose head has a parameter list, outside any other body.
Offences long_functions(const std::vector<SourceFile>& files, std::size_t most_lines);

// Whole words in the code (not in comments or literals) of files that `allowed` doesn't name.
// An allowed entry that ends in / is a folder.
Offences words_in_code(const std::vector<SourceFile>& files, const std::vector<std::string>& words,
                       const std::vector<std::string>& allowed);
// Marks of unfinished work anywhere in the text.
Offences unfinished(const std::vector<SourceFile>& files);

}  // namespace levigate::testing
