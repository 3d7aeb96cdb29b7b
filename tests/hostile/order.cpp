// Findings don't hang on the order in which blocks stand: random deep files, near their limits and
// beyond them, with rings and with names that nothing has, shuffled. Codes and names are compared;
// places move with the blocks.
#include "grammar/codes.hpp"
#include "interpreter/compile.hpp"
#include "tests/hostile/deep.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <random>
#include <set>
#include <sstream>

namespace levigate::testing::order {

using namespace hostile;

namespace {

using Random = std::mt19937;

int one_of(Random& random, int from, int to) {
    return std::uniform_int_distribution<int>(from, to)(random);
}

bool chance(Random& random, int percent) { return one_of(random, 1, 100) <= percent; }

/// A chain of blends with short cuts, now and then a line back up that closes a ring, or a name
/// that nothing has.
void add_blends(Random& random, Blocks& out) {
    const int deep = one_of(random, 195, 206);
    const bool rings = chance(random, 25), unknown = chance(random, 25);
    for (int i = 0; i < deep; ++i) {
        std::string block = fmt::format("blend b{}x\n    1 part copper mica\n", i);
        block += i + 1 < deep ? fmt::format("    1 part b{}x\n", i + 1) : "    1 part soft base\n";
        const int further = one_of(random, i + 2, i + 40);
        if (further < deep && chance(random, 50))
            block += fmt::format("    2 parts b{}x\n", further);
        if (rings && i > 3 && chance(random, 1))
            block += fmt::format("    1 part b{}x\n", i - one_of(random, 1, 3));
        if (unknown && chance(random, 1)) block += fmt::format("    1 part nothing{}x\n", i);
        out.push_back(block);
    }
    out.push_back("shade Quince\n    100 % b0x\n    batch trial 6 kg\n");
}

void add_likes(Random& random, Blocks& out) {
    const int count = one_of(random, 195, 206);
    out.push_back("shade s0x\n    rest soft base\n    3 % copper mica\n    batch trial 60 g\n");
    for (int i = 1; i < count; ++i)
        out.push_back(fmt::format("shade s{}x like s{}x\n{}", i, i - 1,
                                  chance(random, 50) ? "    set 4 % copper mica\n" : ""));
    // Shades that hold others, and blends.
    for (int i = 0; i < 5; ++i)
        out.push_back(fmt::format("shade p{}x\n    1 part s{}x\n    1 part {}\n"
                                  "    batch t 60 g\n", i,
                                  one_of(random, 0, count - 1),
                                  i > 0 ? fmt::format("p{}x", i - 1) : "copper mica"));
}

void add_units(Random& random, Blocks& out) {
    const int count = one_of(random, 195, 206);
    const int back = chance(random, 25) ? one_of(random, 0, count - 1) : -1;
    for (int i = 0; i < count; ++i)
        out.push_back(fmt::format(
            "unit u{}x = 1 {}\n", i,
            i + 1 < count ? fmt::format("u{}x", i + 1)
            : back >= 0   ? fmt::format("u{}x", back)
                          : "g"));
    out.push_back("shade Damson\n    (3 u0x) soft base\n    batch trial 60 g\n");
}

Blocks random_file(Random& random) {
    Blocks out{"material soft base\n    role base\n", "material copper mica\n    role mica\n"};
    const int what = one_of(random, 1, 7);
    if (what & 1) add_blends(random, out);
    if (what & 2) add_likes(random, out);
    if (what & 4) add_units(random, out);
    return out;
}

/// Each finding as its code and the words of its message, sorted: a ring may begin anywhere.
std::multiset<std::string> findings_of(const Blocks& blocks) {
    std::string text;
    for (const std::string& block : blocks) text += block;
    const Compiled compiled = compile(memory_world({{"deep.shade", text}}), "deep.shade");
    std::multiset<std::string> out;
    for (const Finding& one : compiled.findings) {
        std::istringstream words(one.message);
        std::set<std::string> sorted;
        for (std::string word; words >> word;) {
            while (!word.empty() && std::string_view(".,:").find(word.back()) != std::string::npos)
                word.pop_back();
            sorted.insert(word);
        }
        std::string line = std::string(row_of(one.code).name);
        for (const std::string& word : sorted) line += " " + word;
        out.insert(line);
    }
    return out;
}

}  // namespace

TEST_CASE("findings of deep files don't hang on the order of their blocks") {
    const unsigned first = 20261130;
    int with_findings = 0, without = 0;
    for (unsigned seed = first; seed < first + 120; ++seed) {
        INFO("seed " << seed);
        Random random(seed);
        Blocks blocks = random_file(random);
        const auto as_made = findings_of(blocks);
        ++(as_made.empty() ? without : with_findings);
        std::reverse(blocks.begin(), blocks.end());
        CHECK(findings_of(blocks) == as_made);
        for (int i = 0; i < 3; ++i) {
            std::shuffle(blocks.begin(), blocks.end(), random);
            CHECK(findings_of(blocks) == as_made);
        }
    }
    // Both sides of the limits are met.
    CHECK(with_findings > 20);
    CHECK(without > 10);
}

}  // namespace levigate::testing::order
