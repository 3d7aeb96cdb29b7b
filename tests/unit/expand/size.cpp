// How much work sheets are, counted by hand.
#include "interpreter/compile.hpp"
#include "interpreter/expand/size.hpp"

#include <catch2/catch.hpp>

using namespace levigate;

namespace {

Compiled compiled(const std::string& text) {
    Compiled out = compile(memory_world({{"a.shade", text}}), "a.shade");
    CHECK(out.findings.empty());
    return out;
}

std::size_t work_of(const Compiled& file, bool all) {
    Choice choice;
    choice.all = all;
    WorkCounter counter(file.formulary);
    counter.add(select(file.formulary, file.names, choice));
    return counter.work();
}

const std::string materials = "material soft base\n    role base\n"
                              "material copper mica\n    role mica\nmaterial wax\n";

}  // namespace

TEST_CASE("work is the lines of all bowls, each bowl once a sheet", "[size]") {
    const std::string blends = "blend Base\n    1 part soft base\n    1 part wax\n"
                               "    1 part copper mica\n"
                               "blend Both\n    1 part Base\n    1 part wax\n";
    // Own bowl 3 lines, Both 2, Base 3 though two bowls use it: 8 a sheet, 2 batches.
    const Compiled two = compiled(materials + blends +
                                  "shade Quince\n    50 % Both\n    20 % Base\n    rest soft base\n"
                                  "    batch trial 60 g\n    batch full 6 kg\n");
    CHECK(work_of(two, false) == 16);
    // A variant and a finish: as made and thinner, each with the finish alone, as `--all` has it.
    const Compiled more =
        compiled(materials + blends +
                 "variant thin\n    scale Base by 1/2\nfinish waxed\n    add 1 % wax\n"
                 "shade Quince\n    50 % Both\n    20 % Base\n    rest soft base\n"
                 "    batch trial 60 g\n    variants thin\n    finishes waxed\n");
    CHECK(work_of(more, false) == 8);
    CHECK(work_of(more, true) == 2 * (8 + 1));
}

TEST_CASE("lines with long numbers are more work", "[size]") {
    // Halves in halves, 100 deep: a number below has about a digit more for each (0.5 is counted as
    // one), so that the lines of the blend n below the first count 1 + n²/128 each.
    std::string text = materials;
    std::size_t lines = 1;
    for (int n = 0; n < 100; ++n) {
        text += "blend b" + std::to_string(n) + "x\n    1 part wax\n    1 part " +
                (n < 99 ? "b" + std::to_string(n + 1) + "x" : "soft base") + "\n";
        lines += 2 * (1 + static_cast<std::size_t>(n) * static_cast<std::size_t>(n) / 128);
    }
    const Compiled deep = compiled(text + "shade Quince\n    100 % b0x\n    batch full 6 kg\n");
    CHECK(work_of(deep, false) == lines);
}

TEST_CASE("more work than is done in a run is refused before any of it is done", "[size]") {
    std::string text = materials;
    for (int i = 0; i < 1000; ++i)
        text += "blend b" + std::to_string(i) + "x\n    1 part wax\n    1 part soft base\n";
    text += "shade Quince\n";
    for (int i = 0; i < 1000; ++i) text += "    1 part b" + std::to_string(i) + "x\n";
    std::string fits = text, over = text;
    // 3,000 lines a sheet: 666 batches are 1,998,000 lines, and 667 are 2,001,000.
    for (int i = 0; i < 667; ++i) {
        const std::string batch = "    batch t" + std::to_string(i) + " 60 kg\n";
        if (i < 666) fits += batch;
        over += batch;
    }
    const Compiled under = compiled(fits), beyond = compiled(over);
    CHECK_FALSE(too_much_work(under.formulary, under.names));
    const auto finding = too_much_work(beyond.formulary, beyond.names);
    REQUIRE(finding);
    CHECK(finding->code == Code::too_many_sheets);
    int sheets = 0;
    const Findings found =
        expand_each(beyond.formulary, beyond.names, {}, [&](Sheet&) { ++sheets; });
    CHECK(sheets == 0);
    REQUIRE(found.size() == 1);
    CHECK(found[0].code == Code::too_many_sheets);
}
