#include "grammar/commas.hpp"

#include "grammar/classify.hpp"
#include "grammar/forms_table.hpp"
#include "grammar/pasted_parts.hpp"

namespace levigate {

namespace {

/// Lists of names take nearly any words: what is read behind them has to be more than words.
bool takes_words(Form form) {
    return form == Form::finishes || form == Form::variants || form == Form::market;
}

}  // namespace

bool ends_in_comma(std::string_view text, const PhysicalLine& line, Heading block) {
    if (line.end == line.begin || text[line.end - 1] != ',') return false;
    const Form form = classify(text, line.begin, line.end, block).form;
    return form != Form::step && form != Form::note && form != Form::source;
}

bool stands_alone(std::string_view text, const PhysicalLine& line, const PhysicalLine& next,
                  Heading block) {
    if (block != Heading::shade && block != Heading::blend && block != Heading::variant &&
        block != Heading::finish && block != Heading::family)
        return false;
    const LineKind first = classify(text, line.begin, line.end, block);
    const LineKind second = classify(text, next.begin, next.end, block);
    if (!first.known || !second.known || second.heading != Heading::none ||
        !holds(block, second.form))
        return false;
    std::string_view words = text.substr(next.begin, next.end - next.begin);
    while (words.ends_with(',') || words.ends_with(' ')) words.remove_suffix(1);
    if (takes_words(first.form) && second.form != Form::batch &&
        words.find('%') == std::string_view::npos)
        return false;
    return reads_as(second.form, words);
}

Finding explain_trailing_comma(SourceId source, std::uint32_t end, bool certain) {
    const Span comma{source, end - 1, end};
    if (certain)
        return {.code = Code::comma_trailing,
                .message = "The line ends in a comma, and the next is a line of its own.",
                .span = comma,
                .advice = "Take the comma away.",
                .fixes = {certain_fix(comma, "")}};
    return {.code = Code::comma_trailing,
            .message = "The line ends in a comma, and nothing follows.",
            .span = comma,
            .advice = "Leave the comma out, or write what is missing."};
}

}  // namespace levigate
