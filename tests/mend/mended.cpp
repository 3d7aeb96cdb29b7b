// What `check --mend` does to a file, and what it leaves.
#include <catch2/catch.hpp>

#include "interpreter/query/mended.hpp"

using namespace levigate;

namespace {

const std::string two_materials = "material soft base\nmaterial copper mica\n";

MendedFile mend(const std::string& text, std::map<std::string, std::string> others = {}) {
    others["a.shade"] = text;
    return mended(memory_world(std::move(others)), {"a.shade"}, {}).front();
}

}  // namespace

TEST_CASE("several fixes of one file are made, from both ends of it") {
    const MendedFile out =
        mend(two_materials + "shade Quince\n    rest  soft base\n    1,5 %  copper mica\n"
                             "    batch  trial 6,5 g\n");
    CHECK(out.text() == two_materials +
                            "shade Quince\n    rest  soft base\n    1.5 %  copper mica\n"
                            "    batch  trial 6.5 g\n");
    REQUIRE(out.made.size() == 2);
    CHECK(out.made[0].code == Code::comma_decimal);
    CHECK(out.as_read().compiled.sources.text(out.made[0].span) == "1,5");
    CHECK(out.as_read().compiled.sources.text(out.made[1].span) == "6,5");
    CHECK(out.left.empty());
    CHECK(out.after.findings.empty());
}

TEST_CASE("a guess at what is weighed is not made") {
    const std::string text = two_materials +
                             "shade Quince\n    rest  soft base\n    18 %  coper mica\n"
                             "    batch  trial 6 g\n";
    const MendedFile out = mend(text);
    CHECK(out.text() == text);
    CHECK(out.made.empty());
    REQUIRE(out.after.findings.size() == 1);
    REQUIRE(out.after.findings[0].fixes.size() == 1);
    CHECK_FALSE(out.after.findings[0].fixes[0].certain);
}

TEST_CASE(
    "the digest of an edition is not broken, records are not rewritten, a merge is not ended") {
    const MendedFile edition =
        mend("edition Autumn\n    number  1\n    date  2026-10-01\n    digest  sha256 " +
             std::string(64, '0') + "\n" + two_materials +
             "shade Quince\n    rest  soft base\n    1,5 %  copper mica\n    batch  trial 6 g\n");
    CHECK(edition.made.empty());
    REQUIRE(edition.left.size() == 1);
    CHECK(edition.left[0].why == LeftBecause::edition);
    const MendedFile records =
        mend("record 2026-10-03 trial of Quince\n    weighed  4,92 g soft base\n");
    CHECK(records.made.empty());
    REQUIRE(records.left.size() == 1);
    CHECK(records.left[0].why == LeftBecause::records);
    const MendedFile merge = mend(
        two_materials + "<<<<<<< ours\n=======\n>>>>>>> theirs\nshade Quince\n    rest  soft base\n"
                        "    1,5 %  copper mica\n    batch  trial 6 g\n");
    CHECK(merge.made.empty());
    REQUIRE(merge.left.size() == 1);
    CHECK(merge.left[0].why == LeftBecause::unmerged);
}

TEST_CASE("only the file that was named is mended") {
    const std::string text = "use \"shelf.shade\"\nshade Quince\n    rest  soft base\n"
                             "    1 %  copper mica\n    batch  trial 6 g\n";
    const MendedFile out = mend(text, {{"shelf.shade", two_materials + "    density  0,9 g/mL\n"}});
    CHECK(out.text() == text);
    CHECK(out.made.empty());
}

TEST_CASE("a line of which nothing is left goes as a whole") {
    const std::string text = "one\r\n  two  \r\nthree";
    CHECK(with_fixes(text, {certain_fix({0, 7, 10}, "")}) == "one\r\nthree");
    CHECK(with_fixes(text, {certain_fix({0, 0, 3}, "")}) == "  two  \r\nthree");
    CHECK(with_fixes(text, {certain_fix({0, 14, 19}, "")}) == "one\r\n  two  \r\n");
    CHECK(with_fixes("one\n    - two\n", {certain_fix({0, 10, 13}, "")}) == "one\n");
    CHECK(with_fixes(text, {certain_fix({0, 7, 8}, ""), certain_fix({0, 0, 0}, "x ")}) ==
          "x one\r\n  wo  \r\nthree");
}

