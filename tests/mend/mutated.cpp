// Right files with one slip each, made by chance: the fixes that are offered keep their promises
// there too. The seed is printed with a failure.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <random>

#include "interpreter/query/mended.hpp"
#include "tests/mend/promise.hpp"
#include "tests/support/text.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

using Chance = std::mt19937;

std::size_t below(Chance& chance, std::size_t many) { return chance() % many; }

/// Where the text's lines begin, headings and comments among them.
std::vector<std::size_t> line_begins(const std::string& text) {
    std::vector<std::size_t> out = {0};
    for (std::size_t i = 0; i + 1 < text.size(); ++i)
        if (text[i] == '\n') out.push_back(i + 1);
    return out;
}

/// One slip, as hands and programs make them.
std::string with_slip(std::string text, Chance& chance) {
    constexpr std::string_view pieces[] = {
        ";", ",",  ":", " -", "–",  "//",  "%", "%",      " pct", "|",   "1) ", "ca. ", "~",  "(",
        ")", "\"", ".", "{",  "\t", "[ ]", "*", "\u00A0", "e",    "1,5", " of", "=",    "# ", "> "};
    const auto begins = line_begins(text);
    const std::size_t line = begins[below(chance, begins.size())];
    const std::size_t end = std::min(text.find('\n', line), text.size());
    const std::size_t at = line + below(chance, end - line + 1);
    switch (below(chance, 6)) {
        case 0: return text.insert(at, pieces[below(chance, std::size(pieces))]);
        case 1: return at < end ? text.erase(at, 1) : text;
        case 2:
            if (at + 1 < end) std::swap(text[at], text[at + 1]);
            return text;
        case 3: return text.insert(end, pieces[below(chance, std::size(pieces))]);
        case 4: {  // a decimal comma
            const std::size_t point = text.find('.', at);
            if (point != text.npos) text[point] = ',';
            return text;
        }
        default: {  // the name and its amount change places
            const std::size_t first = text.find_first_not_of(' ', line);
            const std::size_t blank = text.find("  ", std::min(first, end));
            if (first >= end || blank >= end) return text;
            const std::size_t name = text.find_first_not_of(' ', blank);
            return text.substr(0, first) + text.substr(name, end - name) + ": " +
                   text.substr(first, blank - first) + text.substr(end);
        }
    }
}

std::vector<std::filesystem::path> right_files() {
    const std::filesystem::path root(LEVIGATE_ROOT);
    std::vector<std::filesystem::path> out = {root / "examples/orchard.shade"};
    for (const auto& entry : std::filesystem::directory_iterator(root / "tests/worked"))
        if (entry.path().extension() == ".shade") out.push_back(entry.path());
    std::sort(out.begin(), out.end());
    return out;
}

}  // namespace

TEST_CASE("fixes of files with a slip made by chance keep their promises") {
    constexpr std::uint32_t rounds = 25;
    std::size_t certain = 0, possible = 0;
    for (const auto& file : right_files()) {
        const std::string path = file.string();
        const std::string text = read_file(file).value_or("");
        for (std::uint32_t seed = 1; seed <= rounds; ++seed) {
            Chance chance(seed);
            const std::string slip = with_slip(text, chance);
            const CheckedFile before = checked(world_with(path, slip), path, {});
            for (const Finding& finding : before.findings)
                for (const Fix& fix : finding.fixes) {
                    if (fix.span.source != 0) continue;
                    ++(fix.certain ? certain : possible);
                    INFO("seed " << seed);
                    CHECK((fix.certain ? broken_promise(path, before, finding, fix)
                                       : of_no_use(path, before, finding, fix)) == "");
                }
        }
    }
    CHECK(certain >= 10);
    CHECK(possible >= 40);
}
