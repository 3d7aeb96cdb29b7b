#pragma once
// Fixes put into texts to see whether they keep their promise. Private to mended.cpp and its like.

#include <optional>
#include <string>
#include <vector>

#include "interpreter/query/mended.hpp"

namespace levigate::mending {

/// The files that were named, with their texts as they are by now.
struct Desk {
    const World& world;
    const std::vector<std::string>& regions;
    std::vector<std::string> paths, identities;
    std::vector<CheckedFile> state;  ///< of each file, with these texts

    Desk(const World& world_read, const std::vector<std::string>& paths_named,
         const std::vector<std::string>& regions_asked);
    const std::string& text(std::size_t file) const {
        return state[file].compiled.sources[0].bytes();
    }
    /// The named file that a source of `by` is; `paths.size()` if it is none of them.
    std::size_t file_of(const CheckedFile& by, SourceId source) const;
};

/// A certain fix, the finding that it belongs to, and which file's check brought it up.
struct Offer {
    std::size_t by;
    const Finding* finding;
    std::size_t file;  ///< the one to be changed
    Fix fix;
};

/// The certain fixes of the named files, in the order of the texts, none over another.
std::vector<Offer> offers(const Desk& desk);

/// Of each named file what it is with the fixes made; nothing for one that reads no changed file.
using States = std::vector<std::optional<CheckedFile>>;
States tried(const Desk& desk, const std::vector<Offer>& set);

/// True if the finding of `offer` is gone and nothing new is said of its line; else `said` is what
/// is said there.
bool keeps_promise(const Desk& desk, const std::vector<Offer>& set, const Offer& offer,
                   const States& after, std::string& said);

}  // namespace levigate::mending
