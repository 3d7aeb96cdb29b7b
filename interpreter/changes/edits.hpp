#pragma once
// Which blocks of two states belong together, and what was edited in them.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "interpreter/changes/blocks.hpp"
#include "interpreter/changes/changes.hpp"

namespace levigate::changing {

/// Folded names: what was called so before is called so now.
using Renames = std::map<std::string, std::string, std::less<>>;

/// The compared form of something of the state before, with today's names in it.
std::string renamed(std::string_view compared, const Renames& renames);
/// A folded name alone.
std::string name_now(const std::string& folded, const Renames& renames);

inline constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

struct Edit {
    std::size_t before = nowhere, now = nowhere;  ///< indices in Edits
    BlockChange change;
    bool to_sheets = false;  ///< may change what is weighed
    bool to_box = false;     ///< may change what rules or the ingredient list say
    bool to_cost = false;    ///< may change what a batch costs
};

struct Edits {
    std::vector<BlockView> before, now;
    Renames renames;
    std::vector<Edit> edits;
    /// The same lines in another order: where nothing else explains a change, this does.
    std::vector<std::size_t> reordered;  ///< indices in `now`
    std::vector<std::size_t> reworded;   ///< in `now`: nothing changed but how it is written
};

Edits find_edits(const State& before, const State& now);

}  // namespace levigate::changing
