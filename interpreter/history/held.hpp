#pragma once
// The library's things, given back at the end of a scope. Nobody outside the room includes this.

#include <memory>
#include <string>

#include <git2.h>

namespace levigate::history {

/// What the library hands out goes back to it.
template <typename T>
using Held = std::unique_ptr<T, void (*)(T*)>;

template <typename T>
Held<T> held(T* got, void (*give_back)(T*)) {
    return {got, give_back};
}

/// Once: nothing is read from outside the repository, and whose it is doesn't matter, since
/// nothing in it is run.
inline void start() {
    static const bool started = [] {
        git_libgit2_init();
        for (const int level : {GIT_CONFIG_LEVEL_SYSTEM, GIT_CONFIG_LEVEL_XDG,
                                GIT_CONFIG_LEVEL_GLOBAL, GIT_CONFIG_LEVEL_PROGRAMDATA})
            git_libgit2_opts(GIT_OPT_SET_SEARCH_PATH, level, "");
        git_libgit2_opts(GIT_OPT_SET_OWNER_VALIDATION, 0);
        return true;
    }();
    (void)started;
}

inline std::string said() {
    const git_error* error = git_error_last();
    return error && error->message ? error->message : "it gives no reason";
}

inline Held<git_repository> open(const std::string& folder) {
    start();
    git_repository* got = nullptr;
    if (git_repository_open_bare(&got, folder.c_str()) != 0) got = nullptr;
    return held(got, git_repository_free);
}

}  // namespace levigate::history
