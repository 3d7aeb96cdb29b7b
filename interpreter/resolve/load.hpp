#pragma once
// The files of one run: FILE, all that it uses, and the library pages that are always there.

#include <optional>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/tree.hpp"
#include "interpreter/world.hpp"

namespace levigate {

struct LoadedFile {
    tree::File tree;
    bool library = false;
    bool own = false;  ///< FILE itself
};

struct Loaded {
    std::vector<LoadedFile> files;  ///< FILE first, then what it uses, then the library
    Findings findings;
    std::size_t of_reading = 0;  ///< so many of the findings, the first, are of reading FILE itself
    bool newer = false;  ///< one of them is of a version that nobody here knows
    bool lost = false;   ///< a `use` came to nothing: names may be missing for that reason
    std::optional<Unreadable> unreadable;  ///< FILE could not be read; nothing else is there
};

/// Which library pages come without a `use`. Rules of the regions are long, and only some verbs
/// ask.
enum class Library : std::uint8_t { plain, with_rules };

Loaded load(const World& world, const std::string& path, Sources& sources, Names& names,
            Library library = Library::plain);

}  // namespace levigate
