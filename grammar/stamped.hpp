#pragma once
// Records as they are kept in a file that git merges by lines. Each line of a record has the
// record's stamp in front, its heading has it behind, and the last line closes the record with the
// number of its lines and a digest:
//
//     record 2026-11-25 trial of Pear [k7m2qd]
//         [k7m2qd] after       h4t9ac
//         [k7m2qd] weighed     4.82 g soft base, lot 24-117
//         [k7m2qd] end         4 lines, 5f1d07c2a94e63b8
//
// So no line of one record is a line of another, lines that a merge put between each other find
// together again, and what is missing or changed is known. `after` names the records that were last
// in the file when this one was added. Records without stamps are of earlier versions.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/finding.hpp"

namespace levigate {

struct StampedRecord {
    enum class State : std::uint8_t {
        whole,
        altered,     ///< a line was changed, added or moved
        cut,         ///< lines are missing
        unfinished,  ///< its end is missing: the writing was cut off, or a merge took it out
        headless,    ///< its heading is missing
        repeated,    ///< word for word as an earlier one
    };
    std::string_view stamp;
    State state = State::whole;
    Span heading;                         ///< without the stamp; empty where it is missing
    Span first, last;                     ///< of its lines as they are in the file
    std::vector<std::string_view> after;  ///< stamps of the records that it follows
    Span after_span;
    std::size_t lines = 0, stated = 0;  ///< that are there, and that were written
};

/// A line that is to be read: of a record, or several without a stamp.
struct LinePlace {
    static constexpr std::uint32_t none = 0xFFFFFFFFu;
    std::uint32_t at = 0;         ///< behind the stamp
    std::uint32_t until = none;   ///< where the stamp of a heading begins; the end of several
    std::uint32_t record = none;  ///< in RecordLines::records
};

struct RecordLines {
    std::vector<LinePlace> order;  ///< as the lines are to be read; empty where no line has a stamp
    std::vector<StampedRecord> records;  ///< in the order in which they begin
    Span left_off;                       ///< from here on nothing was looked at; else empty
    std::vector<std::string_view> gone;  ///< stamps in comments `# gone k7m2qd`: not missed
};

/// The views point into the text.
RecordLines arrange(std::string_view text, SourceId source);
/// What is to be said of these records.
Findings findings_of(const RecordLines& lines);
/// For a line, of a record that is as it was written, that can't be read here.
Finding explain_later(Span word, const std::string& written);

/// The stamp of the line around this place; empty where it has none.
std::string_view stamp_of_line(std::string_view text, std::uint32_t at);

/// The headings with a stamp, without looking at anything else: `record 2026-11-25 trial of Pear`.
struct StampedHeading {
    std::string_view stamp, words;
};
std::vector<StampedHeading> stamped_headings(std::string_view text);

/// The first heading that is no record's; empty where there is none.
std::string heading_beside_records(std::string_view text);

/// A record, from its heading on, with stamps, as it is added behind `before`. The stamp comes of
/// the record, of what it follows, and of `salt`.
std::string stamped(std::string_view record, std::string_view before, std::string_view salt);

}  // namespace levigate