TEST_CASE("what is weighed by another named file is not changed either") {
    const std::map<std::string, std::string> files = {
        {"a.shade", "uint drop = 0.06 g\nmaterial soft base\nmaterial orange oil\n"
                    "    density 0.9 g/mL\n"},
        {"b.shade", "use \"a.shade\"\nshade Quince\n    rest soft base\n"
                    "    2 drops per 10 g  orange oil\n    batch trial 10 g\n"}};
    const auto both = mended(memory_world(files), {"a.shade", "b.shade"}, {});
    CHECK(both[0].made.empty());
    REQUIRE(both[0].left.size() == 1);
    CHECK(both[0].left[0].why == LeftBecause::changes_a_sheet);
    CHECK(both[0].left[0].words == "Quince · trial");
}

TEST_CASE("one run is enough, in whichever order the files are named") {
    const std::map<std::string, std::string> files = {
        {"a.shade", "uint scoop = 2 g\n" + two_materials},
        {"b.shade", "use \"a.shade\"\nshade Quince\n    rest soft base\n"
                    "    1,5 scoop per 10 g  copper mica\n    batch trial 10 g\n"}};
    for (const bool turned : {false, true}) {
        const std::vector<std::string> paths = turned
                                                   ? std::vector<std::string>{"b.shade", "a.shade"}
                                                   : std::vector<std::string>{"a.shade", "b.shade"};
        for (const MendedFile& one : mended(memory_world(files), paths, {})) {
            INFO(one.path);
            CHECK(one.made.size() == 1);
            CHECK(one.after.findings.empty());
        }
    }
}

TEST_CASE("a fix that only a user of the file brings up is made in the file") {
    const std::map<std::string, std::string> files = {
        {"lib.shade", two_materials + "finish dusty\n    add 10 % copper mica\n    rebalance\n"},
        {"b.shade", "use \"lib.shade\"\nshade Quince\n    rest soft base\n    finishes dusty\n"
                    "    batch trial 6 g\n"}};
    const auto both = mended(memory_world(files), {"b.shade", "lib.shade"}, {});
    CHECK(both[0].made.empty());
    REQUIRE(both[1].made.size() == 1);
    CHECK(both[1].text() == two_materials + "finish dusty\n    add 10 % copper mica\n");
    CHECK(both[0].after.findings.empty());
}

TEST_CASE("all decimal commas of a line are one slip") {
    const MendedFile out = mend("material soft base\n    density 0,8 g/mL ± 0,04 g/mL\n"
                                "shade Quince\n    rest soft base\n"
                                "    batch trial 6,5 g, overage 5,5 %\n");
    CHECK(out.text() == "material soft base\n    density 0.8 g/mL ± 0.04 g/mL\n"
                        "shade Quince\n    rest soft base\n"
                        "    batch trial 6.5 g, overage 5.5 %\n");
    CHECK(out.after.findings.empty());
}

TEST_CASE("what may mean something else is not made") {
    const auto unchanged = [](const std::string& text) {
        INFO(text);
        CHECK(mend(text).text() == text);
    };
    unchanged(two_materials + "shad e Quince\n    rest soft base\n    batch trial 6 g\n");
    unchanged("materials oft base\n");
    unchanged("units mall scoop = 2 g\n");
    unchanged(two_materials +
              "shade Quince\n    rest soft base\n    step Sieve.\x0B    note Keep 1 "
              "g back.\n    batch trial 6 g\n");
    unchanged(two_materials + "shade Quince\n    rest soft base\n    1/2,5 %  copper mica\n"
                              "    batch trial 6 g\n");
}
