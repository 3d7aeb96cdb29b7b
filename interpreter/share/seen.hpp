#pragma once
// Sheets as they are compared: by title, with exact amounts.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "interpreter/compile.hpp"

namespace levigate::sharing {

struct SeenLine {
    std::string name;
    Exact exact, steps;
    bool operator==(const SeenLine&) const = default;
};
struct SeenBowl {
    std::string name;
    std::vector<SeenLine> lines;
    std::vector<std::string> steps;
};
struct SeenSheet {
    ShadeId shade = nothing;
    Exact total;
    std::vector<SeenBowl> bowls;
    Findings errors;

    bool has(Code code) const;
};

struct Seen {
    std::map<std::string, SeenSheet> sheets;  ///< by "Quince / sheer / matte, full"
    Findings findings;                        ///< of sheets that can't be made
};

/// `wanted`: by ShadeId; empty: all. `dilutions`: weighed as `dilute` lines say.
Seen sheets_of(const Compiled& compiled, const std::vector<bool>& wanted, bool dilutions);

}  // namespace levigate::sharing
