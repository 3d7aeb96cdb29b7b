#include "tests/reference/fences.hpp"

#include "tests/support/text.hpp"

#include <algorithm>
#include <sstream>

namespace levigate::testing {
namespace {

constexpr std::string_view fence_sign = "```";
constexpr std::string_view prompt = "$ ";
constexpr std::string_view left_out = "…";

std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    std::string word;
    bool quoted = false, any = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
            any = true;
        } else if (c == ' ' && !quoted) {
            if (any) words.push_back(word);
            word.clear();
            any = false;
        } else {
            word += c;
            any = true;
        }
    }
    if (any) words.push_back(word);
    return words;
}

using Lines = std::vector<std::string>;

Lines without_empty_ends(Lines lines) {
    while (!lines.empty() && lines.back().empty()) lines.pop_back();
    const auto full = std::find_if(lines.begin(), lines.end(),
                                   [](const std::string& line) { return !line.empty(); });
    lines.erase(lines.begin(), full);
    return lines;
}

// The pieces between the left-out marks.
std::vector<Lines> pieces_of(const Lines& shown) {
    std::vector<Lines> pieces(1);
    for (const std::string& line : shown) {
        if (line == left_out)
            pieces.emplace_back();
        else
            pieces.back().push_back(line);
    }
    for (Lines& piece : pieces) piece = without_empty_ends(piece);
    return pieces;
}

}  // namespace

std::vector<Fence> read_fences(std::string_view page) {
    std::vector<Fence> fences;
    bool inside = false;
    std::size_t number = 0;
    for (const std::string& line : split_lines(page)) {
        ++number;
        if (!line.starts_with(fence_sign)) {
            if (inside) fences.back().text += line + "\n";
            continue;
        }
        inside = !inside;
        if (inside) fences.push_back({line.substr(fence_sign.size()), "", number});
    }
    return fences;
}

std::optional<ShadeInfo> shade_info(const Fence& fence, std::string& trouble) {
    std::istringstream in(fence.info);
    std::string word;
    if (!(in >> word) || word != "shade") return std::nullopt;
    ShadeInfo info;
    while (in >> word) {
        if (word == "part")
            info.part = true;
        else if (word == "preamble")
            info.preamble = true;
        else if (word == "wrong")
            in >> info.wrong;
        else if (word.ends_with(".shade"))
            info.name = word;
        else
            trouble = "the word " + word + " behind the fence is not known";
    }
    return info;
}

std::vector<Typed> read_console(const Fence& fence) {
    std::vector<Typed> typed;
    for (const std::string& line : split_lines(fence.text)) {
        if (line.starts_with(prompt))
            typed.push_back({words_of(line.substr(prompt.size())), {}});
        else if (!typed.empty())
            typed.back().lines.push_back(line);
    }
    return typed;
}

bool matches(const std::vector<std::string>& shown, const std::vector<std::string>& came) {
    const std::vector<Lines> pieces = pieces_of(without_empty_ends(shown));
    const Lines lines = without_empty_ends(came);
    auto from = lines.begin();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Lines& piece = pieces[i];
        if (i + 1 == pieces.size() && i > 0) {  // the last one stands at the end
            const auto size = static_cast<std::ptrdiff_t>(piece.size());
            return lines.end() - from >= size &&
                   std::equal(piece.begin(), piece.end(), lines.end() - size);
        }
        const auto at = i == 0 ? from : std::search(from, lines.end(), piece.begin(), piece.end());
        if (lines.end() - at < static_cast<std::ptrdiff_t>(piece.size()) ||
            !std::equal(piece.begin(), piece.end(), at))
            return false;
        from = at + static_cast<std::ptrdiff_t>(piece.size());
    }
    return from == lines.end();
}

}  // namespace levigate::testing
