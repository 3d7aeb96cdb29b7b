#pragma once
// Everything that is wrong in a file and in what it uses: reading, meaning, all sheets, and the
// rules on lips.

#include <string>
#include <vector>

#include "interpreter/compile.hpp"

namespace levigate {

struct CheckedFile {
    Compiled compiled;
    Findings findings;  ///< in the order of the files, then of the lines
    Verdicts verdicts;
};

/// What is looked at beside the file itself.
struct CheckAlso {
    bool members = false;    ///< what `share` would say
    std::string since = {};  ///< a version: what means something else now, or is refused
};

/// `regions` in place of those that the file names; none: those. A file that can't be read has no
/// findings: `compiled.unreadable` says why.
CheckedFile checked(const World& world, const std::string& path,
                    const std::vector<std::string>& regions, const CheckAlso& also = {});

}  // namespace levigate
