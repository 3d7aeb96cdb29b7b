// Costs that come exactly to what is expected of them, and a hair beside it. Figures by hand.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"

using namespace levigate;

namespace {

/// 6 g of base at 6 USD per 100 g are 0.36 USD; with 10 % of something that has no price at least
/// 0.9 × 0.36 = 0.324 USD.
Checked judged(const std::string& expects, bool priced = true) {
    const Compiled page =
        compile(memory_world({{"a.shade",
                               "material base\n price 6 USD per 100 g\nmaterial silver\n" +
                                   std::string("shade S\n rest base\n") +
                                   (priced ? "" : " 10 % silver\n") + " batch t 6 g\n" + expects}}),
                "a.shade");
    REQUIRE_FALSE(any_error(page.findings));
    return check_all(page.formulary, page.names, {});
}

char verdict(const std::string& bound, bool priced = true) {
    INFO(bound);
    const Checked all = judged(" expect cost " + bound + "\n", priced);
    REQUIRE(all.verdicts.size() == 1);
    REQUIRE(all.verdicts[0].size() == 1);
    switch (all.verdicts[0][0]) {
        case Verdict::holds: return '+';
        case Verdict::fails: return '-';
        case Verdict::unknown: return '?';
    }
    return ' ';
}

}  // namespace

TEST_CASE("a cost exactly at its bound", "[expect]") {
    CHECK(verdict("at most 0.36 USD") == '+');
    CHECK(verdict("at most 0.3599 USD") == '-');
    CHECK(verdict("under 0.36 USD") == '-');
    CHECK(verdict("under 0.3601 USD") == '+');
    CHECK(verdict("at least 0.36 USD") == '+');
    CHECK(verdict("at least 0.3601 USD") == '-');
    CHECK(verdict("over 0.36 USD") == '-');
    CHECK(verdict("over 0.3599 USD") == '+');
    CHECK(verdict("is 0.36 USD") == '+');
    CHECK(verdict("is 0.3599 USD") == '-');
    CHECK(verdict("is 0.3601 USD") == '-');
    CHECK(verdict("between 0.36 USD and 1 USD") == '+');
    CHECK(verdict("between 0.1 USD and 0.36 USD") == '+');
    CHECK(verdict("between 0.3601 USD and 1 USD") == '-');
    CHECK(verdict("between 0.1 USD and 0.3599 USD") == '-');
}

TEST_CASE("what has no price may cost nothing or anything", "[expect]") {
    // The least that it can be is known, 0.324 USD, and nothing above is ruled out.
    CHECK(verdict("at most 0.324 USD", false) == '?');
    CHECK(verdict("at most 0.3239 USD", false) == '-');
    CHECK(verdict("under 0.324 USD", false) == '-');
    CHECK(verdict("under 0.3241 USD", false) == '?');
    CHECK(verdict("at least 0.324 USD", false) == '+');
    CHECK(verdict("at least 0.3241 USD", false) == '?');
    CHECK(verdict("over 0.324 USD", false) == '?');
    CHECK(verdict("over 0.3239 USD", false) == '+');
    CHECK(verdict("is 0.324 USD", false) == '?');
    CHECK(verdict("is 0.3239 USD", false) == '-');
    CHECK(verdict("between 0.1 USD and 0.324 USD", false) == '?');
    CHECK(verdict("between 0.1 USD and 0.3239 USD", false) == '-');
}

TEST_CASE("a cost that misses its bound is written so that it differs from it", "[expect]") {
    const auto said = [](const std::string& bound) {
        const Checked all = judged(" expect cost " + bound + "\n");
        REQUIRE(all.findings.size() == 1);
        return all.findings[0].message;
    };
    CHECK(said("at most 0.35 USD").starts_with("S, t costs 0.36 USD, and at most 0.35 USD"));
    CHECK(said("at most 0.3599 USD").starts_with("S, t costs 0.3600 USD, and at most 0.3599 USD"));
    CHECK(said("over 0.36 USD").starts_with("S, t costs 0.36 USD, and more than 0.36 USD"));
}
