// planted PATH…: every .shade file in the folders (not below them), or the files themselves, has
// one mistake; `levigate check` must give that one finding, at that place, and no other.
#include "tests/golden/planted.hpp"
#include "tests/support/process.hpp"
#include "tests/support/text.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <set>

namespace fs = std::filesystem;
using namespace levigate::testing;

namespace {

std::vector<fs::path> planted_files(const fs::path& path) {
    std::vector<fs::path> files;
    if (fs::is_regular_file(path)) files.push_back(path);
    if (!fs::is_directory(path)) return files;
    for (const fs::directory_entry& entry : fs::directory_iterator(path)) {
        if (entry.path().extension() == ".shade") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

// What is wrong with one file, in words; nothing when it is found as planted.
std::string try_file(const fs::path& file, const std::string& program, const Mark& mark) {
    Command command;
    command.words = {program, "check", file.filename().string(), "--as", "json"};
    command.folder = fs::absolute(file).parent_path();
    const Outcome outcome = run(command);
    const Checked checked = read_findings(outcome.out);
    std::string report = checked.problem.empty() ? "" : "  " + checked.problem + "\n";
    if (report.empty() && (checked.marks.size() != 1 || !same(mark, checked.marks[0]))) {
        report += "  expected " + describe(mark) + "\n";
        for (const Mark& found : checked.marks) report += "  came     " + describe(found) + "\n";
        if (checked.marks.empty()) report += "  nothing came\n";
    }
    const int status = mark.severity == "error" ? 1 : 0;
    if (outcome.status != status) {
        report += "  exit status: " + std::to_string(status) + " was expected, " +
                  std::to_string(outcome.status) + " came\n";
    }
    return report.empty() ? "" : report + visible(outcome.err);
}

}  // namespace

int main(int count_of_words, char** words) {
    const char* other = std::getenv("LEVIGATE_BINARY");
    const std::string program = other != nullptr ? other : LEVIGATE_BINARY;
    std::size_t all = 0;
    std::size_t failed = 0;
    std::set<std::string> codes;
    for (int i = 1; i < count_of_words; ++i) {
        for (const fs::path& file : planted_files(words[i])) {
            ++all;
            const Planted planted = read_planted(read_file(file).value_or(""));
            codes.insert(planted.mark.code);
            const std::string report = planted.problem.empty()
                                           ? try_file(file, program, planted.mark)
                                           : "  " + planted.problem + "\n";
            if (report.empty()) continue;
            ++failed;
            std::printf("FAILED %s\n%s\n", file.c_str(), report.c_str());
        }
    }
    std::printf("%zu planted files, %zu codes, %zu failed\n", all, codes.size(), failed);
    if (all == 0) std::printf("No planted file was found: nothing was tested.\n");
    return all > 0 && failed == 0 ? 0 : 1;
}
