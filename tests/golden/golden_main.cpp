// golden PATH…: plays every .case file at or below the paths. With LEVIGATE_BLESS=1 it rewrites
// the expected sections of those that differ. LEVIGATE_BINARY names another command to test.
#include "tests/golden/case.hpp"
#include "tests/golden/play.hpp"
#include "tests/support/text.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace fs = std::filesystem;
using namespace levigate::testing;

namespace {

struct Count {
    std::size_t all = 0;
    std::size_t failed = 0;
    std::size_t blessed = 0;
};

std::vector<fs::path> case_files(const fs::path& path) {
    std::vector<fs::path> files;
    if (fs::is_regular_file(path)) files.push_back(path);
    if (!fs::is_directory(path)) return files;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(path)) {
        if (entry.path().extension() == ".case") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

void play_file(const fs::path& file, Stage stage, bool bless, Count& count) {
    ++count.all;
    const std::string text = read_file(file).value_or("");
    const Case parsed = parse_case(text);
    std::string report = parsed.problem.empty() ? "" : parsed.problem + "\n";
    if (report.empty()) {
        stage.beside = file.parent_path();
        const Played played = play(parsed.sections, stage);
        report = played.report;
        const std::string now = print_case(played.as_it_came);
        if (bless && played.trouble.empty() && now != text && write_file(file, now)) {
            ++count.blessed;
            std::printf("blessed %s\n", file.c_str());
            return;
        }
    }
    if (report.empty()) return;
    ++count.failed;
    std::printf("FAILED %s\n%s\n", file.c_str(), report.c_str());
}

bool switched_on(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && std::string_view(value) == "1";
}

}  // namespace

int main(int count_of_words, char** words) {
    const char* other = std::getenv("LEVIGATE_BINARY");
    const Stage stage{other != nullptr ? other : LEVIGATE_BINARY, LEVIGATE_ROOT, {}};
    const bool bless = switched_on("LEVIGATE_BLESS");
    Count count;
    for (int i = 1; i < count_of_words; ++i) {
        for (const fs::path& file : case_files(words[i])) play_file(file, stage, bless, count);
    }
    std::printf("%zu cases, %zu failed, %zu blessed\n", count.all, count.failed, count.blessed);
    if (count.all == 0) std::printf("No case was found: nothing was tested.\n");
    return count.all > 0 && count.failed == 0 ? 0 : 1;
}
