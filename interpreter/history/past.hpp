#pragma once
// What a file was in the commits of a repository.

#include <functional>
#include <string>
#include <string_view>

#include "interpreter/history/repository.hpp"

namespace levigate::history {

struct PastText {
    std::string commit;     ///< its number, as short as people write it
    std::string_view text;  ///< only while it is told of
    bool dropped = false;   ///< no branch or tag leads to that commit any more, as after a rebase
};

/// Tells of each text that the file at `path`, written from the top, had in a commit that led to
/// what is here: with all parents of merges, with what is being merged now, and with what the
/// branch has left behind, as in a rebase. Each text once. False where there was more than is
/// looked at.
bool each_past_text(const Repository& repository, const std::string& path,
                    const std::function<void(const PastText&)>& then);

/// "refs/heads/main"; empty where HEAD is at a commit, on no branch.
std::string branch_of(const Repository& repository);

}  // namespace levigate::history
