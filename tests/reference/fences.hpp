#pragma once
// The fenced blocks of a Markdown page, and what the info string behind the fence says is to be
// done with them:
//
//     ```shade                    a whole file: `levigate check` has nothing to say about it
//     ```shade NAME.shade         the same, and kept under that name for what follows on the page
//     ```shade wrong CODE         gives one finding of that code, and no other
//     ```shade preamble           stands above every part that follows (may be in a comment)
//     ```shade part               is checked behind the preamble; also `part wrong CODE`
//     ```console                  `$ levigate …` and what it prints, played beside the kept files;
//                                 a line `…` stands for any number of lines that are left out
//
// Blocks with another info string, or none, are not looked at.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace levigate::testing {

struct Fence {
    std::string info;
    std::string text;      // with a line end behind every line
    std::size_t line = 0;  // of the opening fence, from 1
};

struct ShadeInfo {
    bool part = false, preamble = false;
    std::string name;   // kept under it; empty: not kept
    std::string wrong;  // the code that is due; empty: none
};

struct Typed {
    std::vector<std::string> words;  // behind `$`
    std::vector<std::string> lines;  // what is printed
};

std::vector<Fence> read_fences(std::string_view page);
// Nothing where the fence holds no shade file. `trouble` says what can't be understood.
std::optional<ShadeInfo> shade_info(const Fence& fence, std::string& trouble);
std::vector<Typed> read_console(const Fence& fence);

// Does what came match what is shown, with `…` for what is left out? Empty lines at the ends don't
// count.
bool matches(const std::vector<std::string>& shown, const std::vector<std::string>& came);

}  // namespace levigate::testing
