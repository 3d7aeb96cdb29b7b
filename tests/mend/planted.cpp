// A certain fix is a promise: put in its place, the finding is gone and nothing new is wrong on
// that line. Kept for every certain fix of every planted file, one at a time, by this test's own
// count.
#include <catch2/catch.hpp>

#include <filesystem>

#include "interpreter/query/mended.hpp"
#include "tests/mend/promise.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

const std::filesystem::path folder = std::filesystem::path(LEVIGATE_ROOT) / "tests/planted";

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
                // What stands there already mends nothing.
                CHECK(fix.text != file.compiled.sources.text(fix.span));
                if (fix.span.source != 0) continue;
                const std::string wrong = fix.certain ? broken_promise(path, file, finding, fix)
                                                      : of_no_use(path, file, finding, fix);
                CHECK(wrong == "");
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
