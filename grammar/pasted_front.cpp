// What makers write in front of a line, and lists without commas: `-- 5 % clay`, `plus 1 % clay`,
// `ii. 2 % clay`, `two % clay`, `finishes dull / satin`.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/forms_table.hpp"
#include "grammar/pasted_amount.hpp"
#include "grammar/pasted_parts.hpp"
#include "grammar/pasted_scan.hpp"
#include "grammar/source.hpp"

namespace levigate {

namespace {

std::size_t blanks(std::string_view line, std::size_t at) {
    while (at < line.size() && (line[at] == ' ' || line[at] == '\t')) ++at;
    return at;
}

/// `--`, `—>`, `=>`: marks that touch each other, and the blanks behind them.
std::size_t front_marks(std::string_view line) {
    std::size_t at = 0;
    for (bool again = true; again;) {
        again = false;
        for (const std::string_view mark : {"-", "–", "—", ">", "*", "•", " "})
            while (line.substr(at).starts_with(mark)) at += mark.size(), again = true;
    }
    return at;
}

/// `ii.`, `IV)`
std::size_t roman_number(std::string_view line) {
    std::size_t at = line.starts_with('(') ? 1 : 0;
    const std::size_t first = at;
    while (at < line.size() && at < first + 5 &&
           std::string_view("ivxIVX").find(line[at]) != std::string_view::npos)
        ++at;
    if (at == first || at >= line.size() || (line[at] != '.' && line[at] != ')')) return 0;
    const std::size_t next = blanks(line, at + 1);
    return next == at + 1 ? 0 : next;
}

std::size_t word_in_front(std::string_view line) {
    const std::size_t word =
        word_length(line, 0, {"plus", "and", "then", "also", "with", "add", "use", "take"});
    const std::size_t next = blanks(line, word);
    return word == 0 || next == word ? 0 : next;
}

/// True where the words are a line of this block.
bool reads_here(Heading block, std::string_view line) {
    for (const FormWord& form : form_words())
        if (holds(block, form.form) && form.form != Form::note &&
            (form.word.empty() ? digit_at(line, 0) || line.starts_with('{') ||
                                     word_length(line, 0,
                                                 {"rest", "as much", "half as much",
                                                  "twice as much", "enough"}) > 0
                               : word_length(line, 0, {form.word}) > 0) &&
            reads_as(form.form, line))
            return true;
    return false;
}

std::optional<Finding> without_front(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    const auto taken = [&](std::size_t length, const char* message) -> std::optional<Finding> {
        if (length == 0 || !reads_here(pasted.block, line.substr(length))) return std::nullopt;
        const auto end = pasted.line.begin + static_cast<std::uint32_t>(length);
        return unknown_line(
            pasted, message, {possible_fix({pasted.line.source, pasted.line.begin, end}, "")},
            fmt::format("Take `{}` away.", shown(tidy_name(line.substr(0, length)))));
    };
    if (auto out = taken(front_marks(line), "These marks have no meaning here.")) return out;
    if (auto out = taken(roman_number(line), "Lines are not numbered.")) return out;
    return taken(word_in_front(line), "A line of a formula begins with its amount.");
}

constexpr std::string_view numbers[] = {"one",   "two",   "three", "four", "five",   "six",
                                        "seven", "eight", "nine",  "ten",  "eleven", "twelve"};

/// `%5 clay`, `two % clay` and `'2 %' clay` with the amount as it is written here; else empty.
std::string in_figures(std::string_view line) {
    if (line.starts_with('%')) {
        const std::size_t at = blanks(line, 1);
        const auto number = scan_number(line, at);
        if (!number) return {};
        return fmt::format("{} %  {}", number->text,
                           line.substr(blanks(line, std::min(number->end, line.size()))));
    }
    for (std::size_t i = 0; i < std::size(numbers); ++i)
        if (const std::size_t word = word_length(line, 0, {numbers[i]}))
            if (scan_unit(line, word)) return fmt::format("{}{}", i + 1, line.substr(word));
    for (const std::string_view quote : {"'", "\"", "‘", "’", "“", "„", "”"}) {
        if (!line.starts_with(quote)) continue;
        const auto amount = scan_amount(line, quote.size());
        if (!amount || amount->amounts.size() != 1) continue;
        for (const std::string_view close : {"'", "\"", "’", "‘", "”", "“"})
            if (line.substr(amount->end).starts_with(close))
                return fmt::format("{}  {}", amount->amounts.front(),
                                   line.substr(blanks(line, amount->end + close.size())));
    }
    return {};
}

std::optional<Finding> with_figures(const PastedLine& pasted) {
    if (!holds(pasted.block, Form::ingredient)) return std::nullopt;
    const std::string made = in_figures(written_line(pasted));
    if (made.empty() || !reads_as(Form::ingredient, made)) return std::nullopt;
    return unknown_line(pasted, "An amount is a number with its measure behind it.",
                        {possible_fix(pasted.line, shown(made))});
}

/// `steps Work the mica.`: a word that begins such a line, nearly.
std::optional<Finding> as_step(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    if (!holds(pasted.block, Form::step)) return std::nullopt;
    const std::size_t word = word_length(line, 0, {"steps:", "steps", "step:"});
    if (word == 0 || blanks(line, word) == word || blanks(line, word) == line.size())
        return std::nullopt;
    const auto end = pasted.line.begin + static_cast<std::uint32_t>(word);
    return unknown_line(pasted, "Each step is a line that begins with `step`.",
                        {possible_fix({pasted.line.source, pasted.line.begin, end}, "step")});
}

/// `to 100 %` and `q.s.` without a name.
std::optional<Finding> rest_of_what(const PastedLine& pasted) {
    const std::string line = tidy_name(written_line(pasted));
    if (!holds(pasted.block, Form::ingredient)) return std::nullopt;
    const std::size_t end = scan_rest(line, 0);
    if (end == 0 || line.find_first_not_of(" .,;:)", end) != line.npos || line == "rest")
        return std::nullopt;
    return unknown_line(pasted, "Write `rest` for the ingredient that makes up the total.", {},
                        "Write it as `rest` and its name.");
}

}  // namespace

bool holds_amount(const PastedLine& pasted, std::string_view line) {
    constexpr std::size_t longest = 400;
    const std::string text = tidy_name(line);
    if (text.size() > longest) return false;
    bool amount = false, name = false;
    const auto begins = [&](std::size_t at) { return at == 0 || text[at - 1] == ' '; };
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (!begins(at)) continue;
        const auto number = scan_number(text, at);
        amount = amount || (number && scan_unit(text, number->end)) ||
                 word_length(text, at, {"rest"}) > 0;
        for (std::size_t end = at; end != text.npos && !name;) {
            end = text.find(' ', end + 1);
            std::string_view words = std::string_view(text).substr(at, end - at);
            while (!words.empty() &&
                   std::string_view(".,;:!?)").find(words.back()) != std::string_view::npos)
                words.remove_suffix(1);
            name = words.size() > 2 && letter_at(words, 0) && pasted.names.find(words) != no_name &&
                   word_length(words, 0, {"rest"}) == 0;
        }
    }
    return amount && name;
}

