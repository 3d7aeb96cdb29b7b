#include "tests/explain/page.hpp"

#include "tests/support/text.hpp"

#include <algorithm>
#include <cstdlib>
#include <optional>

namespace levigate::testing {
namespace {

constexpr std::string_view fence = "```";
constexpr std::string_view file_sign = "# file: ";
constexpr std::string_view command_sign = "levigate ";

enum class How { file, command, bytes };

struct Opening {
    bool right = false;
    How how = How::file;
};

// "Wrong:", "Right (command):"
std::optional<Opening> read_opening(std::string_view line) {
    Opening opening;
    if (line.starts_with("Right"))
        opening.right = true;
    else if (!line.starts_with("Wrong"))
        return std::nullopt;
    line.remove_prefix(5);
    if (line == " (command):")
        opening.how = How::command;
    else if (line == " (bytes):")
        opening.how = How::bytes;
    else if (line != ":")
        return std::nullopt;
    return opening;
}

// Words of a command; in double quotes blanks are none.
std::vector<std::string> words_of(std::string_view line) {
    std::vector<std::string> words;
    bool inside = false, quoted = false;
    for (const char sign : line) {
        const bool blank = sign == ' ' && !quoted;
        if (!blank && !inside) words.emplace_back();
        inside = !blank;
        if (sign == '"')
            quoted = !quoted;
        else if (!blank)
            words.back() += sign;
    }
    return words;
}

Example read_example(const std::vector<std::string>& lines, How how) {
    Example example;
    for (const std::string& line : lines) {
        if (how == How::command && line.starts_with(command_sign)) {
            example.command = words_of(std::string_view(line).substr(command_sign.size()));
        } else if (line.starts_with(file_sign)) {
            example.files.push_back({line.substr(file_sign.size()), ""});
        } else {
            if (example.files.empty()) example.files.push_back({"example.shade", ""});
            example.files.back().text += line + "\n";
        }
    }
    if (how == How::bytes) {
        for (ExampleFile& file : example.files) file.text = example_bytes(file.text);
    }
    return example;
}

char hex_byte(std::string_view two) {
    return static_cast<char>(std::strtol(std::string(two).c_str(), nullptr, 16));
}

// `N{text}`: text N times, `\i` in it being the round's number. Nothing and no step where it is
// written otherwise.
std::string repeated(std::string_view& rest) {
    const std::size_t open = rest.find('{');
    const std::size_t close = rest.find('}');
    if (open == std::string_view::npos || close == std::string_view::npos) return "";
    const int times = std::atoi(std::string(rest.substr(0, open)).c_str());
    const std::string inside(rest.substr(open + 1, close - open - 1));
    std::string text;
    for (int i = 1; i <= times; ++i) {
        std::string round = inside;
        for (std::size_t at; (at = round.find("\\i")) != std::string::npos;)
            round.replace(at, 2, std::to_string(i));
        text += example_bytes(round);
    }
    rest.remove_prefix(close + 1);
    return text;
}

}  // namespace

std::string example_bytes(std::string_view rest) {
    std::string bytes;
    while (!rest.empty()) {
        const char c = rest.front();
        rest.remove_prefix(1);
        if (c == '\n') continue;
        if (c != '\\' || rest.empty()) {
            bytes += c;
            continue;
        }
        const char kind = rest.front();
        rest.remove_prefix(1);
        if (kind == '*') {
            bytes += repeated(rest);
        } else if (kind == 'x' && rest.size() >= 2) {
            bytes += hex_byte(rest.substr(0, 2));
            rest.remove_prefix(2);
        } else {
            bytes += kind == 'n' ? '\n' : kind == 'r' ? '\r' : kind == 't' ? '\t' : kind;
        }
    }
    return bytes;
}

Page read_page(std::string_view text) {
    Page page;
    std::optional<Opening> opening;
    std::vector<std::string> block;
    bool inside = false;
    for (const std::string& line : split_lines(text)) {
        if (page.code.empty()) {
            page.code = line.starts_with("# ") ? line.substr(2) : "";
            if (page.code.empty()) page.problem = "its first line is no title";
        } else if (inside && line != fence) {
            block.push_back(line);
        } else if (inside) {
            if (opening) {
                (opening->right ? page.right : page.wrong)
                    .push_back(read_example(block, opening->how));
            }
            inside = false;
            opening.reset();
        } else if (line == fence) {
            if (!opening) page.problem = "a block that is neither wrong nor right";
            inside = true;
            block.clear();
        } else if (const auto next = read_opening(line)) {
            opening = next;
        } else if (page.wrong.empty() && !line.empty()) {
            page.meaning += line + " ";
        }
    }
    if (inside) page.problem = "a block that is not closed";
    return page;
}

}  // namespace levigate::testing
