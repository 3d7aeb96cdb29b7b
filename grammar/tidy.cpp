// A file in canonical form: its lines in their order, each with its indentation, and the blank
// lines between them.

#include "grammar/tidy.hpp"

#include <algorithm>

#include "grammar/lines.hpp"
#include "grammar/read.hpp"
#include "grammar/tidy_parts.hpp"

namespace levigate {

namespace {

/// What stands on a line of its own, or on those of a list that goes on. Its text is made when it
/// is written: that of a whole file would take more room than the file.
struct TidyLine {
    enum class Kind : std::uint8_t { heading, line, comment };
    Kind kind = Kind::line;
    Heading heading = Heading::none;
    bool raw = false;           ///< can't be read, and stays as it is
    bool blank_before = false;  ///< as it was written
    std::uint32_t at = 0;       ///< where its first line begins
    std::uint32_t index = 0;    ///< of the tree's block or line
};
using TidyLines = std::vector<TidyLine>;

bool stands_alone(Heading heading) {
    return heading == Heading::language || heading == Heading::market || heading == Heading::use ||
           heading == Heading::unit || heading == Heading::rate;
}

// ---- From the tree to entries ------------------------------------------------------------------

struct Gatherer {
    std::string_view text;
    const Outcome<tree::File>& read;
    std::uint32_t block = 0, line = 0;  ///< the next ones
    TidyLines out{};

    bool wrong(std::uint32_t begin, std::uint32_t end) const {
        return std::ranges::any_of(read.findings, [&](const Finding& finding) {
            return finding.span.begin < end && finding.span.end > begin;
        });
    }
    /// The next of `all`, if it begins on this line.
    template <typename T>
    static const T* on(const std::vector<T>& all, std::uint32_t index, const PhysicalLine& line) {
        return index < all.size() && all[index].span.begin < line.next ? &all[index] : nullptr;
    }

    /// One line with content; it begins at `at`. Returns where the next begins.
    std::uint32_t take(std::uint32_t at, bool blank) {
        PhysicalLine last = cut_line(text, at);
        const std::uint32_t first_end = last.next;
        const tree::Block* heading = on(read.value.blocks, block, last);
        const tree::Line* plain = on(read.value.lines, line, last);
        TidyLine entry{.blank_before = blank, .at = at};
        if (heading) {
            entry.kind = TidyLine::Kind::heading;
            entry.heading = heading->heading;
            entry.index = block++;
        } else if (plain) {
            entry.index = line++;
        }
        const std::uint32_t end = heading ? heading->span.end : plain ? plain->span.end : 0;
        while (last.next < end) last = cut_line(text, last.next);
        entry.raw = (!heading && !plain) || wrong(at, last.next);
        out.push_back(entry);
        return entry.raw ? first_end : last.next;
    }

    void all() {
        bool blank = false;
        std::uint32_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
        while (at < text.size()) {
            const PhysicalLine here = cut_line(text, at);
            const bool content = here.begin < here.end;
            const bool comment = !content && here.comment < here.next;
            if (comment)
                out.push_back({.kind = TidyLine::Kind::comment, .blank_before = blank, .at = at});
            at = content ? take(at, blank) : here.next;
            blank = !content && !comment;
        }
    }
};

// ---- From entries to text ----------------------------------------------------------------------

struct Writer {
    std::string_view text;
    const tree::File& file;
    const MeasureSplit& split;
    const TidyLines& entries;
    std::string out{};
    const TidyLine* before = nullptr;  ///< the last that was no comment
    bool in_block = false;
    bool joined = false;  ///< nothing, or the comment that belongs to it, stands before a heading

    std::string_view trimmed(std::uint32_t begin, std::uint32_t end) const {
        return text.substr(begin, trim_end(text, begin, end) - begin);
    }
    void put(const TidyLine& entry, bool indent, bool blank) {
        if (blank && !out.empty()) out += '\n';
        out.append(indent ? line_indent : 0, ' ');
        PhysicalLine line = cut_line(text, entry.at);
        if (entry.kind == TidyLine::Kind::comment)
            out += trimmed(line.comment, line.comment_end);
        else if (entry.raw)
            out += trimmed(skip_blanks(text, entry.at, line.comment_end), line.comment_end);
        else
            put_read(entry, line);
        out += '\n';
    }
    void put_read(const TidyLine& entry, PhysicalLine line) {
        std::uint32_t end = 0;
        if (entry.kind == TidyLine::Kind::heading) {
            const tree::Block& block = file.blocks[entry.index];
            out += heading_text(text, file, block, line.begin, Comments::kept);
            end = block.span.end;
        } else {
            out += line_text(text, file, file.lines[entry.index], split, Comments::kept);
            end = file.lines[entry.index].span.end;
        }
        while (line.next < end) line = cut_line(text, line.next);
        if (line.comment == line.next) return;
        out += "  ";
        out += trimmed(line.comment, line.comment_end);
    }

    bool indented(const TidyLine& entry) const {
        return entry.at < text.size() && (text[entry.at] == ' ' || text[entry.at] == '\t');
    }

    /// Of comments that touch both the block above and the heading below: the indented ones at
    /// their head are the block's, the others the heading's.
    void between_both(std::size_t from, std::size_t to) {
        std::size_t own = from;
        while (own < to && indented(entries[own])) put(entries[own++], true, false);
        for (std::size_t i = own; i < to; ++i) put(entries[i], false, i == own);
        joined = own < to;
    }

