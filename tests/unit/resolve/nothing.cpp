// A line of exactly nothing, and what is proposed for it.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"

using namespace levigate;

namespace {

const std::string shelf = "material base\nmaterial mica\n    role mica\n";

/// What is said of the line of nothing, and what of the text its fix would take out.
std::string said(const std::string& page) {
    const std::string text = shelf + page;
    const Compiled compiled = compile(memory_world({{"a.shade", text}}), "a.shade");
    std::string out;
    for (const Finding& finding : compiled.findings) {
        if (finding.code != Code::amount_nothing) return std::string(row_of(finding.code).name);
        out += finding.advice;
        for (const Fix& fix : finding.fixes) {
            CHECK(fix.text.empty());
            out += " -" + text.substr(fix.span.begin, fix.span.end - fix.span.begin);
        }
    }
    return out;
}

}  // namespace

TEST_CASE("a line that was written as nothing can be taken out", "[resolve]") {
    CHECK(said("shade S\n    rest base\n    0 % mica\n    batch t 6 g\n") ==
          "Leave the line out, or write an amount above 0. -0 % mica");
}

TEST_CASE("a line whose amount comes from a hole is not taken out", "[resolve]") {
    // Another value of the hole, in a child or a member of a family, makes something of it.
    CHECK(said("shade S\n    let {d} = 0 %\n    rest base\n    {d} mica\n    batch t 6 g\n") ==
          "Leave the line out, or write an amount above 0.");
}

TEST_CASE("what an edit made nothing is taken away by an edit", "[resolve]") {
    const std::string parent = "shade S\n    rest base\n    5 % mica\n    batch t 6 g\n"
                               "shade T like S\n";
    const std::string advice = "Write `without mica`, or an amount above 0.";
    CHECK(said(parent + "    set 0 % mica\n") == advice);
    CHECK(said(parent + "    scale mica by 0\n") == advice);
    CHECK(said(parent + "    let {d} = 0 %\n    set {d} mica\n") == advice);
}
