// Words where a measure is due that are meant for something else: `2x as much`, `12 minutes`,
// `1'000 g`, `75 C`.

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "interpreter/resolve/slips.hpp"

namespace levigate::resolving {

namespace {

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool digit(char sign) { return sign >= '0' && sign <= '9'; }

/// The number just before the words; empty where there is none.
Span number_before(const Context& context, const tree::Line& line, Span words) {
    const std::string_view text = context.sources[words.source].text;
    std::uint32_t end = words.begin;
    while (end > line.span.begin && text[end - 1] == ' ') --end;
    std::uint32_t begin = end;
    while (begin > line.span.begin &&
           (digit(text[begin - 1]) || text[begin - 1] == '.' || text[begin - 1] == '/'))
        --begin;
    return {words.source, begin, end};
}

/// `75 C`, `75°` and `75 degrees` in the words of a step.
std::optional<Finding> as_temperature(const Context& context, const tree::Line& line, Span words,
                                      std::string_view) {
    if (!std::holds_alternative<tree::Text>(line.body)) return std::nullopt;
    std::string folded;
    fold_name(context.sources.text(words), folded);
    std::erase(folded, '.');
    const bool celsius = is_one_of(folded, {"c",
                                            "°",
                                            "º",
                                            "ºc",
                                            "˚",
                                            "˚c",
                                            "º c",
                                            "° c",
                                            "℃",
                                            "deg",
                                            "degree",
                                            "degrees",
                                            "deg c",
                                            "degree c",
                                            "degrees c",
                                            "celsius",
                                            "centigrade",
                                            "degrees celsius",
                                            "degree celsius",
                                            "grad",
                                            "o",
                                            "oc"});
    const bool fahrenheit = is_one_of(
        folded, {"f", "ºf", "˚f", "° f", "deg f", "degrees f", "fahrenheit", "degrees fahrenheit"});
    if (!celsius && !fahrenheit) return std::nullopt;
    const Span number = number_before(context, line, words);
    const Span whole =
        number.begin < number.end ? Span{words.source, number.begin, words.end} : words;
    const std::string figure(number.begin < number.end ? context.sources.text(number) : "");
    return Finding{
        .code = Code::unit_unknown,
        .message = fmt::format("No measure is called {}.", shown(context.written(words))),
        .span = words,
        .fixes = {possible_fix(whole, fmt::format("{}{}°{}", figure, figure.empty() ? "" : " ",
                                                  celsius ? "C" : "F"))}};
}

/// `2x as much kaolin as clay`, `2 times as much …`, `1/2 as much …`
std::optional<Finding> as_multiple(const Context& context, const tree::Line& line, Span words,
                                   std::string_view first) {
    if (!is_one_of(first, {"x", "*", "times", "time", "fold", "as"})) return std::nullopt;
    const std::string_view text = context.sources[words.source].text;
    std::size_t as = words.begin + (first == "as" ? 0 : first.size());
    while (as < line.span.end && text[as] == ' ') ++as;
    const Span number = number_before(context, line, words);
    if (!text.substr(as, line.span.end - as).starts_with("as much ") || number.begin == number.end)
        return std::nullopt;
    const std::uint32_t end =
        first == "as" ? number.end : words.begin + static_cast<std::uint32_t>(first.size());
    const Span whole{words.source, number.begin, end};
    return Finding{
        .code = Code::line_malformed,
        .message = "A multiple of what another line weighs has a × behind its number.",
        .span = whole,
        .fixes = {possible_fix(whole, fmt::format("{} ×", context.sources.text(number)))}};
}

/// `12 minutes stirring`
std::optional<Finding> as_work(const Context& context, const tree::Line& line, Span words,
                               std::string_view first) {
    if (line.form != Form::ingredient ||
        !is_one_of(first, {"minutes", "minute", "mins", "min", "min.",    "mins.",  "hours",
                           "hour",    "hrs",    "hr",   "h",   "seconds", "second", "secs",
                           "sec",     "sec.",   "days", "day", "minuten", "stunden"}))
        return std::nullopt;
    return Finding{
        .code = Code::unit_unknown,
        .message = "A time is no amount; work at the bench is told in a step.",
        .span = words,
        .fixes = {possible_fix(line.span, "step  " + shown(context.written(line.span)))}};
}

/// `1'000 g`
std::optional<Finding> as_thousands(const Context& context, const tree::Line& line, Span words,
                                    std::string_view) {
    const std::string_view text = context.sources.text(words);
    const Span number = number_before(context, line, words);
    std::string made(context.sources.text(number));
    std::size_t at = 0;
    if (made.empty() || made.size() > 3 || number.end != words.begin) return std::nullopt;
    for (bool again = true; again;) {
        again = false;
        for (const std::string_view mark : {"'", "’", "‘", "´", "`"}) {
            const std::string_view behind = text.substr(at);
            if (!behind.starts_with(mark) || behind.size() < mark.size() + 3) continue;
            const std::string_view three = behind.substr(mark.size(), 3);
            if (!std::all_of(three.begin(), three.end(), digit)) continue;
            made += three;
            at += mark.size() + 3;
            again = true;
        }
    }
    if (at == 0) return std::nullopt;
    const Span whole{words.source, number.begin, words.begin + static_cast<std::uint32_t>(at)};
    return Finding{.code = Code::number_malformed,
                   .message = "Write thousands without a separator.",
                   .span = whole,
                   .fixes = {possible_fix(whole, made)}};
}

}  // namespace

bool report_measure_meant(Context& context, Span words) {
    const std::string_view text = context.sources.text(words);
    std::string first;
    fold_name(text.substr(0, std::min(text.find(' '), text.size())), first);
    const tree::Line* line = line_at(context, words);
    if (!line || has_measure_block(context, first)) return false;
    for (const auto meant : {as_temperature, as_multiple, as_work, as_thousands}) {
        auto out = meant(context, *line, words, first);
        if (!out) continue;
        report(context, std::move(*out));
        return true;
    }
    return false;
}

}  // namespace levigate::resolving
