#include "tests/properties/mangle.hpp"

#include <array>
#include <cctype>

#include "tests/support/text.hpp"

namespace levigate::testing {
namespace {

using namespace std::string_literals;

constexpr std::size_t goes_on = 16;  // the column of a list that was broken

struct Remarks {
    Random& random;
    int count = 0;
    std::string next() { return "# remark " + std::to_string(++count) + ";"; }
};

std::string broken(std::string text, Remarks& remarks) {
    const std::size_t comma = text.find(", ");
    if (text.find("step") != std::string::npos || comma == std::string::npos) return text;
    if (text.find('#') != std::string::npos || !remarks.random.chance(15)) return text;
    std::string between = ",";
    if (remarks.random.chance(30)) between += " " + remarks.next();
    if (remarks.random.chance(20)) between += "\n " + remarks.next();
    return text.replace(comma, 2, between + "\n      ");
}

std::string blanks(Random& random, int least) {
    static const std::vector<std::string> all = {" ", "  ", "\t", "\u00A0", " \u2009", "   "};
    return least == 0 && random.chance(40) ? ""s : random.pick(all);
}

/// All but the blanks are as they were: names, literal words and comments.
std::string other_blanks(const std::string& text, Random& random) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != ' ') {
            out += text[i];
            if (text[i] == '{' && random.chance(10)) out += ' ';
            continue;
        }
        if (i > 0 && text[i - 1] == ' ') continue;  // the run has been written
        out += random.chance(20) ? blanks(random, 1) : " ";
    }
    return out;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

void other_half(std::string& text) {
    const std::size_t at = text.find("1/2");
    if (at == std::string::npos || at + 3 >= text.size()) return;
    const bool starts = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
    if (starts && (text[at + 3] == ' ' || text[at + 3] == ')')) text.replace(at, 3, "½");
}

void curly(std::string& text) {
    bool open = false;
    for (std::size_t at = text.find('"'); at != std::string::npos; at = text.find('"', at)) {
        open = !open;
        text.replace(at, 1, open ? "“" : "”");
    }
}

/// Signs, numbers and quotes: not in literal words, which keep theirs.
void other_spelling(std::string& text, Random& random) {
    if (random.chance(30)) replace_all(text, " %", "%");
    if (random.chance(30)) replace_all(text, " × ", random.chance(50) ? "*" : " * ");
    if (random.chance(30)) replace_all(text, " - ", " − ");
    if (random.chance(50)) replace_all(text, " ± ", random.chance(50) ? "+-" : " +/− ");
    if (random.chance(30)) replace_all(text, ", ", random.chance(50) ? "," : " ,  ");
    if (random.chance(30)) replace_all(text, " | ", "|");
    if (random.chance(30)) replace_all(text, " = ", "=");
    if (random.chance(30)) replace_all(text, "'", "’");
    if (random.chance(50)) other_half(text);
    if (random.chance(50)) curly(text);
}

bool is_literal(const std::string& text) {
    for (const char* word : {"step ", "note ", "private note ", "name "})
        if (text.starts_with(word)) return true;
    return false;
}

void loud_word(std::string& text) {
    for (std::size_t i = 0; i < text.size() && text[i] >= 'a' && text[i] <= 'z'; ++i)
        text[i] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[i])));
}

std::string mangled_line(const std::string& line, Random& random) {
    const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
    std::string text = line.substr(indent), comment;
    if (text.starts_with('#')) return blanks(random, 0) + text + blanks(random, 0);
    if (const std::size_t at = text.find("  # "); at != std::string::npos) {
        comment = blanks(random, 1) + text.substr(at + 2);
        text.resize(at);
    }
    if (!is_literal(text)) other_spelling(text, random);
    if (indent != goes_on && random.chance(10)) loud_word(text);
    text = other_blanks(text, random);
    static const std::vector<std::string> bullets = {"- ", "• ",     "* ", "> ", "> • ",
                                                     "– ", "— ",     "· ", "◦ ", "\u2014\u00A0"};
    if (indent != goes_on && random.chance(10)) text = random.pick(bullets) + text;
    return blanks(random, 0) + text + comment + blanks(random, 0);
}

}  // namespace

std::string decorated(std::vector<TextBlock> blocks, Random& random) {
    Remarks remarks{random};
    std::string out;
    const auto maybe = [&](int percent, const char* before, const char* behind) {
        if (random.chance(percent)) out += before + remarks.next() + behind;
    };
    for (TextBlock& block : blocks) {
        maybe(8, "", "\n\n");
        maybe(8, "  ", "\n");
        out += block.heading;
        maybe(8, "  ", "");
        out += '\n';
        for (TextLine& line : block.lines) {
            if (random.chance(5)) out += '\n';
            maybe(4, " ", "\n");
            if (random.chance(2)) out += "private note  Nobody’s  “business”,\n";
            out += broken(line.text, remarks) + '\n';
        }
        maybe(8, "", "\n");
        if (random.chance(80)) out += '\n';
    }
    return out;
}

std::string mangled(const std::string& canonical, Random& random) {
    static const std::vector<std::string> ends = {"\n", "\r\n", "\r"};
    const std::string& end = random.pick(ends);
    std::string out = random.chance(20) ? "\xEF\xBB\xBF" : "";
    const std::vector<std::string> lines = split_lines(canonical);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!lines[i].empty()) out += mangled_line(lines[i], random);
        out += end;
        // A blank line more: not beside a comment, where it tells whose the comment is.
        if (i + 1 == lines.size()) break;
        const std::string& next = lines[i + 1];
        const bool apart = lines[i].find('#') == std::string::npos &&
                           next.find('#') == std::string::npos && !lines[i].ends_with(',');
        if (apart && random.chance(10)) out += blanks(random, 0) + end;
    }
    return out;
}

}  // namespace levigate::testing
