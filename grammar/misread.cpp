#include "grammar/misread.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "grammar/names.hpp"
#include "grammar/source.hpp"

namespace levigate {

namespace {

bool is_blank(char sign) { return sign == ' ' || sign == '\t'; }

/// From the place of the slip to the end of the word there; one column where nothing follows.
Span slip(std::string_view text, Span line, std::size_t offset) {
    auto at = static_cast<std::uint32_t>(line.begin + offset);
    while (at < line.end && is_blank(text[at])) ++at;
    std::uint32_t end = at;
    while (end < line.end && !is_blank(text[end]) && text[end] != '\n' && text[end] != '\r') ++end;
    return {line.source, at, std::max(end, at)};
}

bool number_sign(char sign) { return (sign >= '0' && sign <= '9') || sign == '.' || sign == '/'; }

/// The whole number around `at`.
Span whole_number(std::string_view text, Span line, Span at) {
    while (at.begin > line.begin && number_sign(text[at.begin - 1])) --at.begin;
    at.end = std::max(at.end, at.begin);
    while (at.end < line.end && number_sign(text[at.end])) ++at.end;
    return at;
}

/// A slip at a `%` is one at the number before it.
Span step_back(std::string_view text, Span line, Span at) {
    if (at.begin >= line.end || text[at.begin] != '%') return at;
    std::uint32_t begin = at.begin;
    while (begin > line.begin && is_blank(text[begin - 1])) --begin;
    const std::uint32_t end = begin;
    while (begin > line.begin && number_sign(text[begin - 1])) --begin;
    return begin < end ? Span{at.source, begin, end} : at;
}

/// From the minus to the end of the number, and of the `%` behind it.
Span with_minus(std::string_view text, Span line, Span at) {
    std::uint32_t end = at.begin;
    while (end < line.end && number_sign(text[end])) ++end;
    std::uint32_t percent = end;
    while (percent < line.end && is_blank(text[percent])) ++percent;
    if (percent < line.end && text[percent] == '%') end = percent + 1;
    while (at.begin > line.begin && text[at.begin] != '-' &&
           static_cast<unsigned char>(text[at.begin]) != 0xE2)
        --at.begin;
    return {at.source, at.begin, std::max(end, at.end)};
}

/// The quote that opens what is never closed.
Span open_quote(std::string_view text, Span line, Span at) {
    for (std::uint32_t i = std::min(at.begin, line.end); i-- > line.begin;) {
        if (text[i] == '"') return {at.source, i, i + 1};
        const std::string_view three = text.substr(i, 3);
        if (three == "\u201C" || three == "\u201D" || three == "\u201E")
            return {at.source, i, i + 3};
    }
    return at;
}

/// The number with a decimal comma around `at`.
Span comma_number(std::string_view text, Span line, std::uint32_t at) {
    const auto digit = [&](std::uint32_t i) { return text[i] >= '0' && text[i] <= '9'; };
    Span number{line.source, at, at + 1};
    while (number.begin > line.begin && digit(number.begin - 1)) --number.begin;
    while (number.end < line.end && (digit(number.end) || text[number.end] == ',')) ++number.end;
    return number;
}

Finding about_comma(std::string_view text, Span line, std::size_t offset) {
    const Span span = comma_number(text, line, static_cast<std::uint32_t>(line.begin + offset));
    std::string point(text.substr(span.begin, span.end - span.begin));
    // `1,000` is a thousand to some, and one to others.
    const std::size_t comma = point.find(',');
    const bool thousand = point.size() == comma + 4 && point[0] != '0';
    std::string joined = point;
    joined.erase(comma, 1);
    std::replace(point.begin(), point.end(), ',', '.');
    if (thousand)
        return {.code = "comma-decimal",
                .message = "A comma in a number can be read in two ways.",
                .span = span,
                .remedy = fmt::format("Write {} for a thousand and more, or {} for a "
                                      "decimal.",
                                      joined, point)};
    return {.code = "comma-decimal",
            .message = "A decimal is written with a point here, not with a comma.",
            .span = span,
            .remedy = fmt::format("{}", point)};
}

/// The comma behind a part of a list is none of it.
Span without_comma(std::string_view text, Span, Span at) {
    while (at.end > at.begin && text[at.end - 1] == ',') --at.end;
    return at;
}

Span as_it_is(std::string_view, Span, Span at) { return at; }

/// Slips that have words of their own (expected.hpp and actions.hpp raise them).
struct Slip {
    std::string_view due, code, message;
    std::string_view remedy;  ///< empty: a right line of the form
    Span (*place)(std::string_view text, Span line, Span at) = as_it_is;
};

constexpr Slip slips[] = {
    {"!number", "number-malformed", "This is not a number that can be read.", "0.5, 1/2 or 2 1/2",
     whole_number},
    {"!brackets", "line-malformed", "An amount that is reckoned out stands in brackets.",
     "(2 × 3 %) Dusk mica"},
    {"!negative", "amount-negative", "An amount can't be less than nothing.",
     "Leave the minus out; to take something out of an inherited formula, `set` a smaller amount "
     "or write `without`.",
     with_minus},
    {"!quote", "quote-open", "The double quote is never closed.",
     "Write a second \" behind the name.", open_quote},
    {"!share", "line-malformed", "A share in a label has its measure behind it.",
     "60 %, 600000 ppm or 3 in 5; a third is 100/3 %. A name that ends so stands in double "
     "quotes.",
     without_comma},
    {"!and", "line-malformed", "A blank is due before and behind `(and)`.",
     "label  Mica (and) Silica", without_comma},
    {"!locants", "line-malformed", "The comma in this name would part it in two.",
     "Put the whole name in double quotes, as in \"1,2-Hexanediol\".", without_comma},
    {"!stop", "line-malformed", "A name can't end in a full stop.",
     "Leave it out, or put the whole name in double quotes."},
    {"!empty", "line-malformed", "Nothing stands between the quotes.", ""},
    {"!again", "line-malformed", "This stands on the line twice.", ""},
};

/// `75 °C` where an amount and a name are due.
Span with_number(std::string_view text, Span line, Span at) {
    while (at.begin > line.begin && is_blank(text[at.begin - 1])) --at.begin;
    while (at.begin > line.begin && number_sign(text[at.begin - 1])) --at.begin;
    return at;
}

/// `[nano]`, as boxes print it, with what follows it without a blank.
bool is_nano_sign(std::string_view word) {
    constexpr std::string_view sign = "[nano]";
    return word.size() >= sign.size() &&
           std::equal(sign.begin(), sign.end(), word.begin(),
                      [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? b | 0x20 : b); });
}

/// Too deep, or simply not right: what has no `!` in front.
Finding about_due(const Misread& wrong, std::string_view text, Span line, Span at,
                  std::string right) {
    if (wrong.due.starts_with("maximum"))  // PEGTL's own words for its bound
        return {.code = "nesting-too-deep",
                .message = "Too many brackets within brackets.",
                .span = at,
                .remedy = "Put a part of it into a `let`."};
    if (wrong.due.empty())
        return {.code = "line-malformed",
                .message = "This line can't be read.",
                .span = at,
                .remedy = std::move(right)};
    if (wrong.due.starts_with("the ) ") && text.substr(at.begin).starts_with("±"))
        return {.code = "line-malformed",
                .message = "± stands behind a whole figure with its measure, in no bracket.",
                .span = at,
                .remedy = "0.9 g/mL ± 0.02 g/mL"};
    if (wrong.due.starts_with("the ) "))
        return {.code = "line-malformed",
                .message = "A bracket is not closed.",
                .span = at,
                .remedy = "Write a ) for each (."};
    if (wrong.due == "the name of an ingredient" && text.substr(at.begin).starts_with("°"))
        return {.code = "quantity-kind",
                .message = "An amount is a share, a weight or a volume, and this is a reading of "
                           "temperature.",
                .span = with_number(text, line, at),
                .remedy = "8 parts, 8 g or 8 %"};
    if (wrong.due.find("name") != std::string::npos && at.begin < at.end &&
        static_cast<unsigned char>(text[at.begin]) >= 0x80)
        return {.code = "line-malformed",
                .message = "This sign can't stand in a bare name.",
                .span = at,
                .remedy = "Put the whole name in double quotes."};
    return {.code = "line-malformed",
            .message = fmt::format("Here should stand {}.", wrong.due),
            .span = at,
            .remedy = std::move(right)};
}

/// The line with its amount in front: the one that stands behind the name, else some amount.
std::string amount_first(std::string_view whole) {
    constexpr std::size_t longest = 40;  // more words are prose
    const std::string line = shown(tidy_name(whole));
    const std::size_t digit = line.find_first_of("0123456789.");
    if (line.size() > longest || digit == 0) return "18 %  Windfall mica";
    if (digit == line.npos && line.find('%') == line.npos) return "5 %  " + line;
    const bool behind = line.ends_with('%') && line[digit - 1] == ' ';
    return behind ? fmt::format("{}  {}", line.substr(digit), line.substr(0, digit - 1))
                  : "18 %  Windfall mica";
}

/// The edit that is meant by another word for it, as in `remove vanilla`.
std::string edit_meant(std::string_view written, std::string_view whole, Heading block) {
    if (block != Heading::shade && block != Heading::blend && block != Heading::variant) return {};
    const std::string name = shown(tidy_name(whole.substr(written.size())));
    if (name.empty()) return {};
    std::string folded;
    fold_name(written, folded);
    for (const std::string_view word : {"remove", "delete", "drop", "omit"})
        if (folded == word) return "without " + name;
    for (const std::string_view word : {"replace", "exchange"})
        if (folded == word) return "swap OLD for NEW";
    return folded == "change" ? "set AMOUNT NAME" : "";
}

/// Of a block that holds no formula, the words that its lines begin with.
std::string what_begins_lines(Heading block) {
    if ((entry(Form::ingredient).where & in(block)) != 0)
        return "Write an amount and a name, or one of the words that this block knows.";
    std::string words;
    for (const FormWord& known : form_words()) {
        if (known.word.empty() || (known.where & in(block)) == 0) continue;
        words += fmt::format("{}`{}`", words.empty() ? "" : ", ", known.word);
    }
    return fmt::format("A line of this block begins with one of these: {}.", words);
}

}  // namespace

Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example) {
    if (wrong.due == "!comma") return about_comma(text, line, wrong.offset);
    const Span at = step_back(text, line, slip(text, line, wrong.offset));
    if (wrong.due == "!end" && at.begin < at.end && text[at.begin] == ',')
        return {.code = "line-malformed",
                .message = "A comma can't stand here: it would let the line go on.",
                .span = at,
                .remedy = "Take the comma away; what follows it stands in a line of its own."};
    if (wrong.due == "!end" && is_nano_sign(text.substr(at.begin, at.end - at.begin)))
        return {.code = "line-malformed",
                .message = "Nano stands in round brackets here.",
                .span = without_comma(text, line, at),
                .remedy = "(nano)"};
    if (wrong.due == "!end")
        return {.code = "line-malformed",
                .message = at.begin == at.end ? "The line ends too soon."
                                              : "This is not understood at the end of the line.",
                .span = at,
                .remedy = std::string(example)};
    for (const Slip& known : slips)
        if (wrong.due == known.due)
            return {.code = known.code,
                    .message = std::string(known.message),
                    .span = known.place(text, line, at),
                    .remedy = std::string(known.remedy.empty() ? example : known.remedy)};
    return about_due(wrong, text, line, at, std::string(example));
}

