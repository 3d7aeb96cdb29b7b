#pragma once
// An edition as text: what was picked, in reading order. Spelt as it comes; the canonical form and
// the digest follow.

#include <map>
#include <string>
#include <vector>

#include "grammar/tidy.hpp"
#include "interpreter/share/pick.hpp"

namespace levigate::sharing {

struct Title {
    std::string title, number, date;  ///< the last two empty where none is stated
};

/// What is told of the sealed blends, as blocks, and of what they warn.
struct SealedBlocks {
    SourceId page = no_source;            ///< where `picked` has their places
    std::map<std::uint32_t, std::string> blocks;  ///< by the block's place there
    bool powder = false, flammable = false;
};

/// `split` tells measure and name apart in the files.
std::string write_edition(const Compiled& compiled, const Index& index, const Picked& picked,
                          const SealedBlocks& sealed, const Title& title,
                          const MeasureSplit& split);

}  // namespace levigate::sharing
