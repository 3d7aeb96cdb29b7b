#pragma once
// A git repository in a scratch folder, worked on by the real git.

#include <string>
#include <vector>

#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

namespace levigate::testing {

class GitFolder {
public:
    GitFolder();

    std::filesystem::path path(const std::string& name = "") const {
        return scratch_.path() / name;
    }
    void write(const std::string& name, const std::string& text) const;
    std::string read(const std::string& name) const;
    /// git with these words; fails the test where git fails, save where `may_fail`.
    Outcome git(const std::vector<std::string>& words, bool may_fail = false) const;
    void commit(const std::string& message) const;
    Outcome levigate(const std::vector<std::string>& words, const std::string& folder = "") const;

private:
    ScratchFolder scratch_;
};

bool holds(const std::string& text, const std::string& part);

}  // namespace levigate::testing
