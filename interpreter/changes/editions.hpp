#pragma once
// What others may know of a state: the editions of its files, and nothing else.

#include <string>
#include <vector>

#include "interpreter/changes/changes.hpp"
#include "interpreter/render/findings_json.hpp"

namespace levigate {

struct EditionState {
    State state;                     ///< the editions, read again, without their digests
    std::vector<std::string> texts;  ///< as they would go out, without their digests
    std::vector<FoundIn> refused;    ///< why one can't go out; it points into the files themselves
};

/// Two of them compared: whatever members can see to be different is told, and nothing else.
Changes compare_editions(EditionState& before, EditionState& now,
                         const std::vector<std::string>& markets);

/// A file of a folder that makes nothing of its own goes out with the shades that use it.
EditionState editions_of(State& state);

}  // namespace levigate
