#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

// A file of the repository. `code` is the text with comments and the insides of literals blanked,
// line by line, so that a check doesn't stumble over words in a comment.
struct SourceFile {
    std::string path;  // from the root, "grammar/read.cpp"
    std::string text;
    std::string code;
};

SourceFile source_file(std::string path, std::string text);

// Reads the text files in these folders of the repository whose names end so.
std::vector<SourceFile> source_files(const std::vector<std::string>& folders,
                                     const std::vector<std::string>& endings);

bool is_word(char c);  // a letter of a name
bool is_cpp(std::string_view path);
// "interpreter/measure" for "interpreter/measure/exact.hpp", "grammar" for "grammar/read.cpp",
// "interpreter" for the files that stand in no room.
std::string folder_of(std::string_view path);
// The path without its ending.
std::string stem_of(std::string_view path);

// What is wrong, where, and why it matters: a finding of ours about our own code.
using Offences = std::vector<std::string>;
std::string at(const SourceFile& file, std::size_t line);
// All offences below each other, and once the reason for the check. For the failure text.
std::string told(const Offences& offences, std::string_view why);

}  // namespace levigate::testing
