#include "grammar/stamped.hpp"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

#include <fmt/format.h>

#include "grammar/classify.hpp"
#include "grammar/lines.hpp"
#include "grammar/stamp_parts.hpp"

namespace levigate {

namespace {

using State = StampedRecord::State;

/// More than a file of the size that is read has if they are records.
constexpr std::size_t most_records = 50'000;

enum class Kind : std::uint8_t { plain, heading, body };

/// A line as it is in the file.
struct FileLine {
    std::uint32_t at = 0, begin = 0, end = 0, next = 0;  ///< begin and end without blanks around
    Kind kind = Kind::plain;
    std::string_view stamp;
    std::uint32_t content = 0, content_end = 0;
};

FileLine cut(std::string_view text, std::uint32_t at) {
    FileLine line;
    line.at = at;
    std::size_t end = text.find_first_of("\r\n", at);
    if (end == text.npos) end = text.size();
    line.next = static_cast<std::uint32_t>(
        std::min(text.size(), end + (text.substr(end, 2) == "\r\n" ? 2 : 1)));
    line.begin = at;
    line.end = static_cast<std::uint32_t>(end);
    while (line.begin < line.end && is_stamp_blank(text[line.begin])) ++line.begin;
    while (line.end > line.begin && is_stamp_blank(text[line.end - 1])) --line.end;
    line.content = line.begin;
    line.content_end = line.end;
    constexpr std::uint32_t whole = stamp_size + 2;
    if (line.end - line.begin < whole) return line;
    // As a mail quotes it.
    std::uint32_t first = line.begin;
    while (first < line.end && (text[first] == '>' || is_stamp_blank(text[first]))) ++first;
    if (line.end - first < whole) return line;
    const auto stamp_at = [&](std::uint32_t place) {
        const std::string_view inside = text.substr(place + 1, stamp_size);
        return text[place] == '[' && text[place + whole - 1] == ']' && is_stamp(inside)
                   ? inside
                   : std::string_view();
    };
    if (const auto stamp = stamp_at(first); !stamp.empty()) {
        line.content = first + whole;
        if (line.content < line.end && !is_stamp_blank(text[line.content])) return line;
        line.kind = Kind::body;
        line.stamp = stamp;
    } else if (line.end - first > whole && text.substr(first, 7) == "record " &&
               is_stamp_blank(text[line.end - whole - 1])) {
        line.stamp = stamp_at(line.end - whole);
        if (line.stamp.empty()) return line;
        line.kind = Kind::heading;
        line.content = first;
        line.content_end = line.end - whole;
    }
    while (line.content < line.content_end && is_stamp_blank(text[line.content])) ++line.content;
    while (line.content_end > line.content && is_stamp_blank(text[line.content_end - 1]))
        --line.content_end;
    return line;
}

/// What the last line says: `end 9 lines, 5f1d07c2a94e63b8`.
struct End {
    bool there = false;
    bool torn = false;  ///< a piece of such a line, and no more
    std::size_t lines = 0;
    std::string_view digest;
};

End read_end(std::string_view content) {
    End out;
    if (!begins_with_word(content, "end")) return out;
    out.there = true;
    std::string_view rest = stamp_trimmed(content.substr(3));
    std::size_t digits = 0;
    while (digits < rest.size() && digits < 6 && rest[digits] >= '0' && rest[digits] <= '9')
        out.lines = out.lines * 10 + static_cast<std::size_t>(rest[digits++] - '0');
    rest = rest.substr(digits);
    constexpr std::string_view due = " lines, ";
    const std::size_t same = std::min(rest.size(), due.size());
    const std::string_view hex = rest.substr(same);
    const bool fits = rest.substr(0, same) == due.substr(0, same) && hex.size() <= digest_size &&
                      hex.find_first_not_of("0123456789abcdef") == hex.npos;
    out.torn = fits && hex.size() < digest_size;
    if (fits && hex.size() == digest_size) out.digest = hex;
    return out;
}

std::vector<std::string_view> read_after(std::string_view content) {
    std::vector<std::string_view> out;
    content = content.substr(5);
    while (!content.empty()) {
        const std::size_t comma = std::min(content.find(','), content.size());
        if (const auto one = stamp_trimmed(content.substr(0, comma)); is_stamp(one))
            out.push_back(one);
        content.remove_prefix(std::min(comma + 1, content.size()));
    }
    return out;
}

/// What is kept of a line of a record, of which a file can have very many.
struct RecordLine {
    std::uint32_t begin = 0, end = 0, content = 0, content_end = 0;
    Kind kind = Kind::plain;
};

/// All lines with one stamp, as far as they belong to one copy of the record.
struct Group {
    StampedRecord record;
    std::vector<RecordLine> lines;
    std::size_t added = 0;  ///< of them without a stamp: put in by hand
    std::uint64_t digest = 0;
};

class Arranger {
public:
    Arranger(std::string_view text, SourceId source) : text_(text), source_(source) {}