    /// Comments behind a block's last line: a paragraph right below it is the block's, one right
    /// above the next heading is the heading's, and what has blanks on both sides stands alone.
    void between(std::size_t from, std::size_t to) {
        const bool heading_close = to < entries.size() && !entries[to].blank_before;
        std::size_t last = to - 1;  // where the last paragraph begins
        while (last > from && !entries[last].blank_before) --last;
        const bool touches = before && !entries[from].blank_before;
        if (touches && heading_close && last == from && in_block &&
            !(before->kind == TidyLine::Kind::heading && stands_alone(before->heading)))
            return between_both(from, to);
        bool above = touches && !(heading_close && last == from);
        const bool indent =
            above && in_block &&
            !(before->kind == TidyLine::Kind::heading && stands_alone(before->heading));
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
        while (to < entries.size() && entries[to].kind == TidyLine::Kind::comment) ++to;
        if (to == entries.size() || entries[to].kind == TidyLine::Kind::heading)
            between(from, to);
        else
            for (std::size_t i = from; i < to; ++i)
                put(entries[i], in_block, entries[i].blank_before);
        return to;
    }

    /// A heading of a word that needs no lines, and that has none.
    bool bare(const TidyLine& entry) const {
        if (entry.kind != TidyLine::Kind::heading || entry.raw || !stands_alone(entry.heading))
            return false;
        const TidyLine* next = &entry + 1;
        const TidyLine* end = entries.data() + entries.size();
        while (next != end && next->kind == TidyLine::Kind::comment) ++next;
        return next == end || next->kind == TidyLine::Kind::heading;
    }
    void heading(const TidyLine& entry, bool comment_before) {
        const bool together = before && !comment_before && bare(*before) && bare(entry) &&
                              before->heading == entry.heading;
        put(entry, false, !joined && !together);
        in_block = true;
    }

    void all() {
        for (std::size_t i = 0; i < entries.size(); ++i) {
            joined = false;
            const std::size_t from = i;
            if (entries[i].kind == TidyLine::Kind::comment) i = comments(i);
            if (i == entries.size()) return;
            const TidyLine& entry = entries[i];
            // Behind what can't be read a blank line may be what ends a list.
            const bool risky = entry.raw || (before && before->raw);
            if (entry.kind == TidyLine::Kind::heading)
                heading(entry, i > from);
            else
                put(entry, in_block, risky && entry.blank_before);
            before = &entry;
        }
    }
};

/// What stands in an unfinished merge, or is no shade file at all, is not ours to write anew; nor
/// is a file of records, which is only ever added to.
bool untouchable(std::string_view text, const Outcome<tree::File>& file) {
    if (file.findings.size() > most_findings_read) return true;
    if (text.find('\0') != std::string_view::npos) return true;
    if (std::ranges::any_of(file.value.blocks, [](const tree::Block& block) {
            return block.heading == Heading::record;
        }))
        return true;
    return std::ranges::any_of(
        file.findings, [](const Finding& one) { return one.code == Code::text_merge_marker; });
}

std::string laid_out(std::string_view text, const Outcome<tree::File>& file,
                     const MeasureSplit& split) {
    Gatherer gatherer{text, file};
    const tree::File& tree = file.value;
    gatherer.out.reserve(tree.blocks.size() + tree.lines.size() + tree.comments.size());
    gatherer.all();
    Writer writer{text, tree, split, gatherer.out};
    writer.out.reserve(text.size() + gatherer.out.size() * 8);  // that much indentation and more
    writer.all();
    return std::move(writer.out);
}

/// Names in it are isolated: as if they weren't.
Tidied tidy_isolated(const Source& source, Outcome<tree::File>& file, Names& names,
                     const MeasureSplit& split) {
    Sources plain;
    const std::string text = without_isolates(source.text, source.original);
    Tidied out = tidy(plain, plain.add({source.name, text, false}), names, split);
    std::erase_if(out.findings, [](const Finding& one) { return one.code != Code::tidy_changed; });
    if (!out.findings.empty()) out.text = source.bytes();
    file.findings.insert(file.findings.end(), out.findings.begin(), out.findings.end());
    out.findings = std::move(file.findings);
    out.changed = out.text != source.bytes();
    return out;
}

}  // namespace

Tidied tidy(const Sources& sources, Outcome<tree::File>&& file, Names& names,
            const MeasureSplit& split) {
    const Source& source = sources[file.value.source];
    const std::string& text = source.text;
    Tidied out;
    const bool stays = untouchable(text, file);
    if (!stays && !source.original.empty()) return tidy_isolated(source, file, names, split);
    std::string written = stays ? source.bytes() : laid_out(text, file, split);
    out.changed = written != source.bytes();
    const std::uint64_t meaning = out.changed ? meaning_of(text, file) : 0;
    out.findings = std::move(file.findings);
    file = {};
    Sources again;
    const SourceId id = again.add({source.name, std::move(written), false});
    if (out.changed && meaning != meaning_of(again[id].text, read(again, id, names))) {
        out.changed = false;
        out.findings.push_back({.code = Code::tidy_changed,
                                .message = "In canonical form this file would not say what it "
                                           "says now: a fault of levigate, not of the file.",
                                .span = {},
                                .advice = "Nothing was written. Report the file."});
    }
    out.text = out.changed ? again[id].text : source.bytes();
    return out;
}

Tidied tidy(const Sources& sources, SourceId source, Names& names, const MeasureSplit& split) {
    return tidy(sources, read(sources, source, names), names, split);
}

}  // namespace levigate
