// What is told of a pour, in every order and form: the lot, and the blend that it went into.
// Written into a record it reads back as it was given.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <random>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/record/write.hpp"

using namespace levigate;

namespace {

constexpr int rounds = 2000;
constexpr std::uint64_t seed = 20261130;

constexpr const char* page = "material soft base\nmaterial mica\nmaterial mica in oil\n"
                             "material \"lot of rose\"\n"
                             "blend Fog\n 1 part mica\n 1 part mica in oil\n"
                             "blend \"Fog in May\"\n 1 part mica\n 1 part soft base\n"
                             "shade Pear\n 1 part soft base\n 1 part Fog\n 1 part Fog in May\n"
                             " batch trial 9 g\n";

struct Told {
    std::string name, lot, bowl;
    bool operator==(const Told&) const = default;
};

template <std::size_t N>
const char* one_of(std::mt19937_64& random, const char* const (&from)[N]) {
    return from[random() % N];
}

/// `in` would end a lot, and `lot` begins one: names and numbers that hold such words are quoted.
std::string quoted(std::mt19937_64& random, const std::string& text) {
    const bool needed = (" " + text + " ").find(" in ") != text.npos || text.starts_with("lot ") ||
                        text.find(';') != text.npos;
    return needed || random() % 4 == 0 ? '"' + text + '"' : text;
}

std::string written(std::mt19937_64& random, const Told& told) {
    constexpr const char* blanks[] = {" ", "  ", "\u00A0"};
    const auto between = [&] {
        return random() % 2 == 0 ? std::string(",") + one_of(random, blanks)
                                 : std::string(one_of(random, blanks));
    };
    std::string name = told.name;  // a name may hold `in`: the longest that something has is taken
    if (name.starts_with("lot ") || random() % 4 == 0) name = '"' + name + '"';
    std::vector<std::string> parts;
    if (!told.lot.empty()) parts.push_back("lot " + quoted(random, told.lot));
    if (!told.bowl.empty())
        parts.push_back((random() % 2 == 0 ? "in " : "IN ") +
                        (random() % 2 == 0 ? '"' + told.bowl + '"' : told.bowl));
    if (parts.size() == 2 && random() % 2 == 0) std::swap(parts[0], parts[1]);
    std::string out = fmt::format("{} g {}", 1 + random() % 9, name);
    for (const std::string& part : parts) out += between() + part;
    return out;
}

std::vector<Told> told_of(const std::vector<Pour>& pours) {
    std::vector<Told> out;
    for (const Pour& pour : pours) out.push_back({pour.name, pour.lot, pour.bowl});
    return out;
}

}  // namespace

TEST_CASE("a lot and a bowl are read in any order, and a record gives them back") {
    Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade");
    REQUIRE_FALSE(any_error(compiled.findings));
    Choice choice;
    RecordOrder order;
    expand_each(compiled.formulary, compiled.names, choice,
                [&](Sheet& sheet) { order.sheet = sheet; });
    order.day = "2026-11-25";
    order.by = "Ines";
    order.formula = "5f1d07c2a94e63b8";
    std::mt19937_64 random(seed);
    constexpr const char* names[] = {"soft base", "mica", "mica in oil", "lot of rose"};
    constexpr const char* lots[] = {"", "24-117", "F-2", "C 3", "24 in blue", "in", "B;1", "In-4"};
    constexpr const char* bowls[] = {"", "Fog", "Fog in May"};
    for (int round = 0; round < rounds; ++round) {
        std::vector<Told> due;
        std::string text;
        for (std::size_t i = 1 + random() % 3; i > 0; --i) {
            due.push_back({one_of(random, names), one_of(random, lots), one_of(random, bowls)});
            text += (text.empty() ? "" : ", ") + written(random, due.back());
        }
        INFO("seed " << seed << ", round " << round << "\n" << text);
        auto read = read_pours(compiled, text, "--weighed");
        REQUIRE_FALSE(any_error(read.findings));
        CHECK(told_of(read.value) == due);
        order.weighed = read.value;
        const std::string record = record_text(compiled.formulary, order);
        INFO(record);
        const auto back = read_records(compiled, "records.shade", record);
        REQUIRE(back.findings.empty());
        REQUIRE(back.value.size() == 1);
        CHECK(told_of(back.value[0].weighed) == due);
    }
}
