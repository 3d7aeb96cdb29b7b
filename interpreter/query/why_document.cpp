#include "interpreter/query/why_document.hpp"

#include <fmt/format.h>

namespace levigate {

namespace {

using document::Align;

std::string letter(std::size_t section) {
    std::string out;
    for (std::size_t rest = section + 1; rest > 0; rest = (rest - 1) / 26)
        out.insert(out.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return out;
}

std::string_view sign(WhyOp op) {
    switch (op) {
        case WhyOp::plus: return "+ ";
        case WhyOp::minus: return "− ";
        case WhyOp::times: return "× ";
        case WhyOp::divide: return "÷ ";
        default: return "";
    }
}

std::string place(const Sources& sources, Span span) {
    if (!span) return {};
    return fmt::format("{}:{}", sources[span.source].name, sources.position(span).line);
}

/// The number as it is reckoned with: exact, and where that is no decimal, what it is about.
std::string number(const Exact& value) {
    const std::string exact = value.exactly();
    if (exact.find('/') == std::string::npos) return exact;
    return fmt::format("{} (about {})", exact, value.decimal(6));
}

std::string result_words(const WhySection& section) {
    std::string out = "= " + number(section.result);
    if (section.unit == WhySection::Unit::grams) return out + " g";
    if (section.unit == WhySection::Unit::share)
        out += fmt::format(", that is {} %", (section.result * 100).decimal(4));
    return out;
}

document::Table section_table(const Sources& sources, const WhySection& section) {
    document::Table table;
    table.columns = {{"reckoned", Align::left}, {"because", Align::left}, {"where", Align::left}};
    for (const WhyStep& step : section.steps) {
        std::string because = step.words;
        if (step.from != nothing) because = fmt::format("{}: {}", letter(step.from), step.words);
        const bool note = step.op == WhyOp::note;
        table.rows.push_back({note ? "" : fmt::format("{}{}", sign(step.op), number(step.operand)),
                              because, place(sources, step.span)});
    }
    table.foot = {result_words(section), "", ""};
    return table;
}

}  // namespace

document::Document why_document(const Sources& sources, const Why& why) {
    document::Document out;
    std::string title = fmt::format("{} in {}", why.ingredient, why.shade);
    if (!why.variant.empty()) title += " / " + why.variant;
    if (!why.finish.empty()) title += " / " + why.finish;
    out.push_back(document::Heading{1, title});
    out.push_back(document::Paragraph{
        fmt::format("{} % of the finished whole. Each part below reckons one number from the ones "
                    "before it; the letters tell which.", (why.share * 100).decimal(4))});
    for (std::size_t i = 0; i < why.sections.size(); ++i) {
        out.push_back(document::Heading{2, fmt::format("{}. {}", letter(i), why.sections[i].title)});
        out.push_back(section_table(sources, why.sections[i]));
    }
    document::List readings;
    for (const WhyReading& one : why.readings)
        readings.items.push_back(fmt::format("{}: {} g in the bowl of {}", one.batch, one.grams,
                                             one.bowl));
    if (readings.items.empty()) return out;
    out.push_back(document::Heading{2, "What the balance reads"});
    out.push_back(std::move(readings));
    out.push_back(document::Paragraph{
        "A line is rounded to the step of the balance. A blend is made to at least what the bowls "
        "that use it weigh of it, so its lines can read a step more than the exact grams above."});
    return out;
}

}  // namespace levigate
