#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

// Where a finding points. Columns count code points from 1; end_column is the one behind the last.
struct Mark {
    std::string code;
    std::string severity = "error";
    std::size_t line = 0;
    std::size_t column = 0;
    std::size_t end_column = 0;
};

struct Planted {
    Mark mark;
    std::string problem;  // in words, when the annotation is missing, double or misspelled
};

// Reads the annotation of a planted file: tests/golden/README.md says how one is written.
Planted read_planted(std::string_view text);

struct Checked {
    std::vector<Mark> marks;
    std::string problem;
};

// The findings in what `levigate check --as json` printed.
Checked read_findings(std::string_view json);

// One line for a person, "7:12-20 error name-unknown".
std::string describe(const Mark& mark);
// A single caret stands for one column and for a point.
bool same(const Mark& planted, const Mark& found);

}  // namespace levigate::testing
