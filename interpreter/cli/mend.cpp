#include "interpreter/cli/mend.hpp"

#include <fmt/format.h>

#include "interpreter/cli/output.hpp"

namespace levigate::cli {
namespace {

std::string why_left(const LeftAlone& one) {
    switch (one.why) {
        case LeftBecause::changes_a_sheet:
            return fmt::format("It would change what is weighed for {}.", one.words);
        case LeftBecause::broken_promise:
            return one.words.empty() ? "The line would still be wrong."
                                     : "The line would then be wrong in another way: " + one.words;
        case LeftBecause::edition: return "The digest of this edition would no longer fit.";
        case LeftBecause::records: return "A record is never rewritten.";
        case LeftBecause::unmerged: return "Finish the merge first.";
    }
    return {};
}

std::string_view because(LeftBecause why) {
    switch (why) {
        case LeftBecause::changes_a_sheet: return "changes-a-sheet";
        case LeftBecause::broken_promise: return "still-wrong";
        case LeftBecause::edition: return "edition";
        case LeftBecause::records: return "records";
        case LeftBecause::unmerged: return "unmerged";
    }
    return {};
}

MendedPlace place_of(const MendedFile& file, const Mending& one) {
    const Sources& sources = file.as_read().compiled.sources;
    return {std::string(row_of(one.code).name), sources.position(one.span),
            sources.end_position(one.span), std::string(sources.text(one.span)), one.text};
}

}  // namespace

std::string write_mended(const MendedFile& file) {
    if (file.text() == file.text_before()) return {};
    Output output = Output::over(file.path, file.text_before());
    std::string text = file.text();
    if (output.problem().empty() && output.finish(text)) return {};
    return output.problem();
}

void add_mending(const MendedFile& file, CheckReport& report) {
    report.mended = true;
    for (const Mending& one : file.made) report.made.push_back(place_of(file, one));
    for (const LeftAlone& one : file.left) {
        report.left.push_back(place_of(file, one.fix));
        report.left.back().why = why_left(one);
        report.left.back().because = because(one.why);
    }
}

}  // namespace levigate::cli
