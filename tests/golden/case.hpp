#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

// A part of a case file: a marker line and the text below it. The format: tests/golden/README.md.
struct Section {
    enum class Kind {
        opening,  // remarks before the first command
        command,
        file,
        bytes,
        copy,
        link,
        folder,
        env,
        input,
        status,
        out,
        err,
        after,
    };
    Kind kind = Kind::opening;
    std::string argument;  // what stands behind the marker's word: a path, a status, the command
    std::string text;      // as it is meant: escapes of the case format are gone
};

struct Case {
    std::vector<Section> sections;
    std::string problem;  // in words, when the file isn't a case; else empty
};

Case parse_case(std::string_view text);
// The file again; what parse_case read from a well-formed file comes out as it was.
std::string print_case(const std::vector<Section>& sections);

// "weigh 'a b.shade' --as csv" → its words.
std::vector<std::string> command_words(std::string_view command);
// The text of a `bytes` section → the bytes.
std::string unescape_bytes(std::string_view text);

}  // namespace levigate::testing