    RecordLines run() {
        std::uint32_t at = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
        while (at < text_.size() && groups_.size() <= most_records) {
            const FileLine line = cut(text_, at);
            at = line.next;
            if (line.kind == Kind::plain)
                plain(line);
            else
                stamped_line(line);
        }
        RecordLines out;
        if (at < text_.size()) out.left_off = Span{source_, at, at};
        out.gone = std::move(gone_);
        for (Group& group : groups_) judge(group);
        find_repeated();
        put_in_order(out);
        for (Group& group : groups_) out.records.push_back(std::move(group.record));
        return out;
    }

private:
    Span span(const RecordLine& line) const { return {source_, line.begin, line.end}; }
    template <typename Line>
    std::string_view content(const Line& line) const {
        return text_.substr(line.content, line.content_end - line.content);
    }

    void stamped_line(const FileLine& line) {
        const bool heading = line.kind == Kind::heading;
        auto [place, fresh] = latest_.emplace(line.stamp, groups_.size());
        // A second heading begins another copy, save where the first line of this one is missing.
        if (!fresh && heading && groups_[place->second].record.heading) {
            place->second = groups_.size();
            fresh = true;
        }
        if (fresh) {
            items_.push_back({line.at, line.next, static_cast<std::uint32_t>(groups_.size())});
            groups_.emplace_back().record.stamp = line.stamp;
        }
        Group& group = groups_[place->second];
        if (heading) group.record.heading = {source_, line.content, line.content_end};
        current_ = place->second;
        add(group, line);
    }

    static void add(Group& group, const FileLine& line) {
        group.lines.push_back({line.begin, line.end, line.content, line.content_end, line.kind});
    }

    /// Lines without a stamp that are behind each other are read in one go.
    void add_plain(const FileLine& line) {
        if (!items_.empty() && items_.back().group == LinePlace::none &&
            items_.back().end == line.at)
            items_.back().end = line.next;
        else
            items_.push_back({line.at, line.next, LinePlace::none});
    }

    /// A line without a stamp right below one that has it was put in by hand.
    void plain(const FileLine& line) {
        const std::string_view words = content(line);
        const bool heading = line.begin < line.end && is_heading(text_, line.begin, line.end);
        if (words.starts_with('#')) comment(words);
        if (heading || words.empty()) current_ = LinePlace::none;
        const bool part =
            current_ != LinePlace::none && !words.empty() && words[0] != '#' &&
            merge_marker(text_.substr(line.at, line.next - line.at)) == Marker::none &&
            words.find_first_not_of('\0') != words.npos;
        if (!part) return add_plain(line);
        Group& group = groups_[current_];
        if (torn_stamp(words, group.record.stamp)) return;
        add(group, line);
        ++group.added;
    }

    /// "[k7m", where the writing was cut off.
    static bool torn_stamp(std::string_view words, std::string_view stamp) {
        return words[0] == '[' && stamp.starts_with(words.substr(1));
    }

    void comment(std::string_view words) {
        words = stamp_trimmed(words.substr(std::min(words.find_first_not_of('#'), words.size())));
        if (!begins_with_word(words, "gone")) return;
        words = stamp_trimmed(words.substr(4)).substr(0, stamp_size);
        if (is_stamp(words)) gone_.push_back(words);
    }

