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
    std::replace(point.begin(), point.end(), ',', '.');
    return {.code = "comma-decimal",
            .message = "A decimal is written with a point here, not with a comma.",
            .span = span,
            .remedy = fmt::format("{} (a comma parts the items of a list)", point)};
}

}  // namespace

Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example) {
    const Span at = slip(text, line, wrong.offset);
    const std::string right(example);
    if (wrong.due == "!comma") return about_comma(text, line, wrong.offset);
    if (wrong.due == "!number")
        return {.code = "number-malformed", .message = "This is not a number that can be read.",
                .span = at, .remedy = "0.5, 1/2 or 2 1/2"};
    if (wrong.due == "!brackets")
        return {.code = "line-malformed",
                .message = "An amount that is reckoned out stands in brackets.", .span = at,
                .remedy = "(2 × 3 %) Dusk mica"};
    if (wrong.due == "!negative")
        return {.code = "amount-negative", .message = "An amount can't be less than nothing.",
                .span = {line.source, at.begin, at.end},
                .remedy = "the amount without the minus; to take something out of an inherited "
                          "formula, `set` a smaller amount or write `without`"};
    if (wrong.due == "!quote")
        return {.code = "quote-open", .message = "The double quote is never closed.", .span = at,
                .remedy = "a second \" behind the name"};
    if (wrong.due == "!stop")
        return {.code = "line-malformed", .message = "A name can't end in a full stop.",
                .span = at, .remedy = "the name without it, or the whole name in double quotes"};
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
                .span = at, .remedy = "a `let` for a part of it"};
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
    if (formula)
        return {.code = "line-unknown",
                .message = amount_behind ? "The amount stands before the name of an ingredient."
                                         : "This line has no amount.",
                .span = first_word,
                .remedy = "18 %  Windfall mica"};
    return {.code = "line-unknown", .message = fmt::format("No line begins with `{}`.", written),
            .span = first_word,
            .remedy = "an amount and a name, or one of the words that this block knows"};
}

}  // namespace levigate
