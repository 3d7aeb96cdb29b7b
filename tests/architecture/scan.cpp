#include "tests/architecture/scan.hpp"

#include "tests/support/text.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>

namespace levigate::testing {
namespace fs = std::filesystem;

bool is_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

namespace {

// A walk through C++ text that blanks what isn't code. Line ends stay where they are.
struct Blanker {
    std::string text;
    std::size_t i = 0;

    void blank_until(std::size_t end) {
        for (end = std::min(end, text.size()); i < end; ++i) {
            if (text[i] != '\n') text[i] = ' ';
        }
    }
    void blank_behind(std::string_view mark, std::size_t from) {
        const std::size_t found = text.find(mark, from);
        blank_until(found == std::string::npos ? text.size() : found + mark.size());
    }
    void blank_quoted(char quote) {
        std::size_t end = i + 1;
        while (end < text.size() && text[end] != quote && text[end] != '\n') {
            end += text[end] == '\\' ? 2 : 1;
        }
        ++i;  // the quotes stay: a literal remains visible as one
        blank_until(end);
        if (i < text.size()) ++i;
    }
    void blank_raw() {  // R"mark( … )mark"
        const std::size_t open = text.find('(', i);
        if (open == std::string::npos) return blank_until(text.size());
        blank_behind(")" + text.substr(i + 2, open - i - 2) + "\"", open);
    }
    bool include_line() const {
        const std::size_t start = text.rfind('\n', i) + 1;  // npos + 1 is 0
        return text.compare(start, 8, "#include") == 0;
    }
    // An apostrophe behind a digit or a letter parts digits, save behind a literal's prefix.
    bool parts_digits() const {
        if (i == 0 || !is_word(text[i - 1])) return false;
        return !(text[i - 1] == 'u' || text[i - 1] == 'U' || text[i - 1] == 'L');
    }
    void step() {
        const std::string_view rest = std::string_view(text).substr(i);
        if (rest.starts_with("//")) return blank_until(text.find('\n', i));
        if (rest.starts_with("/*")) return blank_behind("*/", i + 2);
        if (rest.starts_with("R\"") && (i == 0 || !is_word(text[i - 1]))) return blank_raw();
        if (rest[0] == '"' && !include_line()) return blank_quoted('"');
        if (rest[0] == '\'' && !parts_digits()) return blank_quoted('\'');
        ++i;
    }
};

}  // namespace

SourceFile source_file(std::string path, std::string text) {
    Blanker blanker{text};
    while (blanker.i < blanker.text.size()) blanker.step();
    return {std::move(path), std::move(text), std::move(blanker.text)};
}

std::vector<SourceFile> source_files(const std::vector<std::string>& folders,
                                     const std::vector<std::string>& endings) {
    std::vector<SourceFile> files;
    const fs::path root = LEVIGATE_ROOT;
    for (const std::string& folder : folders) {
        if (!fs::is_directory(root / folder)) continue;
        for (const fs::directory_entry& entry : fs::recursive_directory_iterator(root / folder)) {
            const std::string path = fs::relative(entry.path(), root).generic_string();
            const bool wanted = std::any_of(endings.begin(), endings.end(),
                                            [&](const auto& end) { return path.ends_with(end); });
            const auto text = wanted ? read_file(entry.path()) : std::nullopt;
            if (text) files.push_back(source_file(path, *text));
        }
    }
    std::sort(files.begin(), files.end(),
              [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
    return files;
}

bool is_cpp(std::string_view path) { return path.ends_with(".cpp") || path.ends_with(".hpp"); }

std::string folder_of(std::string_view path) {
    const std::size_t slash = path.rfind('/');
    return std::string(slash == std::string_view::npos ? "" : path.substr(0, slash));
}

std::string stem_of(std::string_view path) {
    const std::size_t dot = path.rfind('.');
    const std::size_t slash = path.rfind('/');
    const bool has_ending =
        dot != std::string_view::npos && (slash == std::string_view::npos || dot > slash);
    return std::string(has_ending ? path.substr(0, dot) : path);
}

std::string at(const SourceFile& file, std::size_t line) {
    return file.path + ":" + std::to_string(line) + ": ";
}

std::string told(const Offences& offences, std::string_view why) {
    std::string text = "\n";
    for (const std::string& offence : offences) text += "  " + offence + "\n";
    return text + "WHY: " + std::string(why) + "\n";
}

}  // namespace levigate::testing
