#include "tests/golden/case.hpp"

#include "tests/support/text.hpp"

#include <array>

namespace levigate::testing {
namespace {

constexpr std::string_view command_marker = "$ levigate";
constexpr std::string_view section_marker = "--- ";
constexpr std::string_view open_end = " (no newline at the end)";

struct Marker {
    Section::Kind kind;
    std::string_view word;
};

constexpr std::array markers{
    Marker{Section::Kind::file, "file:"},     Marker{Section::Kind::bytes, "bytes:"},
    Marker{Section::Kind::copy, "copy:"},     Marker{Section::Kind::link, "link:"},
    Marker{Section::Kind::folder, "folder:"}, Marker{Section::Kind::env, "env:"},
    Marker{Section::Kind::input, "stdin"},    Marker{Section::Kind::status, "status:"},
    Marker{Section::Kind::out, "stdout"},     Marker{Section::Kind::err, "stderr"},
    Marker{Section::Kind::after, "after:"},
};

bool needs_escape(std::string_view line) {
    return line.starts_with(section_marker) || line.starts_with(command_marker) ||
           line.starts_with('\\');
}

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

// A section while it is being read: whether its last line end counts is known at the marker.
struct Open {
    Section section;
    bool open_ended = false;
};

bool read_marker(std::string_view line, Open& open) {
    if (line.starts_with(command_marker)) {
        open.section.kind = Section::Kind::command;
        open.section.argument = trimmed(line.substr(command_marker.size()));
        return true;
    }
    std::string_view rest = line.substr(section_marker.size());
    if (rest.ends_with(open_end)) {
        open.open_ended = true;
        rest.remove_suffix(open_end.size());
    }
    for (const Marker& marker : markers) {
        if (!rest.starts_with(marker.word)) continue;
        open.section.kind = marker.kind;
        open.section.argument = trimmed(rest.substr(marker.word.size()));
        return marker.word.ends_with(':') || open.section.argument.empty();
    }
    return false;
}

void finish(Open& open, std::vector<Section>& sections) {
    if (open.open_ended && open.section.text.ends_with('\n')) open.section.text.pop_back();
    sections.push_back(std::move(open.section));
    open = Open{};
}

std::string marker_line(const Section& section) {
    if (section.kind == Section::Kind::command) {
        return std::string(command_marker) + " " + section.argument;
    }
    for (const Marker& marker : markers) {
        if (marker.kind != section.kind) continue;
        std::string line = std::string(section_marker) + std::string(marker.word);
        if (!section.argument.empty()) line += " " + section.argument;
        const bool open_ended = !section.text.empty() && !section.text.ends_with('\n');
        return open_ended ? line + std::string(open_end) : line;
    }
    return "";
}

int hex_value(char digit) {
    constexpr std::string_view digits = "0123456789abcdef";
    const char small = digit >= 'A' && digit <= 'F' ? static_cast<char>(digit + 32) : digit;
    const std::size_t value = digits.find(small);
    return value == std::string_view::npos ? -1 : static_cast<int>(value);
}

}  // namespace

Case parse_case(std::string_view text) {
    Case result;
    Open open;
    std::size_t number = 0;
    bool has_command = false;
    for (const std::string& line : split_lines(text)) {
        ++number;
        if (line.starts_with(section_marker) || line.starts_with(command_marker)) {
            finish(open, result.sections);
            if (!read_marker(line, open)) {
                result.problem =
                    "line " + std::to_string(number) + ": no section is called \"" + line + "\"";
                return result;
            }
            has_command = has_command || open.section.kind == Section::Kind::command;
            continue;
        }
        open.section.text += line.starts_with('\\') ? line.substr(1) : line;
        open.section.text += '\n';
    }
    finish(open, result.sections);
    if (!has_command) result.problem = "no line begins with \"$ levigate\"";
    return result;
}

std::string print_case(const std::vector<Section>& sections) {
    std::string text;
    for (const Section& section : sections) {
        if (section.kind != Section::Kind::opening) text += marker_line(section) + "\n";
        for (const std::string& line : split_lines(section.text)) {
            text += (needs_escape(line) ? "\\" : "") + line + "\n";
        }
    }
    return text;
}

std::vector<std::string> command_words(std::string_view command) {
    std::vector<std::string> words;
    std::string word;
    bool in_word = false;
    char quote = 0;
    for (std::size_t i = 0; i < command.size(); ++i) {
        const char c = command[i];
        if (c == '\\' && quote != '\'' && i + 1 < command.size()) {
            word += command[++i];
            in_word = true;
        } else if (quote != 0 ? c == quote : (c == '"' || c == '\'')) {
            quote = quote != 0 ? 0 : c;
            in_word = true;  // "" is a word too
        } else if (c == ' ' && quote == 0) {
            if (in_word) words.push_back(word);
            word.clear();
            in_word = false;
        } else {
            word += c;
            in_word = true;
        }
    }
    if (in_word) words.push_back(word);
    return words;
}

std::string unescape_bytes(std::string_view text) {
    std::string bytes;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') continue;
        if (text[i] != '\\' || i + 1 == text.size()) {
            bytes += text[i];
            continue;
        }
        const char kind = text[++i];
        if (kind == 'x' && i + 2 < text.size()) {
            bytes += static_cast<char>(hex_value(text[i + 1]) * 16 + hex_value(text[i + 2]));
            i += 2;
        } else {
            bytes += kind == 'n' ? '\n' : kind == 'r' ? '\r' : kind == 't' ? '\t' : kind;
        }
    }
    return bytes;
}

}  // namespace levigate::testing
