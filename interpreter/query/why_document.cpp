#include "interpreter/query/why_document.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levigate {

namespace {

using document::Align;

std::string letter(std::size_t section) {
    std::string out;
    for (std::size_t rest = section + 1; rest > 0; rest = (rest - 1) / 26)
        out.insert(out.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return out;
}

std::string sign(WhyOp op) {
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
/// A share is a percentage, as makers write it and as a pocket calculator takes it.
std::string number(const Exact& value, WhyUnit unit) {
    const bool share = unit == WhyUnit::share;
    const std::string_view behind = share ? " %" : unit == WhyUnit::grams ? " g" : "";
    if (value.sign() < 0) return "−" + number(-value, unit);
    const std::string exact = (share ? value * 100 : value).exactly();
    if (exact.find('/') == std::string::npos) return fmt::format("{}{}", exact, behind);
    const std::string about = share ? (value * 100).decimal(4) : value.decimal(6);
    return fmt::format("{}, about {}{}", value.exactly(), about, behind);
}

document::Table section_table(const Sources& sources, const WhySection& section) {
    document::Table table;
    table.columns = {{"reckoned", Align::right}, {"because", Align::left}, {"where", Align::left}};
    for (const WhyStep& step : section.steps) {
        std::string because = step.words;
        if (step.from != nothing) because = fmt::format("{}: {}", letter(step.from), step.words);
        const bool note = step.op == WhyOp::note;
        table.rows.push_back({note ? "" : sign(step.op) + number(step.operand, step.unit), because,
                              place(sources, step.span)});
    }
    table.foot = {"= " + number(section.result, section.unit), "", ""};
    return table;
}

}  // namespace

document::Document why_document(const Sources& sources, const Why& why) {
    document::Document out;
    std::string title = fmt::format("{} in {}", why.ingredient, why.shade);
    if (!why.variant.empty()) title += " / " + why.variant;
    if (!why.finish.empty()) title += " / " + why.finish;
    out.emplace_back(document::Heading{1, title});
    out.emplace_back(document::Paragraph{
        fmt::format("{} % of the finished whole. Each part below reckons one number from the ones "
                    "before it; the letters tell which.",
                    (why.share * 100).decimal(4))});
    for (std::size_t i = 0; i < why.sections.size(); ++i) {
        out.emplace_back(
            document::Heading{2, fmt::format("{}. {}", letter(i), why.sections[i].title)});
        out.emplace_back(section_table(sources, why.sections[i]));
    }
    document::List readings;
    for (const WhyReading& one : why.readings)
        readings.items.push_back(fmt::format("{}: {} g{}{} in the bowl of {}", one.batch, one.grams,
                                             one.as.empty() ? "" : " of " + one.as,
                                             one.span ? " (" + place(sources, one.span) + ")" : "",
                                             one.bowl));
    if (readings.items.empty()) return out;
    out.emplace_back(document::Heading{2, "What the balance reads"});
    out.push_back(std::move(readings));
    std::string rounding =
        "A line is rounded to the step of the balance. A blend is made to at least what the bowls "
        "that use it weigh of it, so its lines can read a step more or less than the exact grams "
        "above.";
    const auto diluted = [](const WhyReading& one) { return !one.as.empty(); };
    if (std::any_of(why.readings.begin(), why.readings.end(), diluted))
        rounding += " A dilution is made large enough to be weighed, and what is over is kept.";
    out.emplace_back(document::Paragraph{std::move(rounding)});
    return out;
}

}  // namespace levigate
