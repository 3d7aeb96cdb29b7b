#pragma once
// Source texts and the way back from a byte offset to what a person sees.

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/isolates.hpp"
#include "grammar/span.hpp"

namespace levigate {

struct Source {
    std::string name;           ///< as shown to a person: a path, or "library: lip materials"
    std::string text;           ///< the bytes as they were read; isolates around names are blanks
    bool library = false;       ///< ships with the tool
    std::string original = {};  ///< the bytes themselves, where names in them were isolated

    /// What stands in the file, place by place as in `text`.
    const std::string& bytes() const { return original.empty() ? text : original; }
};

/// Line and column, both from 1. A column counts code points, so that a caret and an editor agree.
struct Position {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
};

/// Owns the texts; everything else points into them by span.
class Sources {
public:
    SourceId add(Source source);
    const Source& operator[](SourceId id) const { return sources_[id]; }
    std::size_t size() const { return sources_.size(); }

    std::string_view text(Span span) const;
    Position position(Span span) const;
    /// Where the span ends, for editors and JSON.
    Position end_position(Span span) const;
    /// The whole line on which the span begins, without its line end.
    std::string_view line(Span span) const;
    /// Byte offset at which that line begins.
    std::uint32_t line_begin(Span span) const;

    /// Names of the texts that a person reads isolated.
    const Isolates& isolates() const { return isolates_; }
    void isolate(const Isolates& names) { isolates_.add(names); }
    void isolate(std::string_view name) { isolates_.add(name); }

private:
    Position at(SourceId source, std::uint32_t offset) const;
    const std::vector<std::uint32_t>& line_starts(SourceId id) const;
    std::deque<Source> sources_;
    Isolates isolates_;
    mutable std::deque<std::vector<std::uint32_t>> starts_;  // filled on first use
};

/// Columns of a terminal that a text takes: wide letters count two, combining marks none.
std::size_t display_width(std::string_view text);

/// The text with control, bidirectional and broken bytes written out (`\u{1B}`), so that no byte
/// of a file reaches a terminal as a command.
std::string shown(std::string_view text);

}  // namespace levigate
