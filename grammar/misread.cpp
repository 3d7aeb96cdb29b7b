#include "grammar/misread.hpp"

#include <fmt/format.h>

#include <algorithm>

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
    {"!stop", "line-malformed", "A name can't end in a full stop.",
     "Leave it out, or put the whole name in double quotes."},
    {"!empty", "line-malformed", "Nothing stands between the quotes.", ""},
    {"!again", "line-malformed", "This stands on the line twice.", ""},
};

/// Too deep, or simply not right: what has no `!` in front.
Finding about_due(const Misread& wrong, std::string_view text, Span at, std::string right) {
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

}  // namespace

Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example) {
    if (wrong.due == "!comma") return about_comma(text, line, wrong.offset);
    const Span at = step_back(text, line, slip(text, line, wrong.offset));
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
    return about_due(wrong, text, at, std::string(example));
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
                .remedy = "18 %  Windfall mica"};
    return {.code = "line-unknown",
            .message = fmt::format("No line begins with `{}`.", written),
            .span = first_word,
            .remedy = "Write an amount and a name, or one of the words that this block knows."};
}

}  // namespace levigate