Finding explain_unknown(std::string_view text, Span first_word, Span line, std::string_view guess,
                        Heading block) {
    const std::string written(text.substr(first_word.begin, first_word.end - first_word.begin));
    if (!guess.empty())
        return {.code = "line-unknown",
                .message = fmt::format("No line begins with `{}`.", written),
                .span = first_word,
                .remedy = std::string(guess)};
    const std::string_view whole = text.substr(line.begin, line.end - line.begin);
    const bool amount_behind = whole.find('%') != std::string_view::npos;
    if (std::string edit = edit_meant(written, whole, block); !edit.empty())
        return {.code = "line-unknown",
                .message = fmt::format("No line begins with `{}`.", written),
                .span = first_word,
                .remedy = std::move(edit)};
    const bool formula = block == Heading::shade || block == Heading::blend;
    if (formula && written == "%")
        return {.code = "line-unknown",
                .message = "The number before `%` is missing.",
                .span = first_word,
                .remedy = "18 %  Windfall mica"};
    if (formula)
        return {.code = "line-unknown",
                .message = amount_behind ? "The amount stands before the name of an ingredient."
                                         : "This line has no amount.",
                .span = first_word,
                .remedy = amount_first(whole)};
    return {.code = "line-unknown",
            .message = fmt::format("No line begins with `{}`.", written),
            .span = first_word,
            .remedy = what_begins_lines(block)};
}

}  // namespace levigate
