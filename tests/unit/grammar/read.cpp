// Reading: what becomes of a line, where it goes wrong, and that the rest is still read.

#include "grammar/read.hpp"

#include <catch2/catch.hpp>

#include "grammar/near.hpp"

using namespace levigate;

namespace {

struct Read {
    Sources sources;
    Names names;
    Outcome<tree::File> out;
    explicit Read(std::string text) {
        const SourceId id = sources.add({"test.shade", std::move(text), false});
        out = read(sources, id, names);
    }
    std::string text(Span span) const { return std::string(sources.text(span)); }
    const tree::File& file() const { return out.value; }
};

template <typename T>
const T& body(const Read& read, std::size_t line) {
    return std::get<T>(read.file().lines.at(line).body);
}

}  // namespace

TEST_CASE("each example of the word list is read as what it stands for") {
    for (const FormWord& form : form_words()) {
        for (const HeadingWord& heading : heading_words()) {
            if ((form.where & in(heading.heading)) == 0) continue;
            if (heading.heading == Heading::language || heading.heading == Heading::use ||
                heading.heading == Heading::unit)
                continue;
            const Read read(std::string(heading.example) + "\n    " + std::string(form.example) +
                            "\n");
            INFO(heading.example << " / " << form.example);
            CHECK(read.out.findings.empty());
            REQUIRE(read.file().lines.size() == 1);
            CHECK(read.file().lines[0].form == form.form);
            break;
        }
    }
    for (const HeadingWord& heading : heading_words()) {
        const Read read(std::string(heading.example) + "\n");
        INFO(heading.example);
        CHECK(read.out.findings.empty());
        REQUIRE(read.file().blocks.size() == 1);
        CHECK(read.file().blocks[0].heading == heading.heading);
    }
}

TEST_CASE("a bad line costs one finding, and the lines around it are there") {
    const Read read("shade Quince\n    rest soft base\n    set for\n    18 % mica\n"
                    "shade Damson\n    5 %\n    rest soft base\n");
    REQUIRE(read.out.findings.size() == 2);
    CHECK(read.file().blocks.size() == 2);
    CHECK(read.file().lines.size() == 3);
    CHECK(read.file().blocks[0].damaged);
    CHECK(read.file().blocks[1].damaged);
}

TEST_CASE("an open line keeps its words for resolving to part") {
    const Read read("shade Quince\n    2 small scoops copper mica\n    2 drops per 10 g vanilla\n"
                    "    3 g \"24 k gold\"\n");
    CHECK(read.out.findings.empty());
    const auto& scoops = body<tree::Ingredient>(read, 0);
    CHECK(scoops.open);
    CHECK(read.text(read.file().exprs[scoops.amount.expr].words) == "small scoops copper mica");
    const auto& drops = body<tree::Ingredient>(read, 1);
    CHECK(drops.open);
    const tree::Expr& per = read.file().exprs[drops.amount.expr];
    CHECK(per.kind == tree::ExprKind::per);
    CHECK(read.text(read.file().exprs[per.left].words) == "drops");
    CHECK(read.text(read.file().exprs[per.right].words) == "g vanilla");
    const auto& gold = body<tree::Ingredient>(read, 2);
    CHECK_FALSE(gold.open);
    CHECK(read.text(gold.name.span) == "24 k gold");
}

TEST_CASE("words of the language are names where no form needs them") {
    const Read read("shade Kiss of Rose for Two\n    rest the base of rest\n"
                    "variant swap it\n    swap \"Salt for Two\" for Dusk mica\n");
    CHECK(read.out.findings.empty());
    CHECK(read.text(read.file().blocks[0].name.span) == "Kiss of Rose for Two");
    const auto& swap = body<tree::Swap>(read, 1);
    CHECK(read.text(swap.old_name.span) == "Salt for Two");
    CHECK(read.text(swap.new_name.span) == "Dusk mica");
}

TEST_CASE("a comment stands at a line's start or between blanks, and never in quotes") {
    const Read read("# head\nshade Q # a comment\n    rest FD&C Blue #1 # another\n"
                    "    1 % \"a # b\"\n#last\n");
    CHECK(read.out.findings.empty());
    CHECK(read.file().comments.size() == 4);
    CHECK(read.text(body<tree::Ingredient>(read, 0).name.span) == "FD&C Blue #1");
    CHECK(read.text(body<tree::Ingredient>(read, 1).name.span) == "a # b");
}

TEST_CASE("what was pasted is forgiven") {
    const Read read("\xEF\xBB\xBFshade Q\r\n\u2022 1\u00BD %\u00A0mica\r\n"
                    "* (2 \u00D7 3 % \u2212 1 %) \u201Cmoon\u2019s glow\u201D\r"
                    "    rest moon\u2019s base\n");
    CHECK(read.out.findings.empty());
    REQUIRE(read.file().lines.size() == 3);
    CHECK(read.names.folded(body<tree::Ingredient>(read, 1).name.sym) == "moon's glow");
    CHECK(read.names.folded(body<tree::Ingredient>(read, 2).name.sym) == "moon's base");
}

TEST_CASE("a line that ends in a comma goes on, but not past a blank line or a heading") {
    const Read joined("family F\n    vary {d} over 1 %, # first\n    # and\n        2 %,\n 3 %\n");
    CHECK(joined.out.findings.empty());
    CHECK(body<tree::Vary>(joined, 0).values.size() == 3);
    CHECK(joined.file().comments.size() == 2);
    const Read cut("shade Q\n    finishes satin,\nshade R\n    finishes satin,\n\n    rest x\n");
    REQUIRE(cut.out.findings.size() == 2);
    CHECK(cut.out.findings[0].code == Code::comma_trailing);
    CHECK(cut.file().blocks.size() == 2);
    const Read text("shade Q\n    step one,\n    rest x\n");
    CHECK(text.out.findings.empty());
    CHECK(text.file().lines.size() == 2);
}

TEST_CASE("brackets nest to a bound") {
    const std::string deep(30, '('), back(30, ')');
    CHECK(Read("shade Q\n    " + deep + "1 %" + back + " x\n").out.findings.empty());
    const std::string deeper(60, '('), back_too(60, ')');
    const Read read("shade Q\n    " + deeper + "1 %" + back_too + " x\n");
    REQUIRE(read.out.findings.size() == 1);
    CHECK(read.out.findings[0].code == Code::nesting_too_deep);
}

TEST_CASE("names fold case, blanks, apostrophes and the way an accent is written") {
    Names names;
    CHECK(names.intern("Red  7\u00A0Lake") == names.intern("red 7 lake"));
    CHECK(names.intern("Cr\u00E8me") == names.intern("CRE\u0300ME"));
    CHECK(names.intern("\u00B5g") == names.intern("\u03BCg"));
    CHECK(names.intern("a b") != names.intern("ab"));
    CHECK(tidy_name("  Soft   Base ") == "Soft Base");
}

TEST_CASE("Damerau's distance, from worked pairs") {
    // Counted by hand: swap of neighbours 1, insertion 1, change 1, no relation.
    CHECK(distance("mcia", "mica") == 1);
    CHECK(distance("mic", "mica") == 1);
    CHECK(distance("moca", "mica") == 1);
    CHECK(distance("", "mica") == 4);
    CHECK(distance("cr\u00E8me", "creme") == 1);
    CHECK(is_near("windfal mica", "windfall mica"));
    CHECK_FALSE(is_near("rose", "base"));
}
