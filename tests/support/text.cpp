#include "tests/support/text.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <system_error>

namespace levigate::testing {
namespace fs = std::filesystem;

std::optional<std::string> read_file(const fs::path& path) {
    std::error_code error;
    if (!fs::is_regular_file(path, error)) return std::nullopt;
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    return std::string(std::istreambuf_iterator<char>(file), {});
}

bool write_file(const fs::path& path, std::string_view text) {
    std::error_code error;
    if (path.has_parent_path()) fs::create_directories(path.parent_path(), error);
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    return static_cast<bool>(file.flush());
}

std::vector<std::string> split_lines(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        lines.emplace_back(text.substr(0, end));
        text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    }
    return lines;
}

std::size_t code_points(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char byte) { return (byte & 0xC0) != 0x80; }));
}

std::string visible(std::string_view text) {
    std::string result;
    for (const char byte : text) {
        const auto value = static_cast<unsigned char>(byte);
        if (byte == '\n' || (value >= 0x20 && value != 0x7F)) {
            result += byte;
        } else {
            char escape[8];
            std::snprintf(escape, sizeof escape, "\\x%02X", value);
            result += escape;
        }
    }
    return result;
}

namespace {

struct Step {
    char sign;  // ' ', '-' or '+'
    std::string line;
};

using Lines = std::vector<std::string>;

// The longest common subsequence of the two texts' lines, from the back: lengths[i][j] is for
// what follows a[i] and b[j].
std::vector<Step> steps_between(const Lines& a, const Lines& b) {
    std::vector<std::vector<unsigned>> lengths(a.size() + 1,
                                               std::vector<unsigned>(b.size() + 1, 0));
    for (std::size_t i = a.size(); i-- > 0;) {
        for (std::size_t j = b.size(); j-- > 0;) {
            lengths[i][j] = a[i] == b[j] ? lengths[i + 1][j + 1] + 1
                                         : std::max(lengths[i + 1][j], lengths[i][j + 1]);
        }
    }
    std::vector<Step> steps;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() || j < b.size()) {
        if (i < a.size() && j < b.size() && a[i] == b[j]) {
            steps.push_back({' ', a[i++]});
            ++j;
        } else if (i < a.size() && (j == b.size() || lengths[i + 1][j] >= lengths[i][j + 1])) {
            steps.push_back({'-', a[i++]});
        } else {
            steps.push_back({'+', b[j++]});
        }
    }
    return steps;
}

std::string with_context(const std::vector<Step>& steps) {
    constexpr std::size_t around = 3;
    std::vector<bool> shown(steps.size(), false);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i].sign == ' ') continue;
        const std::size_t last = std::min(steps.size(), i + around + 1);
        for (std::size_t k = i < around ? 0 : i - around; k < last; ++k) shown[k] = true;
    }
    std::string text;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (shown[i]) {
            text += std::string(1, steps[i].sign) + " " + visible(steps[i].line) + "\n";
        } else if (i > 0 && shown[i - 1]) {
            text += "  ...\n";
        }
    }
    return text;
}

}  // namespace

std::string difference(std::string_view expected, std::string_view came) {
    if (expected == came) return "";
    Lines a = split_lines(expected);
    Lines b = split_lines(came);
    if (a == b) return "  (only the line end at the very end differs)\n";
    constexpr std::size_t enough = 1500;  // lines: the table is quadratic, and no one reads more
    const bool cut = a.size() > enough || b.size() > enough;
    a.resize(std::min(a.size(), enough));
    b.resize(std::min(b.size(), enough));
    const std::string text = with_context(steps_between(a, b));
    return cut ? text + "  (only the first 1500 lines are compared here)\n" : text;
}

ScratchFolder::ScratchFolder() {
    std::string pattern = (fs::temp_directory_path() / "levigate-test-").string();
    pattern.append(6, 'X');  // mkdtemp fills these in
    if (mkdtemp(pattern.data()) != nullptr) path_ = pattern;
}

ScratchFolder::~ScratchFolder() {
    std::error_code error;
    if (!path_.empty()) fs::remove_all(path_, error);
}

}  // namespace levigate::testing
