// A file in canonical form: its lines in their order, each with its indentation, and the blank
// lines between them.

#include "grammar/tidy.hpp"

#include <algorithm>

#include "grammar/lines.hpp"
#include "grammar/read.hpp"
#include "grammar/tidy_parts.hpp"

namespace levigate {

namespace {

/// What stands on a line of its own, or on those of a list that goes on.
struct Entry {
    enum class Kind : std::uint8_t { heading, line, comment };
    Kind kind = Kind::line;
    Heading heading = Heading::none;
    bool raw = false;           ///< can't be read, and stays as it is
    bool blank_before = false;  ///< as it was written
    std::string text;
};
using Entries = std::vector<Entry>;

bool stands_alone(Heading heading) {
    return heading == Heading::language || heading == Heading::market || heading == Heading::use ||
           heading == Heading::unit;
}

// ---- From the tree to entries ------------------------------------------------------------------

struct Gatherer {
    std::string_view text;
    const Outcome<tree::File>& read;
    const MeasureSplit& split;
    std::size_t block = 0, line = 0;  ///< the next ones
    Entries out{};

    std::string trimmed(std::uint32_t begin, std::uint32_t end) const {
        return std::string(text.substr(begin, trim_end(text, begin, end) - begin));
    }
    bool wrong(std::uint32_t begin, std::uint32_t end) const {
        return std::ranges::any_of(read.findings, [&](const Finding& finding) {
            return finding.span.begin < end && finding.span.end > begin;
        });
    }
    static bool on(Span span, std::uint32_t begin, std::uint32_t end) {
        return span.begin >= begin && span.begin < end;
    }

    /// One line with content; it begins at `at`. Returns where the next begins.
    std::uint32_t take(std::uint32_t at, bool blank) {
        const tree::File& file = read.value;
        const PhysicalLine first = cut_line(text, at);
        const bool heading =
            block < file.blocks.size() && on(file.blocks[block].span, at, first.next);
        const bool plain = line < file.lines.size() && on(file.lines[line].span, at, first.next);
        Entry entry;
        entry.blank_before = blank;
        Span span{};
        if (heading) {
            entry.kind = Entry::Kind::heading;
            entry.heading = file.blocks[block].heading;
            span = file.blocks[block].span;
        } else if (plain) {
            span = file.lines[line].span;
        }
        PhysicalLine last = first;
        while (span && last.next < span.end) last = cut_line(text, last.next);
        entry.raw = !span || wrong(at, last.next);
        if (entry.raw) {
            last = first;
            entry.text = trimmed(skip_blanks(text, at, first.comment_end), first.comment_end);
        } else {
            entry.text =
                heading ? heading_text(text, file, file.blocks[block], first.begin, Comments::kept)
                        : line_text(text, file, file.lines[line], split, Comments::kept);
            if (last.comment < last.next)
                entry.text += "  " + trimmed(last.comment, last.comment_end);
        }
        block += heading ? 1 : 0;
        line += plain ? 1 : 0;
        out.push_back(std::move(entry));
        return last.next;
    }

    void all() {
        bool blank = false;
        std::uint32_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
        while (at < text.size()) {
            const PhysicalLine here = cut_line(text, at);
            const bool content = here.begin < here.end;
            const bool comment = !content && here.comment < here.next;
            if (content) {
                at = take(at, blank);
            } else {
                if (comment)
                    out.push_back({Entry::Kind::comment, Heading::none, false, blank,
                                   trimmed(here.comment, here.comment_end)});
                at = here.next;
            }
            blank = !content && !comment;
        }
    }
};

// ---- From entries to text ----------------------------------------------------------------------

struct Writer {
    const Entries& entries;
    std::string out{};
    const Entry* before = nullptr;  ///< the last that was no comment
    bool in_block = false;
    bool joined = false;  ///< nothing, or the comment that belongs to it, stands before a heading

    void put(const Entry& entry, bool indent, bool blank) {
        if (blank && !out.empty()) out += '\n';
        out.append(indent ? line_indent : 0, ' ');
        out += entry.text;
        out += '\n';
    }

