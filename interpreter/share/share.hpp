#pragma once
// A file for others: one that stands alone, says the same as its source, and keeps what is private
// and what is sealed at home. All of that is proved before anything comes out.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/compile.hpp"

namespace levigate {

struct ShareOrder {
    std::vector<std::string> shades;  ///< and families; empty: what the file says, else all its own
    std::optional<std::string> title, number, date;  ///< in place of the file's own
    std::string otherwise;                           ///< the title where nobody says one
    /// Earlier editions: what they tell of sealed blends counts as known.
    std::vector<const Compiled*> since = {};
};

struct Shared {
    std::string text;  ///< in canonical form, with its digest; empty where nothing may go out
    Compiled edition;  ///< the text, compiled
    bool tells_less = false;  ///< something on which labels rest is sealed or private
};

/// Why the order can't be followed; empty where it can.
std::string wrong_order(const ShareOrder& order);

/// `source` is compiled with rules, or else has no sealed blend. It has no errors.
Outcome<Shared> share_edition(Compiled& source, const ShareOrder& order);

}  // namespace levigate
