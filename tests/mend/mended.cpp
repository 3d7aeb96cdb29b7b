// What `check --mend` does to a file, and what it leaves.
#include <catch2/catch.hpp>

#include "interpreter/query/mended.hpp"

using namespace levigate;

namespace {

const std::string two_materials = "material soft base\nmaterial copper mica\n";

Mended mend(const std::string& text, std::map<std::string, std::string> others = {}) {
    others["a.shade"] = text;
    return mended(memory_world(std::move(others)), "a.shade", {});
}

}  // namespace

TEST_CASE("several fixes of one file are made, from both ends of it") {
    const Mended out =
        mend(two_materials + "shade Quince\n    rest  soft base\n    1,5 %  copper mica\n"
                             "    batch  trial 6,5 g\n");
    CHECK(out.text() == two_materials +
                            "shade Quince\n    rest  soft base\n    1.5 %  copper mica\n"
                            "    batch  trial 6.5 g\n");
    REQUIRE(out.made.size() == 2);
    CHECK(out.made[0].code == Code::comma_decimal);
    CHECK(out.before.compiled.sources.text(out.made[0].span) == "1,5");
    CHECK(out.before.compiled.sources.text(out.made[1].span) == "6,5");
    CHECK(out.left.empty());
    CHECK(out.after.findings.empty());
}

TEST_CASE("a guess at what is weighed is not made") {
    const std::string text = two_materials +
                             "shade Quince\n    rest  soft base\n    18 %  coper mica\n"
                             "    batch  trial 6 g\n";
    const Mended out = mend(text);
    CHECK(out.text() == text);
    CHECK(out.made.empty());
    REQUIRE(out.after.findings.size() == 1);
    REQUIRE(out.after.findings[0].fixes.size() == 1);
    CHECK_FALSE(out.after.findings[0].fixes[0].certain);
}

TEST_CASE(
    "the digest of an edition is not broken, records are not rewritten, a merge is not ended") {
    const Mended edition =
        mend("edition Autumn\n    number  1\n    date  2026-10-01\n    digest  sha256 " +
             std::string(64, '0') + "\n" + two_materials +
             "shade Quince\n    rest  soft base\n    1,5 %  copper mica\n    batch  trial 6 g\n");
    CHECK(edition.made.empty());
    REQUIRE(edition.left.size() == 1);
    CHECK(edition.left[0].why == LeftBecause::edition);
    const Mended records =
        mend("record 2026-10-03 trial of Quince\n    weighed  4,92 g soft base\n");
    CHECK(records.made.empty());
    REQUIRE(records.left.size() == 1);
    CHECK(records.left[0].why == LeftBecause::records);
    const Mended merge = mend(
        two_materials + "<<<<<<< ours\n=======\n>>>>>>> theirs\nshade Quince\n    rest  soft base\n"
                        "    1,5 %  copper mica\n    batch  trial 6 g\n");
    CHECK(merge.made.empty());
    REQUIRE(merge.left.size() == 1);
    CHECK(merge.left[0].why == LeftBecause::unmerged);
}

TEST_CASE("only the file that was named is mended") {
    const std::string text = "use \"shelf.shade\"\nshade Quince\n    rest  soft base\n"
                             "    1 %  copper mica\n    batch  trial 6 g\n";
    const Mended out = mend(text, {{"shelf.shade", two_materials + "    density  0,9 g/mL\n"}});
    CHECK(out.text() == text);
    CHECK(out.made.empty());
}

TEST_CASE("a line of which nothing is left goes as a whole") {
    const std::string text = "one\r\n  two  \r\nthree";
    CHECK(with_fixes(text, {certain_fix({0, 7, 10}, "")}) == "one\r\nthree");
    CHECK(with_fixes(text, {certain_fix({0, 0, 3}, "")}) == "  two  \r\nthree");
    CHECK(with_fixes(text, {certain_fix({0, 14, 19}, "")}) == "one\r\n  two  \r\n");
    CHECK(with_fixes(text, {certain_fix({0, 7, 8}, ""), certain_fix({0, 0, 0}, "x ")}) ==
          "x one\r\n  wo  \r\nthree");
}
