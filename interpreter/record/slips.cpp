#include "interpreter/record/slips.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "grammar/names.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

const std::string& name_or(const Formulary& formulary, IngredientId what, const std::string& name) {
    return what == no_ingredient ? name : formulary.name(what);
}

/// What can be in the shade's bowl at most: a blend that was weighed, and not poured from its bowl
/// by any line that was recorded, may have gone there whole.
Mass weighed_at_most(const Formulary& formulary, const std::vector<Pour>& weighed) {
    const auto poured = [&](const std::string& blend) {
        return std::any_of(weighed.begin(), weighed.end(), [&](const Pour& pour) {
            return name_or(formulary, pour.what, pour.name) == blend;
        });
    };
    Mass out;
    for (const Pour& pour : weighed)
        if (pour.bowl.empty() || !poured(name_or(formulary, pour.into, pour.bowl)))
            out += pour.mass;
    return out;
}

/// "About 11.34 g": no more places than the balance tells, and two at least.
std::string weight_words(const Mass& mass, const Mass& step, std::string_view about) {
    int of_step = 0, needed = 0;
    if (!in_grams(step).finite_decimal(of_step)) of_step = 0;
    const int places = std::max(2, of_step);
    if (in_grams(mass).finite_decimal(needed) && needed <= places) return gram_words(mass);
    return fmt::format("{} {} g", about, in_grams(mass).fixed(places));
}

std::string filled_words(const RecordReport& report, const BatchSize& filled) {
    if (std::holds_alternative<Mass>(filled.amount))
        return weight_words(*report.out, report.step, "About") + " were filled";
    const std::string mass = weight_words(*report.out, report.step, "about");
    if (std::holds_alternative<Volume>(filled.amount))
        return fmt::format("{} were filled, which weigh {} by the density", report.filled, mass);
    return fmt::format("{} were filled, which hold {}", report.filled, mass);
}

/// Two people who record on two branches can take the same next number.
std::string advice_for(const Record& first, const Record& second) {
    if (first.stamp.empty() || second.stamp.empty())
        return "Give each batch a number of its own. If one record corrects the other, say so in a "
               "note.";
    return fmt::format("Their stamps tell them apart: [{}] and [{}]. Give the next batch a number "
                       "of its own.",
                       first.stamp, second.stamp);
}

}  // namespace

Findings filled_over(const Formulary& formulary, const RecordReport& report) {
    if (!report.out || !report.record.filled) return {};
    const std::vector<Pour>& weighed = report.record.weighed;
    const Mass there = weighed_at_most(formulary, weighed);
    if (!(in_grams(there + report.step) < in_grams(*report.out))) return {};
    const BatchSize& filled = *report.record.filled;
    const bool by_weight =
        std::holds_alternative<Mass>(filled.amount) &&
        std::none_of(weighed.begin(), weighed.end(), [](const Pour& one) { return one.estimated; });
    Finding out{by_weight ? Code::filled_over : Code::filled_doubtful,
                fmt::format("{}, but only {} were weighed.", filled_words(report, filled),
                            weight_words(there, report.step, "about")),
                filled.span};
    out.advice =
        std::holds_alternative<ContainerCount>(filled.amount)
            ? "Count again, and look for an amount that is missing in what was weighed. Weigh one "
              "that is filled: it may hold less than its `holds` says."
            : "Look for an amount that is missing in what was weighed, and weigh again what was "
              "filled.";
    return {std::move(out)};
}

Findings codes_twice(const std::vector<Record>& records, std::size_t first) {
    Findings out;
    std::map<std::string, const Record*> seen;
    std::string folded;
    for (std::size_t i = 0; i < records.size(); ++i) {
        const Record& record = records[i];
        if (record.code.empty() || !record.finished) continue;
        fold_name(record.code, folded);
        const auto [place, fresh] = seen.emplace(folded, &record);
        if (fresh || i < first) continue;
        const Record& other = *place->second;
        if (!record.stamp.empty() && record.stamp == other.stamp) continue;  // one record, twice
        out.push_back({Code::record_code,
                       fmt::format("Two records have the batch number {}: {} on {}, and {} on {}.",
                                   record.code, other.title, other.day, record.title, record.day),
                       record.span, advice_for(other, record)});
        out.back().notes.push_back({other.span, "recorded here first"});
    }
    return out;
}

}  // namespace levigate
