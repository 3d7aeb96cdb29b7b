// A certain fix is a promise: put in its place, the finding is gone and nothing new is wrong on
// that line. Kept for every certain fix of every planted file, one at a time, by this test's own
// count.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <map>

#include "interpreter/query/mended.hpp"
#include "tests/support/text.hpp"

using namespace levigate;

namespace {

const std::filesystem::path folder = std::filesystem::path(LEVIGATE_ROOT) / "tests/planted";

World world_with(const std::string& path, const std::string& text) {
    World world = disk_world();
    world.open = [path, text, disk = world.open](const std::string& asked) {
        FileText file = disk(asked);
        if (asked == path) file.text = text;
        return file;
    };
    return world;
}

/// How often each code is said of a line, counted from 0; `lines` of them.
std::map<std::string, int> said_of(const CheckedFile& file, std::size_t line, std::size_t lines) {
    std::map<std::string, int> out;
    for (const Finding& one : file.findings) {
        if (one.span.source != 0) continue;
        const std::size_t at = file.compiled.sources.position(one.span).line - 1;
        if (at >= line && at < line + lines) ++out[std::string(row_of(one.code).name)];
    }
    return out;
}

std::size_t line_ends(std::string_view text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

void try_fix(const std::string& path, const CheckedFile& before, const Finding& finding,
             const Fix& fix) {
    const std::string& text = before.compiled.sources[0].text;
    const std::string fixed = with_fixes(text, {fix});
    INFO(path << ", " << row_of(finding.code).name << ": \"" << fix.text << "\" in place of \""
              << before.compiled.sources.text(fix.span) << "\" gives\n"
              << fixed);
    const CheckedFile after = checked(world_with(path, fixed), path, {});
    const std::size_t line = before.compiled.sources.position(fix.span).line - 1;
    const std::size_t was = 1 + line_ends(before.compiled.sources.text(fix.span));
    const bool line_gone = line_ends(fixed) + was - 1 < line_ends(text);
    if (line_gone) {  // nothing can be said of it; the file as a whole has one finding less
        CHECK(after.findings.size() < before.findings.size());
        return;
    }
    auto allowed = said_of(before, line, was);
    --allowed[std::string(row_of(finding.code).name)];
    for (const auto& [code, count] : said_of(after, line, 1 + line_ends(fix.text))) {
        INFO(code);
        CHECK(count <= allowed[code]);
    }
}

}  // namespace

TEST_CASE("each certain fix of the planted files keeps its promise") {
    std::size_t certain = 0, possible = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".shade") continue;
        const std::string path = entry.path().string();
        const CheckedFile file = checked(disk_world(), path, {});
        for (const Finding& finding : file.findings) {
            for (const Fix& fix : finding.fixes) {
                ++(fix.certain ? certain : possible);
                if (fix.certain && fix.span.source == 0) try_fix(path, file, finding, fix);
            }
        }
    }
    CHECK(certain >= 15);
    CHECK(possible >= 60);
}

TEST_CASE("a mended planted file has no certain fix left but those that are told") {
    std::size_t made = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".shade") continue;
        const std::string path = entry.path().string();
        INFO(path);
        const MendedFile one = mended(disk_world(), {path}, {}).front();
        if (one.unreadable()) continue;
        made += one.made.size();
        std::size_t certain = 0;
        for (const Finding& finding : one.after.findings)
            for (const Fix& fix : finding.fixes)
                certain += fix.certain && fix.span.source == 0 ? 1 : 0;
        CHECK(certain <= one.left.size());
        CHECK((one.made.empty() == (one.text() == one.text_before())));
    }
    CHECK(made >= 15);
}
