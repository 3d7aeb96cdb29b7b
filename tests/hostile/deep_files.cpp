// Depth by the graph: what is too deep is refused in whatever order its blocks stand, what is not
// is made, and no verb goes deep itself, takes long or grows large. All of it on a stack of 1 MB,
// an eighth of the usual, so that a walk that calls itself once for each block shows. As in
// hostile.cpp times are printed, and the patience is a guard; the issue asks for under 1 s each.
#include "tests/hostile/deep.hpp"
#include "tests/hostile/measured.hpp"
#include "tests/support/text.hpp"

#include <catch2/catch.hpp>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>

namespace levigate::testing::deep_files {

using namespace hostile;

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool limits = false;
#else
constexpr bool limits = true;
#endif

constexpr double patience = 10;
constexpr double most_megabytes = 120;  // 100,000 blends took 103 to 115, most of it their trees
constexpr double most_to_rescue = 160;
constexpr double most_to_compare = 200;  // changes holds two states, and what they mean
constexpr unsigned long address_space = 1024, small_stack = 1024;
constexpr std::uintmax_t most_output = 100u << 20;  // bytes

struct Deep {
    const char* name;
    std::function<Blocks()> make;
    const char* says;  // the code of what `check` says; "" where nothing is wrong
    bool any_order = true;
};

// The limits of the reference: 200 blends within blends, 200 blocks like each other, 200 units of
// each other, 300 holes; and so much work of all sheets.
const Deep table[] = {
    {"199 blends in blends", [] { return blends_deep(199); }, ""},
    {"200 blends in blends", [] { return blends_deep(200); }, ""},
    {"201 blends in blends", [] { return blends_deep(201); }, "nesting-too-deep"},
    {"499 blends in blends", [] { return blends_deep(499); }, "nesting-too-deep"},
    {"100,000 blends in blends", [] { return blends_deep(100'000); }, "nesting-too-deep"},
    {"100 shades in shades", [] { return parts_deep(100); }, ""},
    {"202 shades in shades", [] { return parts_deep(202); }, "nesting-too-deep"},
    {"20,000 shades in shades", [] { return parts_deep(20'000); }, "nesting-too-deep"},
    {"200 shades like each other", [] { return likes_deep(200); }, ""},
    {"201 shades like each other", [] { return likes_deep(201); }, "nesting-too-deep"},
    {"20,000 shades like each other", [] { return likes_deep(20'000); }, "nesting-too-deep"},
    {"200 blends like each other", [] { return blends_like_deep(200); }, ""},
    {"201 blends like each other", [] { return blends_like_deep(201); }, "nesting-too-deep"},
    {"200 units of each other", [] { return units_deep(200); }, ""},
    {"201 units of each other", [] { return units_deep(201); }, "nesting-too-deep"},
    {"50,000 units of each other", [] { return units_deep(50'000); }, "nesting-too-deep"},
    {"300 lets by each other", [] { return lets_deep(300); }, "", false},
    {"301 lets by each other", [] { return lets_deep(301); }, "nesting-too-deep", false},
    {"299 lets in 38 brackets", [] { return bracketed_lets_deep(299); }, "", false},
    {"diamonds 200 deep", [] { return diamond_deep(200); }, ""},
    {"diamonds 20,000 deep", [] { return diamond_deep(20'000); }, "nesting-too-deep"},
    {"150 dilutions", [] { return dilutions_deep(150); }, "weigh-nothing"},
    {"20,000 steps that name a blend", [] { return mentions_deep(20'000); },
     "too-many-findings"},
    {"150 lets down a chain of likes", [] { return lets_down_likes(150); }, ""},
    {"a ring of 3 blends", [] { return ring_of_blends(3); }, "blend-loop"},
    {"a ring of 100,000 blends", [] { return ring_of_blends(100'000); }, "blend-loop"},
    {"a ring of 100,000 likes", [] { return ring_of_likes(100'000); }, "like-loop"},
    {"a ring of 50,000 units", [] { return ring_of_units(50'000); }, "unit-loop"},
    {"a ring of 300 lets", [] { return ring_of_lets(300); }, "let-loop", false},
    {"150 layers of 100 blends", [] { return layers(150, 100, 1); }, "too-many-sheets"},
    {"20,000 shades over 190 blends", [] { return shades_over_blends(20'000, 190); },
     "too-many-sheets"},
    {"50 families of 500 over 190 likes", [] { return families_over_likes(50, 500); },
     "formula-too-long"},
    {"189 variants of 100 shades", [] { return variants_over_blends(100); }, "too-many-sheets"},
    {"1,000 batches of 190 blends", [] { return uses_of_a_plan(1'000); }, "too-many-sheets"},
    {"1,900 additions by each other", [] { return additions_deep(1'900); }, "weigh-nothing"},
    {"a sum of 4,000", [] { return sum_of(4'000); }, "", false},
    {"15,000 quotients", [] { return quotient_of(15'000); }, "quantity-kind", false},
    {"a line of 1 MB", [] { return sum_of(70'000); }, "text-line-too-long", false},
};

std::string program() {
    const char* other = std::getenv("LEVIGATE_BINARY");
    return other != nullptr ? other : LEVIGATE_BINARY;
}

std::vector<std::vector<std::string>> verbs(const std::string& shade) {
    const std::string file = "hostile.shade";
    return {{"weigh", file},
            {"weigh", file, "--all", "--as", "csv"},
            {"weigh", file, "--all", "--as", "json"},
            {"shades", file},
            {"why", file, shade, "copper mica"},
            {"label", file, "--market", "US,EU"},
            {"cost", file, "--all", "--margin", "50%"},
            {"plan", file},
            {"card", file},
            {"rescue", file, "--shade", shade, "--poured", "1 g copper mica"},
            {"record", file, "--shade", shade, "--weighed", "1 g copper mica", "--date",
             "2026-11-25"},
            {"tidy", file, "--check"},
            {"share", file},
            {"check", file, "--for", "members"},
            {"changes", "old.shade", file},
            {"changes", "old.shade", file, "--for", "members"}};
}

Measured play(const ScratchFolder& scratch, const Deep& one, std::vector<std::string> words) {
    const std::string verb = words[0];
    words.insert(words.begin(), program());
    words.push_back("--brief");
    const Measured came = run_guarded(words, scratch.path(), patience, limits ? address_space : 0,
                                      limits ? small_stack : 0);
    std::printf("%7.2f s %6.1f MB  status %d  %-7s %s\n", came.seconds, came.megabytes, came.status,
                verb.c_str(), one.name);
    INFO(verb << ", " << one.name << ": " << visible(came.err.substr(0, 600)));
    CHECK_FALSE(came.killed);
    CHECK(came.status >= 0);
    CHECK(came.status <= 3);
    if (limits)
        CHECK(came.megabytes < (verb == "changes"  ? most_to_compare
                                : verb == "rescue" ? most_to_rescue
                                                   : most_megabytes));
    return came;
}

void judge(const Deep& one, const Measured& came) {
    INFO(one.name << ": " << visible(came.err.substr(0, 600)));
    CHECK(came.status == (*one.says == '\0' ? 0 : 1));
    if (*one.says == '\0')
        CHECK(came.err.find("error: ") == std::string::npos);
    else
        CHECK(came.err.find(one.says) != std::string::npos);
}

std::string first_shade(const Blocks& blocks) {
    for (const std::string& block : blocks)
        if (block.starts_with("shade ")) return block.substr(6, block.find_first_of(" \n", 6) - 6);
    return "Quince";
}

}  // namespace

TEST_CASE("no verb goes deep on a file that is deep") {
    for (const Deep& one : table) {
        const ScratchFolder scratch;
        const Blocks blocks = one.make();
        write_file(scratch.path() / "hostile.shade", in_order(blocks, Order::as_made));
        write_file(scratch.path() / "old.shade",
                   in_order(blocks, Order::as_made) + "unit one more = 1 g\n");
        judge(one, play(scratch, one, {"check", "hostile.shade"}));
        for (const std::vector<std::string>& words : verbs(first_shade(blocks))) {
            const Measured came = play(scratch, one, words);
            // JSON has its findings in the object.
            const bool said = !came.err.empty() || words.back() == "json" || words[0] == "tidy";
            CHECK((came.status == 0 || said));
            CHECK(std::filesystem::file_size(scratch.path() / "out.txt") < most_output);
        }
    }
}

TEST_CASE("what is too deep doesn't hang on the order of the blocks") {
    for (const Deep& one : table) {
        if (!one.any_order) continue;
        const Blocks blocks = one.make();
        for (const Order order : {Order::backwards, Order::shuffled}) {
            const ScratchFolder scratch;
            write_file(scratch.path() / "hostile.shade", in_order(blocks, order));
            judge(one, play(scratch, one, {"check", "hostile.shade"}));
            play(scratch, one, {"weigh", "hostile.shade", "--all", "--as", "csv"});
        }
    }
}

}  // namespace levigate::testing::deep_files
