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
                .message = "A comma in a number can be read in two ways.", .span = span,
                .remedy = fmt::format("Write {} for a thousand and more, or {} for a "
                                      "decimal.", joined,
                                      point)};
    return {.code = "comma-decimal",
            .message = "A decimal is written with a point here, not with a comma.",
            .span = span,
            .remedy = fmt::format("{}", point)};
}

}  // namespace

Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example) {
    const Span at = step_back(text, line, slip(text, line, wrong.offset));
    const std::string right(example);
    if (wrong.due == "!comma") return about_comma(text, line, wrong.offset);
    if (wrong.due == "!number")
        return {.code = "number-malformed", .message = "This is not a number that can be read.",
                .span = whole_number(text, line, at), .remedy = "0.5, 1/2 or 2 1/2"};
    if (wrong.due == "!brackets")
        return {.code = "line-malformed",
                .message = "An amount that is reckoned out stands in brackets.", .span = at,
                .remedy = "(2 × 3 %) Dusk mica"};
    if (wrong.due == "!negative")
        return {.code = "amount-negative", .message = "An amount can't be less than nothing.",
                .span = with_minus(text, line, at),
                .remedy = "Leave the minus out; to take something out of an inherited formula, "
                          "`set` a smaller amount or write `without`."};
    if (wrong.due == "!quote")
        return {.code = "quote-open", .message = "The double quote is never closed.",
                .span = open_quote(text, line, at),
                .remedy = "Write a second \" behind the name."};
    if (wrong.due == "!stop")
        return {.code = "line-malformed", .message = "A name can't end in a full stop.",
                .span = at, .remedy = "Leave it out, or put the whole name in double quotes."};
    if (wrong.due == "!again")
        return {.code = "line-malformed", .message = "This stands on the line twice.", .span = at,
                .remedy = right};
    if (wrong.due == "!empty")
        return {.code = "line-malformed", .message = "Nothing stands between the quotes.",
                .span = at, .remedy = right};
    if (wrong.due == "!end")
        return {.code = "line-malformed",
                .message = at.begin == at.end ? "The line ends too soon."
                                              : "This is not understood at the end of the line.",
                .span = at, .remedy = right};
    if (wrong.due.rfind("maximum", 0) == 0)
        return {.code = "nesting-too-deep", .message = "Too many brackets within brackets.",
                .span = at, .remedy = "Put a part of it into a `let`."};
    if (wrong.due.empty())
        return {.code = "line-malformed", .message = "This line can't be read.", .span = at,
                .remedy = right};
    return {.code = "line-malformed", .message = fmt::format("Here should stand {}.", wrong.due),
            .span = at, .remedy = right};
}

Finding explain_unknown(std::string_view text, Span first_word, Span line, std::string_view guess,
                        Heading block) {
    const std::string written(text.substr(first_word.begin, first_word.end - first_word.begin));
    if (!guess.empty())
        return {.code = "line-unknown", .message = fmt::format("No line begins with `{}`.", written),
                .span = first_word, .remedy = std::string(guess)};
    const std::string_view whole = text.substr(line.begin, line.end - line.begin);
    const bool amount_behind = whole.find('%') != std::string_view::npos;
    const bool formula = block == Heading::shade || block == Heading::blend;
    if (formula && written == "%")
        return {.code = "line-unknown", .message = "The number before `%` is missing.",
                .span = first_word, .remedy = "18 %  Windfall mica"};
    if (formula)
        return {.code = "line-unknown",
                .message = amount_behind ? "The amount stands before the name of an ingredient."
                                         : "This line has no amount.",
                .span = first_word,
                .remedy = "18 %  Windfall mica"};
    return {.code = "line-unknown", .message = fmt::format("No line begins with `{}`.", written),
            .span = first_word,
            .remedy = "Write an amount and a name, or one of the words that this block knows."};
}

}  // namespace levigate
