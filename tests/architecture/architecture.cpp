// The rules of the house, read from the files themselves. Every failure says where, and why the
// rule is there. selftest.cpp shows that each check finds what it is for.
#include "tests/architecture/includes.hpp"
#include "tests/architecture/scan.hpp"
#include "tests/architecture/style.hpp"

#include <catch2/catch.hpp>

using namespace levigate::testing;

namespace {

const std::vector<SourceFile>& product() {
    static const auto files = source_files({"grammar", "interpreter"}, {".cpp", ".hpp"});
    return files;
}

const std::vector<SourceFile>& everything_written() {
    static const auto files = source_files({"grammar", "interpreter", "tests", "examples"},
                                           {".cpp", ".hpp", ".sh", ".shade", ".cmake"});
    return files;
}

void none(const Offences& offences, std::string_view why) {
    INFO(told(offences, why));
    CHECK(offences.empty());
}

}  // namespace

TEST_CASE("the files are found") { CHECK(product().size() > 10); }

TEST_CASE("rooms include only what they may") {
    none(wrong_directions(product()),
         "A room is a phase, and text flows one way: tree, formulary, sheets, document. A room "
         "that looks back, or at its neighbour, can't be understood or changed alone. If the "
         "need is real, move what is shared to the room that both may see; change the table "
         "(tests/architecture/includes.cpp, DEVELOPERS.md) only with a reason that holds.");
}

TEST_CASE("the table of rooms names only what exists") {
    none(empty_rows(product()),
         "A row for a room that doesn't exist is a permission that nobody weighed: whoever makes "
         "the room later has it without a reason.");
}

TEST_CASE("includes are written from the root") {
    none(unknown_includes(product()),
         "A path from the root says which room is meant, and this test can only guard what it "
         "can read.");
}

TEST_CASE("no files include each other in a loop") {
    none(include_loops(product()),
         "Files in a loop are one file in pieces: none can be read, tested or moved without the "
         "others.");
}

TEST_CASE("libraries keep to their rooms") {
    none(library_outside(product(), "<tao/", "grammar/"),
         "PEGTL moves its headers with every major version and is slow to compile: one room "
         "pays for it.");
    none(library_outside(product(), "<boost/units", "interpreter/measure/"),
         "Boost.Units' own conversions go through double, silently; in one room we can see to "
         "it that only exact factors of our own are used.");
    none(library_outside(product(), "<git2", "interpreter/history/"),
         "A repository is a stranger's: in one room we can see to it that it is read, and nothing "
         "in it is run.");
    none(library_outside(product(), "<unicode/", "interpreter/lookalike/generate/"),
         "ICU is asked while levigate is built. Loading it would make the command start a third "
         "slower, and carrying it would make a page thirty megabytes larger.");
    none(library_outside(product(), "<CLI/", "interpreter/cli/"),
         "Only the command has a command line; editor and web page use the same library "
         "without one.");
}

TEST_CASE("a file can reach neither the network nor another program") {
    for (const char* door :
         {"<sys/socket", "<netinet", "<netdb", "<arpa/", "<curl", "<spawn", "<dlfcn"})
        none(library_outside(product(), door, "nowhere/"),
             "README promises that opening a stranger's file does nothing of the kind.");
}

TEST_CASE("nothing throws across a phase") {
    // Where a library forces it, the file is named here, with the reason.
    const std::vector<std::string> allowed{
        "grammar/",          // PEGTL reports a failed rule by an exception
        "interpreter/cli/",  // so does CLI11 with a wrong command line
    };
    none(words_in_code(product(), {"throw"}, allowed),
         "Every phase returns a value and findings. An exception would lose both: one mistake "
         "in a page would hide all the others.");
}

TEST_CASE("plain values instead of object graphs") {
    none(words_in_code(product(), {"new", "dynamic_cast", "shared_ptr", "make_shared"}, {}),
         "Trees and sheets are plain values: who owns what is never a question, and one variant "
         "with all its cases beats a hierarchy that grows by casts.");
}

TEST_CASE("files, functions and lines stay small") {
    none(long_files(everything_written(), 400),
         "A file is one concept that a reader takes in at a sitting. Beyond 400 lines there are "
         "two concepts in it: find the seam.");
    none(long_functions(product(), 60),
         "A function fits a screen. Beyond 60 lines nobody sees its beginning and its end "
         "together.");
    none(long_lines(everything_written(), 100),
         "Two files fit side by side, and a diff shows a line whole.");
}

TEST_CASE("nothing is left for later") {
    const auto texts = source_files({"grammar", "interpreter", "tests", "examples", "stdlib"},
                                    {".cpp", ".hpp", ".sh", ".shade", ".cmake", ".md", ".case"});
    none(unfinished(texts),
         "A mark in a file is a promise that nobody reads. What isn't done is either said to "
         "the maker (unknown is said to be unknown) or kept in the list of issues.");
}
