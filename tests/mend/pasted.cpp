// Texts as they are pasted from elsewhere. Advice works: who takes the first fix that `check`
// offers, again and again, comes to the file that was meant, and nothing is wrong in it.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

#include "interpreter/query/mended.hpp"
#include "tests/support/text.hpp"

using namespace levigate;

namespace {

const std::filesystem::path pasted_folder =
    std::filesystem::path(LEVIGATE_ROOT) / "tests/mend/pasted";

CheckedFile check_text(const std::string& text) {
    return checked(memory_world({{"a.shade", text}}), "a.shade", {});
}

/// The first fix that stands in the file, of the first finding that has one.
const Fix* first_fix(const CheckedFile& file) {
    for (const Finding& finding : file.findings)
        for (const Fix& fix : finding.fixes)
            if (fix.span.source == 0) return &fix;
    return nullptr;
}

std::string all_words(const CheckedFile& file) {
    std::string out;
    for (const Finding& one : file.findings)
        out += std::to_string(file.compiled.sources.position(one.span).line) + ": " + one.message +
               " (" + std::string(row_of(one.code).name) + ") " + remedy(one) + "\n";
    return out;
}

/// The text when all first fixes were taken, one after the other.
std::string followed(std::string text) {
    constexpr int most_rounds = 60;
    for (int round = 0; round < most_rounds; ++round) {
        const CheckedFile file = check_text(text);
        const Fix* fix = first_fix(file);
        if (!fix) break;
        text = with_fixes(text, {*fix});
    }
    return text;
}

std::string pasted_text(const std::filesystem::path& path) {
    const auto text = testing::read_file(path);
    REQUIRE(text);
    return *text;
}

}  // namespace

TEST_CASE("who takes the first fix comes from a pasted text to what was meant") {
    std::size_t texts = 0;
    for (const auto& entry : std::filesystem::directory_iterator(pasted_folder)) {
        if (entry.path().extension() != ".txt") continue;
        ++texts;
        INFO(entry.path());
        const std::string text = pasted_text(entry.path());
        const std::string came = followed(text);
        std::filesystem::path meant = entry.path();
        meant.replace_extension(".shade");
        CHECK(testing::difference(pasted_text(meant), came) == "");
        const CheckedFile file = check_text(came);
        INFO(all_words(file));
        CHECK(std::none_of(file.findings.begin(), file.findings.end(),
                           [](const Finding& one) { return one.severity == Severity::error; }));
    }
    CHECK(texts >= 5);
}

TEST_CASE("a line that is written otherwise is offered as the line that was meant") {
    const std::string before = "material soft base\n    role base\n    density 0.9 g/mL\n"
                               "shade Quince\n    ";
    const auto all = testing::read_file(std::filesystem::path(LEVIGATE_ROOT) /
                                        "tests/mend/pasted-lines.txt");
    REQUIRE(all);
    std::size_t lines = 0;
    for (const std::string& both : testing::split_lines(*all)) {
        const std::size_t arrow = both.find(" => ");
        REQUIRE(arrow != both.npos);
        ++lines;
        const std::string text = before + both.substr(0, arrow) + "\n";
        const CheckedFile file = check_text(text);
        INFO(text << all_words(file));
        const Fix* fix = first_fix(file);
        REQUIRE(fix);
        const std::string meant = before + both.substr(arrow + 4) + "\n";
        CHECK(with_fixes(text, {*fix}) == meant);
        const CheckedFile after = check_text(meant);
        INFO(all_words(after));
        for (const Finding& one : after.findings)
            CHECK(after.compiled.sources.position(one.span).line != 5);
    }
    CHECK(lines >= 80);
}