    void judge(Group& group) const {
        StampedRecord& record = group.record;
        const auto first =
            std::find_if(group.lines.begin(), group.lines.end(),
                         [](const RecordLine& l) { return l.kind == Kind::heading; });
        if (first != group.lines.end()) std::rotate(group.lines.begin(), first, first + 1);
        StampDigest digest;
        digest.take(record.stamp);
        End end;
        bool end_is_last = false;
        for (const RecordLine& line : group.lines) {
            const End here = line.kind == Kind::body ? read_end(content(line)) : End{};
            end_is_last = here.there && !end.there;
            if (here.there && !end.there) {
                end = here;
                continue;
            }
            digest.take(content(line));
            if (line.kind == Kind::body && begins_with_word(content(line), "after")) {
                const auto more = read_after(content(line));
                record.after.insert(record.after.end(), more.begin(), more.end());
                record.after_span = {source_, line.content, line.content_end};
            }
        }
        group.digest = digest.value();
        record.first = span(group.lines.front());
        record.last = span(group.lines.back());
        record.lines = group.lines.size();
        record.stated = end.lines;
        record.state = state_of(group, end, end_is_last);
    }

    static State state_of(const Group& group, const End& end, bool end_is_last) {
        const std::size_t there = group.lines.size() - group.added;
        if (!group.record.heading) return State::headless;
        if (!end.there || (end.torn && end_is_last)) return State::unfinished;
        if (group.lines.size() < end.lines) return State::cut;
        const bool same = end_is_last && there == end.lines && group.added == 0 &&
                          end.digest == fmt::format("{:016x}", group.digest);
        return same ? State::whole : State::altered;
    }

    void find_repeated() {
        std::unordered_set<std::uint64_t> seen;  // the stamp is part of the digest
        for (Group& group : groups_)
            if (group.record.state == State::whole && !seen.insert(group.digest).second)
                group.record.state = State::repeated;
    }

    void put_in_order(RecordLines& out) const {
        if (groups_.empty()) return;
        for (const auto& [at, end, group] : items_) {
            if (group == LinePlace::none) {
                out.order.push_back({at, end, LinePlace::none});
                continue;
            }
            const State state = groups_[group].record.state;
            if (state == State::headless || state == State::repeated) continue;
            for (const RecordLine& one : groups_[group].lines) {
                const std::string_view words = content(one);
                if (one.kind == Kind::body &&
                    (read_end(words).there || begins_with_word(words, "after")))
                    continue;
                out.order.push_back({one.content,
                                     one.kind == Kind::heading ? one.content_end : LinePlace::none,
                                     group});
            }
        }
    }

    /// A record, or lines without a stamp from `at` up to `end`.
    struct Item {
        std::uint32_t at, end, group;
    };
    std::string_view text_;
    SourceId source_;
    std::vector<Group> groups_;
    std::vector<Item> items_;
    std::unordered_map<std::string_view, std::size_t> latest_;
    std::size_t current_ = LinePlace::none;  ///< to which a line without a stamp would belong
    std::vector<std::string_view> gone_;
};

bool any_stamp(std::string_view text) {
    for (std::size_t at = text.find('['); at != text.npos; at = text.find('[', at + 1))
        if (at + stamp_size + 1 < text.size() && text[at + stamp_size + 1] == ']' &&
            is_stamp(text.substr(at + 1, stamp_size)))
            return true;
    return false;
}

}  // namespace

RecordLines arrange(std::string_view text, SourceId source) {
    return any_stamp(text) ? Arranger(text, source).run() : RecordLines{};
}

std::string_view stamp_of_line(std::string_view text, std::uint32_t at) {
    const std::size_t before = text.substr(0, at).find_last_of("\r\n");
    return cut(text, before == text.npos ? 0 : static_cast<std::uint32_t>(before + 1)).stamp;
}

std::vector<StampedHeading> stamped_headings(std::string_view text) {
    std::vector<StampedHeading> out;
    for (std::uint32_t at = 0; at < text.size();) {
        const FileLine line = cut(text, at);
        at = line.next;
        if (line.kind == Kind::heading)
            out.push_back({line.stamp, text.substr(line.content, line.content_end - line.content)});
    }
    return out;
}

std::string heading_beside_records(std::string_view text) {
    for (std::uint32_t at = 0; at < text.size();) {
        const FileLine line = cut(text, at);
        at = line.next;
        if (line.kind == Kind::plain && line.begin < line.end &&
            is_heading(text, line.begin, line.end) &&
            !begins_with_word(text.substr(line.begin, line.end - line.begin), "record"))
            return std::string(text.substr(line.begin, line.end - line.begin));
    }
    return {};
}

}  // namespace levigate
