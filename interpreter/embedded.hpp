#pragma once
#include <span>
#include <string_view>

namespace levigate {

// A text file that travels inside the command, byte for byte. Lives as long as the program.
struct EmbeddedPage {
    std::string_view name;  // a library page's as in `use` ("lip materials"), else the file's stem
    std::string_view text;
};

// The pages of stdlib/, and of interpreter/explain/ (named after the code of a finding), by name.
// CMake writes both functions: interpreter/embed.cmake.
std::span<const EmbeddedPage> library_pages();
std::span<const EmbeddedPage> explanation_pages();

}  // namespace levigate