    /// Comments behind a block's last line: a paragraph right below it is the block's, one right
    /// above the next heading is the heading's, and what has blanks on both sides stands alone.
    void between(std::size_t from, std::size_t to) {
        const bool heading_close = to < entries.size() && !entries[to].blank_before;
        std::size_t last = to - 1;  // where the last paragraph begins
        while (last > from && !entries[last].blank_before) --last;
        bool above = before && !entries[from].blank_before && !(heading_close && last == from);
        const bool indent =
            above && in_block &&
            !(before->kind == Entry::Kind::heading && stands_alone(before->heading));
        for (std::size_t i = from; i < to; ++i) {
            const bool first = i == from || entries[i].blank_before;
            if (i > from && first) above = false;
            put(entries[i], above && indent, first && !above);
        }
        joined = heading_close;
    }

    /// Returns where the comments that begin at `from` end.
    std::size_t comments(std::size_t from) {
        std::size_t to = from;
        while (to < entries.size() && entries[to].kind == Entry::Kind::comment) ++to;
        if (to == entries.size() || entries[to].kind == Entry::Kind::heading)
            between(from, to);
        else
            for (std::size_t i = from; i < to; ++i)
                put(entries[i], in_block, entries[i].blank_before);
        return to;
    }

    /// A heading of a word that needs no lines, and that has none.
    bool bare(const Entry& entry) const {
        if (entry.kind != Entry::Kind::heading || entry.raw || !stands_alone(entry.heading))
            return false;
        const Entry* next = &entry + 1;
        const Entry* end = entries.data() + entries.size();
        while (next != end && next->kind == Entry::Kind::comment) ++next;
        return next == end || next->kind == Entry::Kind::heading;
    }
    void heading(const Entry& entry, bool comment_before) {
        const bool together = before && !comment_before && bare(*before) && bare(entry) &&
                              before->heading == entry.heading;
        put(entry, false, !joined && !together);
        in_block = true;
    }

    void all() {
        for (std::size_t i = 0; i < entries.size(); ++i) {
            joined = false;
            const std::size_t from = i;
            if (entries[i].kind == Entry::Kind::comment) i = comments(i);
            if (i == entries.size()) return;
            const Entry& entry = entries[i];
            // Behind what can't be read a blank line may be what ends a list.
            const bool risky = entry.raw || (before && before->raw);
            if (entry.kind == Entry::Kind::heading)
                heading(entry, i > from);
            else
                put(entry, in_block, risky && entry.blank_before);
            before = &entry;
        }
    }
};

/// What stands in an unfinished merge, or is no shade file at all, is not ours to write anew.
bool untouchable(std::string_view text, const Findings& findings) {
    if (findings.size() > most_findings_read) return true;
    if (text.find('\0') != std::string_view::npos) return true;
    return std::ranges::any_of(findings,
                               [](const Finding& one) { return one.code == "text-merge-marker"; });
}

}  // namespace

Tidied tidy(const Sources& sources, SourceId source, Names& names, const MeasureSplit& split) {
    const std::string& text = sources[source].text;
    const Outcome<tree::File> file = read(sources, source, names);
    Tidied out{text, file.findings, false};
    if (untouchable(text, file.findings)) return out;
    Gatherer gatherer{text, file, split};
    gatherer.all();
    Writer writer{gatherer.out};
    writer.all();
    if (writer.out == text) return out;
    Sources again;
    const SourceId id = again.add({sources[source].name, writer.out, false});
    if (!same_meaning(text, file, again[id].text, read(again, id, names))) {
        out.findings.push_back({.code = "tidy-changed",
                                .message = "In canonical form this file would not say what it "
                                           "says now: a fault of levigate, not of the file.",
                                .span = {},
                                .remedy = "Nothing was written. Report the file."});
        return out;
    }
    out.text = std::move(writer.out);
    out.changed = true;
    return out;
}

}  // namespace levigate
