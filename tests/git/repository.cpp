#include "tests/git/repository.hpp"

#include <catch2/catch.hpp>

namespace levigate::testing {
namespace {

// Neither the settings of whoever runs the tests, nor the clock.
const std::vector<std::string> surroundings{"GIT_CONFIG_NOSYSTEM=1",
                                            "GIT_CONFIG_GLOBAL=/dev/null",
                                            "GIT_AUTHOR_NAME=A Maker",
                                            "GIT_AUTHOR_EMAIL=maker@example.org",
                                            "GIT_COMMITTER_NAME=A Maker",
                                            "GIT_COMMITTER_EMAIL=maker@example.org",
                                            "GIT_AUTHOR_DATE=2026-10-01T00:00",
                                            "GIT_COMMITTER_DATE=2026-10-01T00:00"};

}  // namespace

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

GitFolder::GitFolder() {
    git({"init", "-q", "-b", "main"});
    git({"config", "core.fsync", "none"});  // a scratch folder need not outlive a power cut
    git({"config", "gc.auto", "0"});
}

void GitFolder::write(const std::string& name, const std::string& text) const {
    REQUIRE(write_file(path(name), text));
}

std::string GitFolder::read(const std::string& name) const {
    return read_file(path(name)).value_or("(no such file)");
}

Outcome GitFolder::git(const std::vector<std::string>& words, bool may_fail) const {
    Command command;
    command.words = {"/usr/bin/git"};
    command.words.insert(command.words.end(), words.begin(), words.end());
    command.folder = scratch_.path();
    command.environment = surroundings;
    Outcome outcome = run(command);
    INFO(words[0] << ": " << outcome.out << outcome.err);
    if (!may_fail) REQUIRE(outcome.status == 0);
    return outcome;
}

void GitFolder::commit(const std::string& message) const {
    git({"add", "-A"});
    git({"commit", "-q", "-m", message});
}

Outcome GitFolder::levigate(const std::vector<std::string>& words,
                            const std::string& folder) const {
    Command command;
    command.words = {LEVIGATE_BINARY};
    command.words.insert(command.words.end(), words.begin(), words.end());
    command.folder = path(folder);
    return run(command);
}

}  // namespace levigate::testing
