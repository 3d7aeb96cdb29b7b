#include "tests/architecture/style.hpp"

#include "tests/support/text.hpp"

#include <algorithm>
#include <cctype>

namespace levigate::testing {
namespace {

bool holds_word(std::string_view line, std::string_view word) {
    for (std::size_t i = line.find(word); i != std::string_view::npos; i = line.find(word, i + 1)) {
        const std::size_t end = i + word.size();
        if ((i == 0 || !is_word(line[i - 1])) && (end == line.size() || !is_word(line[end]))) {
            return true;
        }
    }
    return false;
}

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

}  // namespace

Offences long_files(const std::vector<SourceFile>& files, std::size_t most_lines) {
    Offences offences;
    for (const SourceFile& file : files) {
        const std::size_t count = split_lines(file.text).size();
        if (count > most_lines) {
            offences.push_back(file.path + ": " + std::to_string(count) + " lines");
        }
    }
    return offences;
}

Offences long_lines(const std::vector<SourceFile>& files, std::size_t most) {
    Offences offences;
    for (const SourceFile& file : files) {
        if (!is_cpp(file.path)) continue;
        std::size_t number = 0;
        for (const std::string& line : split_lines(file.text)) {
            ++number;
            const std::size_t length = code_points(line);
            if (length <= most) continue;
            offences.push_back(at(file, number) + std::to_string(length) + " characters");
        }
    }
    return offences;
}

namespace {

// Braces nest; what opened each one is told by the text in front of it.
struct Body {
    bool is_function = false;
    std::size_t line = 0;
    std::string head;
};

struct FunctionSearch {
    const SourceFile& file;
    std::size_t most;
    Offences offences{};
    std::vector<Body> open{};
    std::string head{};  // since the last ; { or }
    int parentheses = 0;
    std::size_t line = 1;
    bool behind_function = false;  // `: a{1}, b{2} {`: the first brace looked like a body

    bool inside_function() const {
        return std::any_of(open.begin(), open.end(), [](const Body& b) { return b.is_function; });
    }

    bool opens_function() const {
        if (inside_function() || parentheses > 0) return false;
        for (const char* word : {"namespace", "class", "struct", "enum", "union"}) {
            if (holds_word(head, word) && head.find('(') == std::string::npos) return false;
        }
        if (head.find('(') != std::string::npos) return true;
        const std::size_t first = head.find_first_not_of(" \n");
        return behind_function && (first == std::string::npos || head[first] == ',');
    }

    void close() {
        if (open.empty()) return;
        const Body body = open.back();
        open.pop_back();
        behind_function = body.is_function;
        const std::size_t length = line - body.line + 1;
        if (!body.is_function || length <= most) return;
        offences.push_back(at(file, body.line) + std::to_string(length) + " lines: " + body.head);
    }

    static std::string one_line(const std::string& text) {
        std::string result;
        for (const char c : text) {
            if (c == '\n' || c == ' ') {
                if (!result.empty() && result.back() != ' ') result += ' ';
            } else {
                result += c;
            }
        }
        return result;
    }

    void read(char c) {
        if (c == '\n') ++line;
        if (c == '(') ++parentheses;
        if (c == ')') --parentheses;
        if (c == '{') {
            open.push_back({opens_function(), line, one_line(head)});
            // a lambda among arguments: its own parentheses are counted from nothing
            kept.push_back(parentheses);
            parentheses = 0;
        }
        if (c == '}') {
            close();
            if (!kept.empty()) {
                parentheses = kept.back();
                kept.pop_back();
            }
        }
        if (c == ';') behind_function = false;
        if (c == ';' || c == '{' || c == '}') {
            head.clear();
        } else {
            head += c;
        }
    }
    std::vector<int> kept{};
};

// Directives aren't part of any function's head, and their braces needn't match.
std::string without_directives(const std::string& code) {
    std::string result;
    bool goes_on = false;
    for (const std::string& line : split_lines(code)) {
        const std::size_t first = line.find_first_not_of(' ');
        const bool directive = goes_on || (first != std::string::npos && line[first] == '#');
        goes_on = directive && line.ends_with('\\');
        result += (directive ? "" : line) + "\n";
    }
    return result;
}

}  // namespace

Offences long_functions(const std::vector<SourceFile>& files, std::size_t most_lines) {
    Offences offences;
    for (const SourceFile& file : files) {
        if (!is_cpp(file.path)) continue;
        FunctionSearch search{file, most_lines};
        for (const char c : without_directives(file.code)) search.read(c);
        offences.insert(offences.end(), search.offences.begin(), search.offences.end());
    }
    return offences;
}

Offences words_in_code(const std::vector<SourceFile>& files, const std::vector<std::string>& words,
                       const std::vector<std::string>& allowed) {
    Offences offences;
    for (const SourceFile& file : files) {
        const bool may = std::any_of(allowed.begin(), allowed.end(), [&](const std::string& one) {
            return one.ends_with('/') ? file.path.starts_with(one) : file.path == one;
        });
        if (may || !is_cpp(file.path)) continue;
        std::size_t number = 0;
        for (const std::string& line : split_lines(file.code)) {
            ++number;
            for (const std::string& word : words) {
                if (holds_word(line, word)) offences.push_back(at(file, number) + word);
            }
        }
    }
    return offences;
}

Offences unfinished(const std::vector<SourceFile>& files) {
    // Written in two pieces, so that this file doesn't hold what it looks for.
    static const std::vector<std::string> marks{"TO"
                                                "DO",
                                                "FIX"
                                                "ME",
                                                "XX"
                                                "X",
                                                "HA"
                                                "CK"};
    static const std::vector<std::string> phrases{"not imple"
                                                  "mented",
                                                  "place"
                                                  "holder"};
    Offences offences;
    for (const SourceFile& file : files) {
        std::size_t number = 0;
        for (const std::string& line : split_lines(file.text)) {
            ++number;
            for (const std::string& mark : marks) {
                if (holds_word(line, mark)) offences.push_back(at(file, number) + mark);
            }
            for (const std::string& phrase : phrases) {
                const bool found = lower(line).find(phrase) != std::string::npos;
                if (found) offences.push_back(at(file, number) + phrase);
            }
        }
    }
    return offences;
}

}  // namespace levigate::testing