std::optional<Finding> as_list(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    for (const Form form : {Form::finishes, Form::variants, Form::market}) {
        if (!holds(pasted.block, form)) continue;
        const std::size_t word = word_length(line, 0, {entry(form).word});
        if (word == 0 || line.find('"') != line.npos) continue;
        std::string rest(line.substr(word));
        rest.erase(0, rest.find_first_not_of(" \t:="));
        for (const std::string_view mark : {" / ", "/", ";", " & ", "|", " + "})
            for (std::size_t at = rest.find(mark); at != rest.npos; at = rest.find(mark, at + 2))
                rest.replace(at, mark.size(), ", ");
        while (!rest.empty() && (rest.back() == ' ' || rest.back() == ',')) rest.pop_back();
        const std::string made = fmt::format("{} {}", entry(form).word, tidy_name(rest));
        if (rest.empty() || made.find(" ,") != made.npos || !reads_as(form, made)) continue;
        return unknown_line(pasted, "The names of a list have commas between them.",
                            {possible_fix(pasted.line, made)});
    }
    return std::nullopt;
}

std::optional<Finding> without_thousands(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    std::size_t end = 0;
    while (digit_at(line, end)) ++end;
    if (end == 0 || end > 3) return std::nullopt;
    std::string number(line.substr(0, end));
    for (bool again = true; again;) {
        again = false;
        for (const std::string_view mark : {" ", "'", "’", "\u00A0", "\u202F", "\u2009"}) {
            if (!line.substr(end).starts_with(mark)) continue;
            const std::size_t at = end + mark.size();
            const bool three = digit_at(line, at) && digit_at(line, at + 1) &&
                               digit_at(line, at + 2) && !digit_at(line, at + 3);
            if (!three || (at + 3 < line.size() && line[at + 3] == '/')) continue;
            number += line.substr(at, 3);
            end = at + 3;
            again = true;
        }
    }
    if (number.size() <= 3 || !reads_as(Form::ingredient, number + std::string(line.substr(end))))
        return std::nullopt;
    const Span span{pasted.line.source, pasted.line.begin,
                    pasted.line.begin + static_cast<std::uint32_t>(end)};
    Finding out{.code = Code::number_malformed,
                .message = "Write thousands without a separator.",
                .span = span,
                .fixes = {possible_fix(span, number)}};
    return out;
}

std::optional<Finding> with_currency(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    constexpr std::pair<std::string_view, std::string_view> signs[] = {
        {"€", "EUR"}, {"£", "GBP"}, {"$", ""}, {"¥", ""}};
    for (const auto& [sign, letters] : signs) {
        const std::size_t at = line.find(sign);
        if (at == line.npos) continue;
        std::size_t digits = blanks(line, at + sign.size());
        auto number = scan_number(line, digits);
        if (!number) {  // `4.50 €`
            digits = line.find_first_of("0123456789");
            if (digits < at) number = scan_number(line, digits);
        }
        if (!number) return std::nullopt;
        std::string behind(line.substr(std::max(number->end, at + sign.size())));
        behind = tidy_name(behind);
        for (const std::string_view word : {"for ", "/ ", "/", "a "})
            if (behind.starts_with(word)) behind.replace(0, word.size(), "per ");
        const std::string made =
            fmt::format("price {} {} {}", number->text, letters.empty() ? "USD" : letters, behind);
        if (!reads_as(Form::price, made)) return std::nullopt;
        return unknown_line(
            pasted, "A price names its currency with three letters (ISO 4217).",
            letters.empty() ? std::vector<Fix>{} : std::vector{possible_fix(pasted.line, made)},
            letters.empty()
                ? fmt::format("Write it as in `{}`, with the letters of your currency.", made)
                : "");
    }
    return std::nullopt;
}

std::optional<Finding> explain_front(const PastedLine& pasted) {
    if (auto out = rest_of_what(pasted)) return out;
    if (auto out = as_list(pasted)) return out;
    if (auto out = with_figures(pasted)) return out;
    if (auto out = as_step(pasted)) return out;
    return without_front(pasted);
}

}  // namespace levigate
