// The shade files of a folder: which are taken, in which order, and which names are alike.
#include "interpreter/cli/folder.hpp"

#include <filesystem>
#include <fstream>

#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::cli;
using levigate::testing::ScratchFolder;
namespace fs = std::filesystem;

namespace {

void touch(const fs::path& path) {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << "material soft base\n";
}

/// Without the folder in front.
std::vector<std::string> found_in(const fs::path& folder, Findings& findings) {
    std::vector<std::string> files = shade_files(folder.string(), findings);
    for (std::string& file : files) file.erase(0, folder.string().size() + 1);
    return files;
}

}  // namespace

TEST_CASE("a folder gives its shade files, deep and in order, without what is hidden or linked") {
    ScratchFolder scratch;
    const fs::path bench = scratch.path() / "bench";
    for (const char* name : {"b.shade", "a.shade", "inner/c.shade", "B.shade", "notes.txt",
                             ".hidden.shade", ".git/d.shade", "inner/.trash/e.shade"})
        touch(bench / name);
    touch(scratch.path() / "outside.shade");
    fs::create_directory_symlink(bench, bench / "inner/ring");
    fs::create_symlink(scratch.path() / "outside.shade", bench / "linked.shade");
    REQUIRE(::mkfifo((bench / "pipe.shade").c_str(), 0600) == 0);
    fs::create_directory(bench / "folder.shade");
    Findings findings;
    CHECK(found_in(bench, findings) ==
          std::vector<std::string>{"B.shade", "a.shade", "b.shade", "inner/c.shade"});
    CHECK(findings.empty());
}

TEST_CASE("the folder that a command runs in is not written in front of its files") {
    ScratchFolder scratch;
    touch(scratch.path() / "a.shade");
    const fs::path before = fs::current_path();
    fs::current_path(scratch.path());
    Findings findings;
    const auto files = shade_files(".", findings);
    fs::current_path(before);
    CHECK(files == std::vector<std::string>{"a.shade"});
}

TEST_CASE("a folder that can't be looked through is said to be so") {
    ScratchFolder scratch;
    touch(scratch.path() / "file");
    for (const char* name : {"nowhere", "file"}) {
        Findings findings;
        CHECK(shade_files((scratch.path() / name).string(), findings).empty());
        REQUIRE(findings.size() == 1);
        CHECK(findings[0].code == Code::file_unreadable);
    }
}

TEST_CASE("no more than ten thousand files are taken, and that there are more is said") {
    ScratchFolder scratch;
    for (std::size_t i = 0; i < most_in_folder; ++i)
        std::ofstream(scratch.path() / (std::to_string(i) + ".shade"));
    Findings findings;
    CHECK(shade_files(scratch.path().string(), findings).size() == most_in_folder);
    CHECK(findings.empty());
    touch(scratch.path() / "more/one.shade");
    CHECK(shade_files(scratch.path().string(), findings).empty());
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code == Code::too_many_files);
}

TEST_CASE("names are alike where only capitals, blanks or the encoding of an accent differ") {
    CHECK(same_names({"Quince.shade", "quince.shade"}).size() == 1);
    CHECK(same_names({"a/Pr\u00E9.shade", "b", "a/Pre\u0301.shade"}).size() == 1);
    CHECK(same_names({"a.shade", "A.shade", "a.Shade"}).size() == 2);
    CHECK(same_names({"a.shade", "a.shade"}).empty());  // the same one, named twice
    CHECK(same_names({"a/q.shade", "b/q.shade", "q1.shade", "q10.shade"}).empty());
    const Findings one = same_names({"Q.shade", "q.shade"});
    REQUIRE(one.size() == 1);
    CHECK(one[0].severity == Severity::advice);
    CHECK(one[0].message.find("\"Q.shade\" and \"q.shade\"") != std::string::npos);
}
