// Whole files in canonical form: what the guard catches, and what is left alone.

#include <catch2/catch.hpp>

#include "grammar/read.hpp"
#include "grammar/tidy.hpp"

namespace {

using namespace levigate;

Tidied tidied(const std::string& text, const MeasureSplit& split) {
    Sources sources;
    Names names;
    const SourceId id = sources.add({"test", text});
    return tidy(sources, id, names, split);
}
Tidied tidied(const std::string& text) {
    return tidied(text, [](std::string_view) { return std::size_t{0}; });
}

}  // namespace

TEST_CASE("what would not say the same is not written") {
    // A measure that ends in mid-word: the name behind it would be another one.
    const std::string text = "shade Quince\n2 parts copper\n";
    const Tidied out = tidied(text, [](std::string_view) { return std::size_t{3}; });
    CHECK(out.text == text);
    CHECK_FALSE(out.changed);
    REQUIRE(out.findings.size() == 1);
    CHECK(out.findings[0].code == Code::tidy_changed);
}

TEST_CASE("what is no shade file is left as it is") {
    std::string lines;
    for (int i = 0; i < 400; ++i) lines += "nothing of ours,  at all\n\n\nshade\n";
    for (const std::string& text :
         {std::string("a\0b  \n", 6), lines, std::string("shade Q\n=======\nrest  x\n")}) {
        const Tidied out = tidied(text);
        CHECK(out.text == text);
        CHECK_FALSE(out.changed);
        CHECK_FALSE(out.findings.empty());
    }
}

TEST_CASE("nothing, blanks and comments alone") {
    CHECK(tidied("").text.empty());
    CHECK(tidied("\n \n\t\n").text.empty());
    CHECK(tidied("\n\n# a").text == "# a\n");
    CHECK(tidied("# a  \r\n\r\n\r\n  # b\r\n").text == "# a\n\n# b\n");
}

TEST_CASE("lines that go on keep their breaks, and the text of their comments") {
    CHECK(tidied("shade Q\nfinishes satin ,# no comment\n").findings.size() == 1);
    CHECK(tidied("shade Q\nfinishes satin , # one  two \n   #three\n\tmatte # four\n").text ==
          "shade Q\n    finishes    satin,  # one  two\n                #three\n"
          "                matte  # four\n");
    CHECK(tidied("market US,\nEU\n").text == "market US,\n                EU\n");
}

TEST_CASE("each line that can't be read keeps its bytes") {
    const Tidied out = tidied("rest  x\nshade Q\n- 5 %%  x # c\n\xFF bad\n2 %  y\nstep a {b\n");
    CHECK(out.text == "rest  x\n\nshade Q\n    - 5 %%  x # c\n    \xFF bad\n    2 %         y\n"
                      "    step a {b\n");
    CHECK(out.changed);
    CHECK(out.findings.size() == 4);
}
