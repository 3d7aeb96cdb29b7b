#include "grammar/pasted_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "grammar/pasted_scan.hpp"

namespace levigate {

namespace {

using How = PastedAmount::How;

// ---- Names -------------------------------------------------------------------------------------

/// Without blanks and what parts a name from its amount, at both ends.
std::string bare_name_of(std::string_view text) {
    constexpr std::string_view marks[] = {" ", ":", "=",  ",", ";", "|", "-", "–", "—", "−",
                                          "…", "@", "\"", "“", "”", "„", "*", "·", "→"};
    for (bool again = true; again;) {
        again = false;
        for (const std::string_view mark : marks) {
            while (text.starts_with(mark)) text.remove_prefix(mark.size()), again = true;
            while (text.ends_with(mark)) text.remove_suffix(mark.size()), again = true;
        }
        while (text.ends_with("..") || text.ends_with(" .")) text.remove_suffix(1), again = true;
        while (text.starts_with('.')) text.remove_prefix(1), again = true;
        if (text.ends_with('.')) text.remove_suffix(1), again = true;
        if (text.ends_with('(') || text.ends_with('[')) text.remove_suffix(1), again = true;
        if (text.starts_with(')') || text.starts_with(']')) text.remove_prefix(1), again = true;
        if (word_length(text, 0, {"of "})) text.remove_prefix(3), again = true;
    }
    return tidy_name(text);
}

/// Words that can be a name, and no sentence.
bool may_name(std::string_view name) {
    constexpr std::size_t longest = 60, most_blanks = 7;
    const bool letters = std::any_of(name.begin(), name.end(), [](char sign) {
        return letter_at({&sign, 1}, 0) || static_cast<unsigned char>(sign) >= 0x80;
    });
    return letters && name.size() <= longest && name.find(". ") == name.npos &&
           name.find_first_of("\"{}%") == name.npos && name[0] != '+' &&
           static_cast<std::size_t>(std::count(name.begin(), name.end(), ' ')) <= most_blanks;
}

/// What may stand behind an amount at the end of a line.
bool ends_there(std::string_view text, std::size_t at) {
    return text.find_first_not_of(" )];,.|*", at) == text.npos;
}

bool part_begins(std::string_view text, std::size_t at) {
    if (at == 0 || text[at] == ' ') return false;
    const auto before = static_cast<unsigned char>(text[at - 1]);
    return std::string_view(" ([:=,-~<>@|").find(static_cast<char>(before)) !=
               std::string_view::npos ||
           (before >= 0x80 && before < 0xC0 && !digit_at(text, at - 1));
}

std::optional<PastedAmount> amount_before(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && std::string_view("([ @").find(text[at]) != std::string_view::npos)
        ++at;
    if (const std::size_t end = scan_rest(text, at)) {
        PastedAmount out{How::rest, {"rest"}, bare_name_of(text.substr(end))};
        if (may_name(out.name)) return out;
        // `rest soft base 95 %`: what it comes to is worked out.
        for (std::size_t behind = end; behind < text.size(); ++behind) {
            const auto more = part_begins(text, behind) ? scan_amount(text, behind) : std::nullopt;
            if (!more || !ends_there(text, more->end) || behind <= end) continue;
            out.name = bare_name_of(text.substr(end, behind - end));
            if (may_name(out.name)) return out;
        }
    }
    if (const auto found = scan_amount(text, at)) {
        PastedAmount out{found->how, found->amounts, bare_name_of(text.substr(found->end)),
                         found->word};
        if (out.how == How::turned) out.how = How::parted;
        if (const std::size_t comma = out.name.find(", "); comma != out.name.npos) {
            if (scan_amount(out.name, comma + 2)) return std::nullopt;  // a line of its own
            out.how = How::comma;
            out.beside = out.name.substr(comma + 2);
            out.name.resize(comma);
        }
        if (may_name(out.name)) return out;
    }
    return std::nullopt;
}

std::optional<PastedAmount> amount_behind(std::string_view text, const Names& names) {
    std::optional<PastedAmount> first;
    for (std::size_t at = 1; at < text.size(); ++at) {
        if (!part_begins(text, at)) continue;
        std::optional<PastedAmount> out;
        const auto found = scan_amount(text, at);
        if (const std::size_t end = scan_rest(text, at); end > 0 && ends_there(text, end))
            out = {How::rest, {"rest"}, bare_name_of(text.substr(0, at))};
        else if (found && ends_there(text, found->end))
            out = {found->how, found->amounts, bare_name_of(text.substr(0, at)), found->word};
        if (!out || !may_name(out->name)) continue;
        if (names.find(out->name) != no_name) return out;
        if (!first) first = std::move(out);
    }
    return first;
}

PastedAmount number_of_what(std::string_view number, std::string name) {
    return {
        How::bare,
        {fmt::format("{} %", number), fmt::format("{} g", number), fmt::format("{} parts", number)},
        std::move(name),
        std::string(number)};
}

/// `soft base: 82`, and `soft base 82` where that name is there.
std::optional<PastedAmount> number_behind(std::string_view text, const Names& names) {
    for (std::size_t at = 1; at < text.size(); ++at) {
        if (!part_begins(text, at)) continue;
        const auto number = scan_number(text, at);
        if (!number || !ends_there(text, number->end)) continue;
        const std::string_view before = text.substr(0, at);
        std::string name = bare_name_of(before);
        const std::size_t last = before.find_last_not_of(' ');
        const bool sign = last != before.npos &&
                          std::string_view(":=|").find(before[last]) != std::string_view::npos;
        const bool known = names.find(name) != no_name && names.find(bare_name_of(text)) == no_name;
        if ((sign || known) && may_name(name)) return number_of_what(number->text, std::move(name));
    }
    return std::nullopt;
}

// ---- Rows of tables ----------------------------------------------------------------------------

std::vector<std::string> cells_of(std::string_view text) {
    std::vector<std::string> out;
    for (std::size_t begin = 0; begin <= text.size();) {
        std::size_t end = std::min(text.find_first_of("|;", begin), text.size());
        std::string cell = tidy_name(text.substr(begin, end - begin));
        if (!cell.empty()) out.push_back(std::move(cell));
        begin = end + 1;
    }
    return out;
}

/// `copper mica,18,%`: each comma that isn't a decimal one parts two cells.
std::string commas_to_bars(std::string_view text) {
    std::string out(text);
    if (text.find(", ") != text.npos) return out;
    for (std::size_t i = 1; i + 1 < out.size(); ++i)
        if (out[i] == ',' && !(digit_at(text, i - 1) && digit_at(text, i + 1))) out[i] = '|';
    return out;
}

std::optional<PastedAmount> row_of(const std::vector<std::string>& cells, const Names& names) {
    std::vector<std::string> words, amounts, numbers;
    std::string unit;
    bool rest = false;
    for (const std::string& cell : cells) {
        const auto amount = scan_amount(cell, 0);
        const auto number = scan_number(cell, 0);
        const auto alone = scan_unit(cell, 0);
        if (amount && amount->end == cell.size() && amount->amounts.size() == 1)
            amounts.push_back(amount->amounts.front());
        else if (number && number->end == cell.size())
            numbers.push_back(number->text);
        else if (alone && alone->end == cell.size())
            unit = alone->text;
        else if (const std::size_t end = scan_rest(cell, 0); end > 0 && end == cell.size())
            rest = true;
        else if (cell.size() > 1)
            words.push_back(cell);
    }
    if (numbers.size() > 1 && scan_number(cells.front(), 0)) numbers.erase(numbers.begin());
    if (words.empty()) return std::nullopt;
    auto name = std::find_if(words.begin(), words.end(),
                             [&](const std::string& one) { return names.find(one) != no_name; });
    if (name == words.end()) name = words.begin();
    PastedAmount out{How::row, {}, bare_name_of(*name)};
    words.erase(name);
    if (!amounts.empty()) {
        auto best = std::find_if(amounts.begin(), amounts.end(),
                                 [](const std::string& one) { return one.ends_with('%'); });
        if (best == amounts.end()) best = amounts.begin();
        out.amounts = {*best};
        amounts.erase(best);
    } else if (!numbers.empty() && !unit.empty()) {
        out.amounts = {fmt::format("{} {}", numbers.front(), unit)};
    } else if (!numbers.empty()) {
        out = number_of_what(numbers.front(), out.name);
    } else if (rest) {
        out.amounts = {"rest"};
    } else {
        return std::nullopt;
    }
    words.insert(words.end(), amounts.begin(), amounts.end());
    for (const std::string& one : words)
        out.beside += fmt::format("{}{}", out.beside.empty() ? "" : ", ", one);
    return may_name(out.name) ? std::optional(std::move(out)) : std::nullopt;
}

}  // namespace

std::optional<PastedAmount> pasted_amount(std::string_view line, const Names& names) {
    constexpr std::size_t longest = 400;  // more is no line that anyone wrote
    if (line.size() > longest) return std::nullopt;
    const std::string text(line);
    for (const std::string& parted : {text, commas_to_bars(text)}) {
        const std::vector<std::string> cells = cells_of(parted);
        if (cells.size() < 2) continue;
        if (auto out = row_of(cells, names)) return out;
    }
    const std::vector<std::string> cells = cells_of(text);
    if (cells.size() != 1) return std::nullopt;
    if (auto out = amount_before(cells.front())) return out;
    if (auto out = amount_behind(cells.front(), names)) return out;
    return number_behind(cells.front(), names);
}

bool is_pasted_amount(std::string_view text) {
    const auto amount = scan_amount(text, 0);
    if (amount && ends_there(text, amount->end)) return true;
    const std::size_t rest = scan_rest(text, 0);
    return rest > 0 && ends_there(text, rest);
}

}  // namespace levigate
