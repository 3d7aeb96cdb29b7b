// A file that is written anew in its place: whole or not at all, and not over what somebody else
// wrote meanwhile.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include <sys/stat.h>

#include "interpreter/cli/output.hpp"
#include "tests/support/text.hpp"

namespace fs = std::filesystem;
using levigate::cli::Output;
using namespace levigate::testing;

namespace {

struct Place {
    ScratchFolder scratch{};
    std::string file = (scratch.path() / "a.shade").string();

    explicit Place(const std::string& text) { put(text); }
    void put(const std::string& text) const { std::ofstream(file) << text; }
    std::string now() const { return read_file(file).value_or(""); }
    auto entries() const {
        return std::distance(fs::directory_iterator(scratch.path()), fs::directory_iterator());
    }
};

}  // namespace

TEST_CASE("a file written anew keeps its permissions, and nothing is left beside it") {
    const Place place("old\n");
    REQUIRE(::chmod(place.file.c_str(), 0640) == 0);
    Output output = Output::over(place.file, "old\n");
    std::string text = "new\n";
    CHECK(output.finish(text));
    CHECK(place.now() == "new\n");
    CHECK(place.entries() == 1);
    struct stat about = {};
    REQUIRE(::stat(place.file.c_str(), &about) == 0);
    CHECK((about.st_mode & 07777) == 0640);
}

TEST_CASE("what somebody else wrote meanwhile stays") {
    const Place place("old\n");
    {
        Output output = Output::over(place.file, "old\n");
        place.put("theirs\n");
        std::string text = "new\n";
        CHECK_FALSE(output.finish(text));
        CHECK(output.problem().find("changed by somebody else") != std::string::npos);
    }
    CHECK(place.now() == "theirs\n");
    CHECK(place.entries() == 1);
}

TEST_CASE("what was begun and not finished leaves the file as it was") {
    const Place place("old\n");
    {
        Output output = Output::over(place.file, "old\n");
        std::string text = "half of it";
        output.drain(text);
    }
    CHECK(place.now() == "old\n");
    CHECK(place.entries() == 1);
}

TEST_CASE("a link stays a link, and the file behind it is written") {
    const Place place("old\n");
    const fs::path link = place.scratch.path() / "link.shade";
    fs::create_symlink("a.shade", link);
    Output output = Output::over(link.string(), "old\n");
    std::string text = "new\n";
    CHECK(output.finish(text));
    CHECK(fs::is_symlink(link));
    CHECK(place.now() == "new\n");
}
