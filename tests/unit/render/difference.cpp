// A difference, applied to the old text by rules of its own, gives the new one. The form is that of
// POSIX `diff -u`; GNU patch reads it as well (tried by hand).

#include <catch2/catch.hpp>

#include <random>
#include <string>
#include <vector>

#include "interpreter/render/difference.hpp"
#include "tests/support/text.hpp"

using namespace levigate;

namespace {

/// "12,3" or "12": the first line, from 1, and how many there are.
std::pair<std::size_t, std::size_t> range(const std::string& text) {
    const std::size_t comma = text.find(',');
    return {std::stoul(text), comma == std::string::npos ? 1 : std::stoul(text.substr(comma + 1))};
}

/// Texts with a line end behind every line.
std::string applied(const std::string& before, const std::string& difference) {
    const std::vector<std::string> old_lines = testing::split_lines(before);
    std::string out;
    std::size_t at = 0, due_old = 0, due_new = 0;
    std::size_t number = 0;
    for (const std::string& line : testing::split_lines(difference)) {
        if (++number <= 2) continue;  // the two names
        if (due_old == 0 && due_new == 0) {
            REQUIRE(line.starts_with("@@ -"));
            const std::size_t plus = line.find('+');
            const auto [first, count] = range(line.substr(4, plus - 5));
            const std::size_t begin = count == 0 ? first : first - 1;
            for (; at < begin; ++at) out += old_lines.at(at) + '\n';
            due_old = count;
            due_new = range(line.substr(plus + 1)).second;
            continue;
        }
        REQUIRE(!line.empty());
        const std::string text = line.substr(1);
        if (line[0] != '+') {
            REQUIRE(old_lines.at(at++) == text);
            --due_old;
        }
        if (line[0] != '-') {
            out += text + '\n';
            --due_new;
        }
    }
    for (; at < old_lines.size(); ++at) out += old_lines[at] + '\n';
    return out;
}

std::string lines(std::mt19937& engine, int count, unsigned kinds) {
    std::string out;
    for (int i = 0; i < count; ++i) out += "line " + std::to_string(engine() % kinds) + "\n";
    return out;
}

}  // namespace

TEST_CASE("one changed line has three lines around it") {
    CHECK(unified_difference("a", "1\n2\n3\n4\n5\n6\n7\n8\n9\n", "1\n2\n3\n4\nx\n6\n7\n8\n9\n") ==
          "--- a\n+++ a\n@@ -2,7 +2,7 @@\n 2\n 3\n 4\n-5\n+x\n 6\n 7\n 8\n");
    CHECK(unified_difference("a", "1\n", "1\n").empty());
    CHECK(unified_difference("a", "", "1\n") == "--- a\n+++ a\n@@ -0,0 +1 @@\n+1\n");
    CHECK(unified_difference("a", "1\n", "") == "--- a\n+++ a\n@@ -1 +0,0 @@\n-1\n");
    CHECK(unified_difference("a", "1", "1\n") ==
          "--- a\n+++ a\n@@ -1 +1 @@\n-1\n\\ No newline at end of file\n+1\n");
}

TEST_CASE("any two texts: the old one and the difference make the new one") {
    std::mt19937 engine(7);
    for (int i = 0; i < 2000; ++i) {
        const std::string before = lines(engine, static_cast<int>(engine() % 40), 6);
        const std::string after = lines(engine, static_cast<int>(engine() % 40), 6);
        const std::string difference = unified_difference("a", before, after);
        CHECK((difference.empty() ? before : applied(before, difference)) == after);
    }
}

TEST_CASE("texts that share nothing are told in bounded time") {
    std::mt19937 engine(7);
    const std::string before = lines(engine, 30000, 1u << 30);
    const std::string after = lines(engine, 30000, 1u << 30);
    CHECK(applied(before, unified_difference("a", before, after)) == after);
    std::string half = before;  // every second line indented
    for (std::size_t at = 0, n = 0; at < half.size(); at = half.find('\n', at) + 1)
        if (++n % 2 == 0) half.insert(at, "    ");
    CHECK(applied(before, unified_difference("a", before, half)) == half);
}
