// The runner itself: what it must notice, tried with small programs that every Debian has.
#include "tests/golden/case.hpp"
#include "tests/golden/play.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

#include <catch2/catch.hpp>

using namespace levigate::testing;
using Catch::Contains;

namespace {

Played play_with(const char* program, const std::string& text) {
    const Case parsed = parse_case(text);
    REQUIRE(parsed.problem.empty());
    return play(parsed.sections, {program, LEVIGATE_ROOT, {}});
}

}  // namespace

TEST_CASE("a case file is read and written back as it was") {
    const std::string text = "# a remark\n\n$ levigate weigh 'a b.shade'\n--- file: a b.shade\n"
                             "shade A\n\\\\ one backslash\n\\--- not a section\n--- status: 1\n"
                             "--- stdout (no newline at the end)\nx\n--- stderr\n";
    const Case parsed = parse_case(text);
    REQUIRE(parsed.problem.empty());
    REQUIRE(parsed.sections.size() == 6);
    CHECK(parsed.sections[1].argument == "weigh 'a b.shade'");
    CHECK(parsed.sections[2].text == "shade A\n\\ one backslash\n--- not a section\n");
    CHECK(parsed.sections[4].text == "x");
    CHECK(print_case(parsed.sections) == text);
}

TEST_CASE("what isn't a case is said") {
    CHECK_THAT(parse_case("--- stdot\nx\n").problem, Contains("--- stdot"));
    CHECK_THAT(parse_case("--- stdout:\n").problem, Contains("--- stdout:"));
    CHECK_THAT(parse_case("only text\n").problem, Contains("$ levigate"));
}

TEST_CASE("a command is split like a shell would") {
    using Words = std::vector<std::string>;
    CHECK(command_words("weigh a.shade  --all") == Words{"weigh", "a.shade", "--all"});
    CHECK(command_words(R"(why 'Salt for Two' "a \" b" x\ y "")") ==
          Words{"why", "Salt for Two", "a \" b", "x y", ""});
    CHECK(command_words("").empty());
}

TEST_CASE("bytes are spelled with escapes") {
    CHECK(unescape_bytes("\\xEF\\xbb\\xBFa\\r\\n\\\\\n\\tb\n") == "\xEF\xBB\xBF"
                                                                  "a\r\n\\\tb");
}

TEST_CASE("files are set up, and output is compared exactly") {
    const std::string setup = "$ levigate a.txt sub/b.txt c.txt\n--- file: a.txt\none\n"
                              "--- bytes: sub/b.txt\ntwo\\n\n--- link: c.txt -> a.txt\n";
    CHECK(play_with("/bin/cat", setup + "--- stdout\none\ntwo\none\n").report.empty());
    const Played off = play_with("/bin/cat", setup + "--- stdout\none\ntwo\ntree\n");
    CHECK_THAT(off.report, Contains("- tree\n") && Contains("+ one\n"));
    CHECK_THAT(play_with("/bin/cat", setup).report, Contains("+ two\n"));
}

TEST_CASE("a missing line end at the end is noticed") {
    const std::string setup = "$ levigate a.txt\n--- file: a.txt (no newline at the end)\none\n";
    CHECK_THAT(play_with("/bin/cat", setup + "--- stdout\none\n").report, Contains("very end"));
    CHECK(
        play_with("/bin/cat", setup + "--- stdout (no newline at the end)\none\n").report.empty());
}

TEST_CASE("the exit status and standard error are compared") {
    const std::string failing = "$ levigate nothing.txt\n";
    const Played bare = play_with("/bin/cat", failing);
    CHECK_THAT(bare.report, Contains("0 was expected, 1 came") && Contains("standard error"));
    CHECK_THAT(play_with("/bin/false", "$ levigate\n--- status: 0\n").report, Contains("1 came"));
    CHECK(play_with("/bin/false", "$ levigate\n--- status: 1\n").report.empty());
}

TEST_CASE("standard input, several commands, and files that a command leaves") {
    CHECK(play_with("/bin/cat", "$ levigate -\n--- stdin\nin\n--- stdout\nin\n").report.empty());
    const std::string two = "$ levigate a b\n--- file: a\none\n--- after: b\none\n"
                            "--- after: c\n(no such file)\n"
                            "$ levigate b c\n--- after: c\n";
    CHECK(play_with("/bin/cp", two + "one\n").report.empty());
    CHECK_THAT(play_with("/bin/cp", two + "two\n").report, Contains("+ one"));
}

TEST_CASE("blessing puts in what came, and the blessed case passes") {
    const Played first = play_with("/bin/cat", "# why\n$ levigate a.txt\n--- file: a.txt\n"
                                               "\\--- x\n--- stdout\nold\n");
    const std::string blessed = print_case(first.as_it_came);
    CHECK(blessed == "# why\n$ levigate a.txt\n--- file: a.txt\n\\--- x\n--- stdout\n\\--- x\n"
                     "--- status: 0\n");
    CHECK(play_with("/bin/cat", blessed).report.empty());
}

TEST_CASE("a path out of the playing folder is refused") {
    CHECK_THAT(play_with("/bin/true", "$ levigate\n--- file: ../x\n").report,
               Contains("no path inside"));
    CHECK_THAT(play_with("/bin/true", "$ levigate\n--- file: /tmp/x\n").report,
               Contains("no path inside"));
}

TEST_CASE("the playing folder's own path is printed as $DIR") {
    CHECK(play_with("/bin/pwd", "$ levigate\n--- stdout\n$DIR\n").report.empty());
}

TEST_CASE("a program that hangs is ended, one that isn't there is said") {
    Command sleeper;
    sleeper.words = {"/bin/sleep", "30"};
    sleeper.patience = std::chrono::milliseconds(50);
    CHECK(run(sleeper).out_of_patience);
    Command missing;
    missing.words = {"/no/such/program"};
    CHECK(run(missing).status == 127);
}

TEST_CASE("a difference shows what was expected and what came, and control bytes as escapes") {
    CHECK(difference("a\nb\n", "a\nb\n").empty());
    CHECK(difference("a\nb\nc\n", "a\nB\nc\n") == "  a\n- b\n+ B\n  c\n");
    CHECK(difference("a\n", "a\x1B[0m\n") == "- a\n+ a\\x1B[0m\n");
    CHECK(difference("1\n2\n3\n4\n5\n6\n7\nx\n", "1\n2\n3\n4\n5\n6\n7\n") ==
          "  5\n  6\n  7\n- x\n");
}
