#include "interpreter/cli/lost_records.hpp"

#include <filesystem>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "grammar/stamped.hpp"
#include "interpreter/history/past.hpp"

namespace levigate::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_told = 50;

std::optional<history::Repository> repository_of(const std::string& path) {
    const std::string folder = fs::path(path).parent_path().string();
    auto found = history::find_repository(folder.empty() ? "." : folder);
    if (auto* repository = std::get_if<history::Repository>(&found)) return *repository;
    return std::nullopt;
}

/// The path from the top of the repository; empty where it lies outside.
std::string in_repository(const history::Repository& repository, const std::string& path) {
    std::error_code error;
    const fs::path top = fs::weakly_canonical(repository.workdir, error);
    const fs::path real = fs::weakly_canonical(fs::absolute(path), error);
    const std::string way = real.lexically_relative(top).generic_string();
    return repository.workdir.empty() || way.starts_with("..") ? "" : way;
}

struct Lost {
    std::string stamp, title, commit;
    bool dropped = false;
};

std::string advice_for(const Lost& one, const std::string& way) {
    return fmt::format("`git show \"{}:{}\"` shows the file as it was. Put the record's lines back "
                       "at the end of this one. If it was taken out on purpose, add a line "
                       "`# gone {}` that says why.",
                       one.commit, way, one.stamp);
}

void say(const Lost& one, const std::string& way, SourceId source, Findings& findings) {
    const std::string stamp = "[" + one.stamp + "]";
    for (Finding& finding : findings)
        if (finding.code == Code::record_gone && finding.message.find(stamp) != std::string::npos) {
            advise(finding, advice_for(one, way));
            return;
        }
    findings.push_back({Code::record_gone,
                        fmt::format("The {} {} was in this file in commit {}, and is gone.",
                                    shown(one.title), stamp, one.commit),
                        Span{source, 0, 0}, advice_for(one, way)});
    // What the branch left behind may have been left on purpose.
    if (one.dropped) findings.back().severity = Severity::warning;
}

}  // namespace

void find_lost_records(const std::string& path, std::string_view text, SourceId source,
                       Findings& findings) {
    const auto repository = repository_of(path);
    if (!repository) return;
    const std::string way = in_repository(*repository, path);
    if (way.empty()) return;
    const RecordLines lines = arrange(text, source);
    std::set<std::string, std::less<>> known(lines.gone.begin(), lines.gone.end());
    for (const StampedRecord& record : lines.records) known.emplace(record.stamp);
    std::vector<Lost> lost;
    history::each_past_text(*repository, way, [&](const history::PastText& past) {
        for (const StampedHeading& heading : stamped_headings(past.text)) {
            if (lost.size() == most_told) return;
            if (known.emplace(heading.stamp).second)
                lost.push_back({std::string(heading.stamp), std::string(heading.words), past.commit,
                                past.dropped});
        }
    });
    for (const Lost& one : lost) say(one, way, source, findings);
}

std::string place_words(const std::string& path) {
    const auto repository = repository_of(path);
    return repository ? history::branch_of(*repository) : "";
}

}  // namespace levigate::cli
