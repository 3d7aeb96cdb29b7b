// Two states of a page, compared: what only looks otherwise is no change, and what is edited is
// told with the shares and grams that `weigh` has.
#include <algorithm>
#include <cctype>
#include <map>

#include "interpreter/changes/changes.hpp"
#include "interpreter/render/csv.hpp"
#include "tests/properties/changes.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"
#include "tests/support/text.hpp"

namespace levigate::testing {
namespace {

using TwoFigures = std::pair<std::string, std::string>;  // grams and percent
using FiguresByName = std::map<std::string, TwoFigures>;

State state(const std::string& text) {
    State out;
    out.shown = "a.shade";
    levigate::add_file(out, memory_world({{"a.shade", text}}), "a.shade", "a.shade");
    return out;
}

std::string shuffled(const Book& book, std::uint64_t noise, std::uint64_t seed) {
    std::vector<TextBlock> blocks = write_blocks(book, noise);
    Random random(seed);
    random.shuffle(blocks);
    for (TextBlock& block : blocks) {
        std::vector<TextLine> free;
        for (const TextLine& line : block.lines)
            if (line.ingredient) free.push_back(line);
        random.shuffle(free);
        for (TextLine& line : block.lines) {
            if (!line.ingredient) continue;
            line = free.back();
            free.pop_back();
        }
    }
    return join(blocks);
}

/// The first number of some shade's or blend's ingredient line, one more than it was.
std::string edited(std::vector<TextBlock>& blocks, std::uint64_t seed) {
    Random random(seed);
    const std::size_t start = random.any() % std::max<std::size_t>(1, blocks.size());
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        TextBlock& block = blocks[(start + i) % blocks.size()];
        if (!block.heading.starts_with("shade ") && !block.heading.starts_with("blend ")) continue;
        for (TextLine& line : block.lines) {
            std::size_t digits = 0;
            while (std::isdigit(static_cast<unsigned char>(line.text[digits]))) ++digits;
            if (!line.ingredient || digits == 0 || digits > 3) continue;
            const int number = std::stoi(line.text.substr(0, digits)) + 1;
            line.text = std::to_string(number) + line.text.substr(digits);
            const std::string name = block.heading.substr(6);
            return name.substr(0, name.find(" like "));
        }
    }
    return "";
}

/// What `weigh --all --as csv` writes, by the fields that tell a row from the others.
FiguresByName weighed(const Compiled& compiled) {
    Choice choice;
    choice.all = true;
    CsvWriter writer(compiled.formulary);
    std::string text;
    expand_each(compiled.formulary, compiled.names, choice,
                [&](Sheet& sheet) { writer.append(sheet, text); });
    FiguresByName out;
    for (const std::string& line : split_lines(text)) {
        std::vector<std::string> cells(1);
        for (const char c : line) c == ',' ? void(cells.emplace_back()) : cells.back().push_back(c);
        std::string key;
        for (std::size_t i = 0; i < 6; ++i) key += cells[i] + ",";
        out[key] = {cells[6], cells[7]};
    }
    return out;
}

/// What the comparison says of one of the two days, in the same form.
FiguresByName told(const Changes& changes, bool today) {
    FiguresByName out;
    for (const ShadeEffect& shade : changes.shades)
        for (const ProductEffect& product : shade.products)
            for (const RowEffect& row : product.rows)
                for (std::size_t i = 0; i < product.batches.size(); ++i) {
                    const std::string& grams = (today ? row.grams_now : row.grams_before)[i];
                    if (grams.empty()) continue;
                    const std::string key = shade.name + "," + product.variant + "," +
                                            product.finish + "," + product.batches[i].name + "," +
                                            (row.bowl.empty() ? shade.name : row.bowl) + "," +
                                            row.ingredient + ",";
                    out[key] = {grams, today ? row.percent_now : row.percent_before};
                }
    return out;
}

/// Every row of one day that the other hasn't, or has otherwise in its grams, is told as it is; and
/// what is told is so.
std::string wrongly_told(const FiguresByName& own, const FiguresByName& other,
                         const FiguresByName& told) {
    for (const auto& [key, row] : told) {
        const auto found = own.find(key);
        if (found == own.end()) return "told, but on no sheet: " + key;
        if (found->second != row) return "told otherwise than weighed: " + key;
    }
    for (const auto& [key, row] : own) {
        const auto found = other.find(key);
        if (found != other.end() && found->second.first == row.first) continue;
        if (!told.contains(key)) return "changed, and not told: " + key;
    }
    return "";
}

}  // namespace

std::string compared_alike(const Book& book, std::uint64_t seed) {
    const std::string plain = write(book, 0), other = shuffled(book, seed * 2 + 1, seed);
    State before = state(plain), now = state(other);
    const Changes changes = compare(before, now, {});
    if (!changes.any()) return "";
    std::string what;
    for (const BlockChange& block : changes.blocks) {
        what += block.kind + " " + block.name + "; ";
        for (const LineChange& line : block.lines)
            what += line.label + ": " + line.before + " -> " + line.now + "; ";
    }
    for (const ShadeEffect& shade : changes.shades) what += "effect on " + shade.name + "; ";
    for (const LipEffect& lip : changes.lips) what += lip.message;
    return "nothing was edited, but told: " + what + "\n" + other;
}

std::string edits_are_told(const Book& book, std::uint64_t seed) {
    std::vector<TextBlock> blocks = write_blocks(book, 0);
    State before = state(join(blocks));
    const std::string name = edited(blocks, seed);
    if (name.empty()) return "";
    const std::string text = join(blocks);
    State now = state(text);
    const Changes changes = compare(before, now, {});
    const auto quoted = [](const std::string& one) { return "\"" + one + "\""; };
    const bool named = changes.blocks.size() == 1 &&
                       (changes.blocks[0].name == name || quoted(changes.blocks[0].name) == name);
    if (!named) return "the edited block isn't the one that is named: " + name + "\n" + text;
    const FiguresByName then = weighed(before.files[0].compiled),
                        today = weighed(now.files[0].compiled);
    std::string wrong = wrongly_told(then, today, told(changes, false));
    if (wrong.empty()) wrong = wrongly_told(today, then, told(changes, true));
    return wrong.empty() ? "" : wrong + "\n" + text;
}

}  // namespace levigate::testing
