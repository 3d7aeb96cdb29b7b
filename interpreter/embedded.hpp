#pragma once
#include <span>
#include <string_view>

namespace levigate {

// A text file that travels inside the command, byte for byte. Lives as long as the program.
struct EmbeddedPage {
    std::string_view name;  // a library page's as in `use` ("lip materials"), else the file's stem
    std::string_view text;
};

// The pages of stdlib/, of interpreter/explain/ (named after the code of a finding), and the style
// and script of interpreter/render/page/ (named with their ending), by name. CMake writes these
// functions: interpreter/embed.cmake.
std::span<const EmbeddedPage> library_pages();
std::span<const EmbeddedPage> explanation_pages();
std::span<const EmbeddedPage> page_parts();

}  // namespace levigate
