#pragma once
// The pages of interpreter/explain, taken apart: what each says, and the examples to be played.
//
//     Wrong:              a fenced block with a shade file; `# file: NAME` begins a second one
//     Wrong (command):    its first line is the command, then `# file: NAME` and the files
//     Wrong (bytes):      \n \r \t \\ \xHH are bytes, \*N{text} is text N times with \i the
//                         number of the time; its own line ends are dropped
//
// `Right` likewise. The file that is checked is the first one, example.shade where it has no name.

#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

struct ExampleFile {
    std::string name;
    std::string text;
};

struct Example {
    std::vector<std::string> command;  // without `levigate`; empty: check the first file
    std::vector<ExampleFile> files;
};

struct Page {
    std::string code;     // of its first line
    std::string meaning;  // the paragraph behind that
    std::vector<Example> wrong, right;
    std::string problem;  // in words, where it can't be taken apart
};

Page read_page(std::string_view text);

// What `\n`, `\xE9` and `\*3{ab}` stand for.
std::string example_bytes(std::string_view text);

}  // namespace levigate::testing
