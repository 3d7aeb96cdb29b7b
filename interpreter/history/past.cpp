#include "interpreter/history/past.hpp"

#include <algorithm>
#include <set>

#include "interpreter/history/held.hpp"

namespace levigate::history {
namespace {

constexpr std::size_t most_commits = 5000;
constexpr std::size_t most_bytes = 128u << 20;
constexpr std::size_t most_left_behind = 200;

/// Looks at commits until too much was seen.
class Looker {
public:
    Looker(git_repository* repository, const std::string& path,
           const std::function<void(const PastText&)>& then)
        : repository_(repository), path_(path), then_(then) {}

    /// False where there was more than is looked at.
    bool walk(git_revwalk* walk, bool dropped) {
        git_revwalk_sorting(walk, GIT_SORT_TIME);
        git_oid id;
        while (git_revwalk_next(&id, walk) == 0) {
            if (++commits_ > most_commits || bytes_ > most_bytes) return false;
            look(id, dropped);
        }
        return true;
    }

private:
    void look(const git_oid& id, bool dropped) {
        git_commit* commit = nullptr;
        git_tree* tree = nullptr;
        git_tree_entry* entry = nullptr;
        git_blob* blob = nullptr;
        if (git_commit_lookup(&commit, repository_, &id) != 0) return;
        const auto kept_commit = held(commit, git_commit_free);
        if (git_commit_tree(&tree, commit) != 0) return;
        const auto kept_tree = held(tree, git_tree_free);
        if (git_tree_entry_bypath(&entry, tree, path_.c_str()) != 0) return;
        const auto kept_entry = held(entry, git_tree_entry_free);
        const git_oid* what = git_tree_entry_id(entry);
        if (!seen_.insert(std::string(git_oid_tostr_s(what))).second) return;
        if (git_blob_lookup(&blob, repository_, what) != 0) return;
        const auto kept_blob = held(blob, git_blob_free);
        const auto size = static_cast<std::size_t>(git_blob_rawsize(blob));
        bytes_ += size;
        if (size > largest_file) return;
        then_({std::string(git_oid_tostr_s(&id)).substr(0, 10),
               {static_cast<const char*>(git_blob_rawcontent(blob)), size},
               dropped});
    }

    git_repository* repository_;
    const std::string& path_;
    const std::function<void(const PastText&)>& then_;
    std::set<std::string> seen_;
    std::size_t commits_ = 0, bytes_ = 0;
};

std::string branch_name(git_repository* repository) {
    git_reference* head = nullptr;
    if (!repository || git_reference_lookup(&head, repository, "HEAD") != 0) return {};
    const auto kept = held(head, git_reference_free);
    const char* target = git_reference_symbolic_target(head);
    return target ? target : "";
}

/// What this branch has been at, as far as no branch or tag leads there now.
void push_left_behind(git_repository* repository, git_revwalk* walk) {
    git_reflog* log = nullptr;
    if (git_reflog_read(&log, repository, branch_name(repository).c_str()) != 0) return;
    const auto kept = held(log, git_reflog_free);
    for (std::size_t i = 0; i < std::min(git_reflog_entrycount(log), most_left_behind); ++i)
        (void)git_revwalk_push(walk, git_reflog_entry_id_new(git_reflog_entry_byindex(log, i)));
    (void)git_revwalk_hide_glob(walk, "*");
    (void)git_revwalk_hide_head(walk);
}

/// What is being joined to HEAD at the moment, and isn't yet. Null where nothing is.
const char* coming(git_repository* repository) {
    switch (git_repository_state(repository)) {
        case GIT_REPOSITORY_STATE_MERGE: return "MERGE_HEAD";
        case GIT_REPOSITORY_STATE_CHERRYPICK:
        case GIT_REPOSITORY_STATE_CHERRYPICK_SEQUENCE: return "CHERRY_PICK_HEAD";
        case GIT_REPOSITORY_STATE_REBASE:
        case GIT_REPOSITORY_STATE_REBASE_INTERACTIVE:
        case GIT_REPOSITORY_STATE_REBASE_MERGE: return "REBASE_HEAD";
        default: return nullptr;
    }
}

}  // namespace

bool each_past_text(const Repository& repository, const std::string& path,
                    const std::function<void(const PastText&)>& then) {
    const auto opened = open(repository.folder);
    if (!opened) return true;
    Looker looker(opened.get(), path, then);
    git_revwalk *here = nullptr, *behind = nullptr;
    if (git_revwalk_new(&here, opened.get()) != 0) return true;
    const auto kept_here = held(here, git_revwalk_free);
    (void)git_revwalk_push_ref(here, "HEAD");
    if (const char* other = coming(opened.get())) (void)git_revwalk_push_ref(here, other);
    if (!looker.walk(here, false)) return false;
    if (git_revwalk_new(&behind, opened.get()) != 0) return true;
    const auto kept_behind = held(behind, git_revwalk_free);
    push_left_behind(opened.get(), behind);
    return looker.walk(behind, true);
}

std::string branch_of(const Repository& repository) {
    return branch_name(open(repository.folder).get());
}

}  // namespace levigate::history
