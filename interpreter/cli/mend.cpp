#include "interpreter/cli/mend.hpp"

#include <fmt/format.h>

#include "interpreter/cli/output.hpp"

namespace levigate::cli {
namespace {

std::string why_left(const LeftAlone& one) {
    switch (one.why) {
        case LeftBecause::changes_a_sheet:
            return fmt::format("It would change what is weighed for {}.", one.sheet);
        case LeftBecause::broken_promise: return "Something would still be wrong on that line.";
        case LeftBecause::edition: return "The digest of this edition would no longer fit.";
        case LeftBecause::records: return "Records are only ever added to.";
        case LeftBecause::unmerged: return "Finish the merge first.";
        case LeftBecause::too_many: return "It was not tried, since too many others failed.";
    }
    return {};
}

MendedPlace place_of(const Mended& mended, const Mending& one) {
    const Sources& sources = mended.before.compiled.sources;
    return {std::string(row_of(one.code).name), sources.position(one.span),
            sources.end_position(one.span), std::string(sources.text(one.span)), one.text};
}

}  // namespace

bool write_mended(const std::string& path, const Mended& mended) {
    if (mended.text() == mended.text_before()) return true;
    Output output = Output::over(path, mended.text_before());
    std::string text = mended.text();
    if (output.problem().empty() && output.finish(text)) return true;
    say_problem(output);
    return false;
}

void add_mending(const Mended& mended, CheckReport& report) {
    report.mended = true;
    for (const Mending& one : mended.made) report.made.push_back(place_of(mended, one));
    for (const LeftAlone& one : mended.left) {
        report.left.push_back(place_of(mended, one.fix));
        report.left.back().why = why_left(one);
    }
}

}  // namespace levigate::cli
