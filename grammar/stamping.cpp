// What is said of records with stamps, and how a stamp is put on one.

#include <algorithm>
#include <unordered_set>

#include <fmt/format.h>

#include "grammar/not_text.hpp"
#include "grammar/stamp_parts.hpp"
#include "grammar/stamped.hpp"

namespace levigate {

namespace {

using State = StampedRecord::State;

constexpr std::size_t most_followed = 500;  ///< stamps in one `after`

Finding lines_missing(const StampedRecord& record) {
    const std::size_t missing = record.stated - record.lines;
    return {.code = Code::record_cut,
            .message = fmt::format("{} of the {} lines of this record {} missing.", missing,
                                   record.stated, missing == 1 ? "is" : "are"),
            .span = record.heading,
            .advice = "Put what is missing back from an older copy of the file; in git, "
                      "`git log -p` shows what was taken out. Don't record the batch again."};
}

Finding said_of(const StampedRecord& record) {
    switch (record.state) {
        case State::altered:
            return {.code = Code::record_altered,
                    .message = "This record is not as it was written: something in it was changed "
                               "by hand.",
                    .span = record.heading,
                    .advice = "If you corrected it, add a note that says what and why. If not, put "
                              "it back from an older copy of the file."};
        case State::cut: return lines_missing(record);
        case State::unfinished:
            return {.code = Code::record_unfinished,
                    .message = "The writing of a record was cut off here, or its last line was "
                               "taken away. What was written of it is left as it is.",
                    .span = record.last,
                    .advice = "If it was taken away, put it back from an older copy of the file. "
                              "Otherwise record the batch again, and leave this piece where it is "
                              "as a trace."};
        case State::headless:
            return {.code = Code::record_cut,
                    .message = "The heading of a record is missing, so what is left of it can't be "
                               "shown.",
                    .span = record.first,
                    .advice = fmt::format("Put the line `record … [{}]` back above it from an "
                                          "older copy of the file.",
                                          record.stamp)};
        default:
            return {.code = Code::record_twice,
                    .message = "This record is in the file twice, word for word. It counts once.",
                    .span = record.heading,
                    .advice = "Take this one out, or leave it."};
    }
}

Finding predecessor_gone(const StampedRecord& record, std::string_view stamp) {
    Span span = record.after_span;
    return {.code = Code::record_gone,
            .message = fmt::format("The record [{}] was in this file before this one, and is gone.",
                                   stamp),
            .span = span,
            .advice = fmt::format("Find it in an older copy of the file, and put its lines back at "
                                  "the end of this one. If it was taken out on purpose, add a line "
                                  "`# gone {}` that says why.",
                                  stamp)};
}

}  // namespace

Finding explain_later(Span word, const std::string& written) {
    return {.code = Code::record_later,
            .message = fmt::format("This line of a record, `{} …`, was written by a later version "
                                   "of levigate, and can't be read here.",
                                   written),
            .span = word,
            .advice = "It is left out of what is shown, and stays in the file. A later version "
                      "shows it."};
}

Findings findings_of(const RecordLines& lines) {
    Findings out;
    std::unordered_set<std::string_view> known(lines.gone.begin(), lines.gone.end());
    for (const StampedRecord& record : lines.records) known.insert(record.stamp);
    for (const StampedRecord& record : lines.records) {
        if (record.state != State::whole) out.push_back(said_of(record));
        if (record.state == State::repeated) continue;
        for (const std::string_view stamp : record.after)
            if (known.insert(stamp).second) out.push_back(predecessor_gone(record, stamp));
    }
    if (lines.left_off) out.push_back(explain_too_much(lines.left_off));
    return out;
}

namespace {

/// The records that nothing in the text follows, the last ones first to be named.
std::vector<std::string_view> tips(const RecordLines& lines) {
    std::unordered_set<std::string_view> followed;
    for (const StampedRecord& record : lines.records)
        followed.insert(record.after.begin(), record.after.end());
    std::vector<std::string_view> out;
    for (const StampedRecord& record : lines.records)
        if (followed.insert(record.stamp).second) out.push_back(record.stamp);
    if (out.size() > most_followed) out.erase(out.begin(), out.end() - most_followed);
    return out;
}

std::string stamp_for(std::string_view record, std::string_view after, std::string_view salt,
                      std::string_view before) {
    StampDigest digest;
    digest.take(record);
    digest.take(after);
    digest.take(salt);
    while (true) {
        std::uint64_t bits = digest.value() ^ (digest.value() >> 32);
        std::string out;
        for (std::uint32_t i = 0; i < stamp_size; ++i, bits >>= 5) out += stamp_letters[bits & 31];
        if (before.find("[" + out + "]") == before.npos) return out;
        digest.take("again");
    }
}

}  // namespace

std::string stamped(std::string_view record, std::string_view before, std::string_view salt) {
    const RecordLines there = arrange(before, {});
    std::string after;
    for (const std::string_view stamp : tips(there)) {
        if (!after.empty()) after += ", ";
        after += stamp;
    }
    const std::string stamp = stamp_for(record, after, salt, before);
    StampDigest digest;
    digest.take(stamp);
    std::string out;
    std::size_t lines = 1;  // the last
    const auto add = [&](std::string_view content) {
        digest.take(content);
        out += fmt::format("    [{}] {}\n", stamp, content);
        ++lines;
    };
    for (std::size_t at = 0; at < record.size();) {
        const std::size_t end = std::min(record.find('\n', at), record.size());
        const std::string_view content = stamp_trimmed(record.substr(at, end - at));
        if (at > 0) {
            add(content);
        } else {
            digest.take(content);
            out = fmt::format("{} [{}]\n", content, stamp);
            ++lines;
            if (!after.empty()) add(fmt::format("{:<12}{}", "after", after));
        }
        at = end + 1;
    }
    return out +
           fmt::format("    [{}] {:<12}{} lines, {:016x}\n", stamp, "end", lines, digest.value());
}

}  // namespace levigate
