#include "grammar/read.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "grammar/classify.hpp"
#include "grammar/commas.hpp"
#include "grammar/conflict.hpp"
#include "grammar/forms_table.hpp"
#include "grammar/lines.hpp"
#include "grammar/list_meant.hpp"
#include "grammar/misread.hpp"
#include "grammar/misspelt.hpp"
#include "grammar/not_text.hpp"
#include "grammar/pasted.hpp"
#include "grammar/stamped.hpp"

namespace levigate {

namespace {
struct Reader {
    std::string_view text;
    Draft draft;
    tree::File& file;
    Findings& findings;
    std::uint32_t at = 0;
    Span broken_off{};               ///< the last line, if it was an amount alone
    Span text_above{}, text_here{};  ///< the line just above and this one, if they are words
    bool stray_said = false;         ///< the lines before the first heading are one slip
    bool misplaced_said = false;     ///< a run of lines that belong elsewhere is one slip
    std::size_t said_before = 0;     ///< findings that are about no line that can't be read
    Conflict conflict{};
    LinePlace place{};   ///< where the line stands, if it has a record's stamp
    bool whole = false;  ///< it is of a record that is as it was written

    Heading block() const {
        return file.blocks.empty() ? Heading::none : file.blocks.back().heading;
    }
    Span span(std::uint32_t begin, std::uint32_t end) const { return {file.source, begin, end}; }
};

/// The block has lost a line; `formula` where that may have been part of its formula.
void damage(Reader& reader, bool formula) {
    if (reader.file.blocks.empty()) return;
    tree::Block& block = reader.file.blocks.back();
    block.damaged = true;
    block.formula_lost = block.formula_lost || formula;
}

/// One that is for readers begins its line with `##` and a blank: a ruler of many `#` doesn't.
void add_comment(Reader& reader, const PhysicalLine& line) {
    const std::uint32_t begin = line.comment, end = line.comment_end;
    const bool shared = line.begin == line.end && reader.text.substr(begin, 2) == "##" &&
                        (begin + 2 == end || skip_blanks(reader.text, begin + 2, end) > begin + 2);
    reader.file.comments.push_back({reader.span(begin, end), shared});
}

bool touches_formula(Form form) {
    return form <= Form::let || form == Form::from || (form >= Form::vary && form <= Form::row);
}

PastedLine pasted(const Reader& reader, const LineKind& kind, std::uint32_t end) {
    return {reader.text,    reader.span(kind.begin, end), reader.span(kind.begin, kind.word_end),
            reader.block(), reader.draft.names,           reader.text_above};
}

/// What a line is that nothing here begins like, if it is plain; it is said then.
bool say_pasted(Reader& reader, const LineKind& kind, std::uint32_t end) {
    if (kind.known || reader.file.blocks.empty()) return false;
    Guess guess = kind.guess.empty() ? Guess::none : Guess::near;
    if (guess == Guess::near && reads_as_guessed(reader.text, kind, end, reader.draft.names))
        guess = Guess::reads;
    auto said = explain_pasted(pasted(reader, kind, end), guess);
    if (!said) return false;
    reader.findings.push_back(std::move(*said));
    damage(reader, true);
    return true;
}

/// The finding for a line that begins with a word that nothing knows.
Finding unknown_word(Reader& reader, const LineKind& kind, std::uint32_t begin, std::uint32_t end) {
    Finding out =
        explain_unknown(reader.text, reader.span(kind.begin, kind.word_end),
                        reader.span(begin, end), kind.guess, reader.block(), reader.draft.names);
    if (kind.guess.empty()) return out;
    Fix& fix = out.fixes.front();
    fix.certain = surely_meant(reader.text, kind, end, reader.draft.names);
    // `upp to`: the second word of two is there already.
    const std::size_t blank = kind.guess.find(' ');
    const std::uint32_t next = skip_blanks(reader.text, kind.word_end, end);
    if (blank != kind.guess.npos &&
        reader.text.substr(next).starts_with(kind.guess.substr(blank + 1)))
        fix.span.end = next + static_cast<std::uint32_t>(kind.guess.size() - blank - 1);
    return out;
}

void open_block(Reader& reader, const LineKind& kind, std::uint32_t line_begin, std::uint32_t end) {
    const std::uint32_t begin = kind.begin;
    if (kind.known && kind.heading == Heading::language && !reader.file.blocks.empty()) {
        // It opens no block: what follows belongs to the one before.
        reader.findings.push_back({.code = Code::line_misplaced,
                                   .message = "`language` stands at the file's start, before all "
                                              "headings.",
                                   .span = reader.span(begin, kind.word_end),
                                   .advice = "Move this line up, or leave it out."});
        return;
    }
    tree::Block block;
    block.heading = kind.heading;
    block.span = reader.span(begin, end);
    block.first = static_cast<std::uint32_t>(reader.file.lines.size());
    const std::size_t exprs = reader.file.exprs.size();
    const char* origin = reader.text.data();
    // A misspelt heading is read from behind its word, as if it had been spelt.
    std::optional<Misread> wrong;
    if (kind.known) {
        wrong = read_heading(kind.heading, origin + begin, origin + end, reader.draft, block);
    } else {
        reader.findings.push_back(unknown_word(reader, kind, begin, end));
        block.damaged = true;
        const std::uint32_t name = skip_blanks(reader.text, kind.word_end, end);
        if (name < end) block.name = reader.draft.name(reader.span(name, end));
    }
    if (kind.is_private)
        reader.findings.push_back(
            {.code = Code::line_misplaced,
             .message = "`private` stands before a line of a block, and keeps no whole block back.",
             .span = reader.span(line_begin, line_begin + 7),
             .advice = "Take it out here, or write it before each line that is to stay with you."});
    if (wrong) {
        reader.file.exprs.resize(exprs);
        block.value = tree::no_expr;
        block.like = {};
        block.damaged = block.formula_lost = true;
        reader.findings.push_back(explain_pasted_heading(
            pasted(reader, kind, end), kind.heading,
            explain_misread(*wrong, reader.text, block.span,
                            heading_words()[static_cast<std::size_t>(kind.heading) - 1].example)));
    }
    reader.file.blocks.push_back(block);
    const std::string_view heading = reader.text.substr(begin, end - begin);
    if (wrong && heading.find_first_of(",:") != std::string_view::npos)
        add_list_meant(reader.text, reader.file, reader.findings.back());
    reader.stray_said = reader.misplaced_said = false;
}

/// The example of an ingredient's line with a name that is there.
std::string in_own_words(const Reader& reader, Form form, std::string example) {
    if (form > Form::without) return example == "(2 × 3 %) Dusk mica" ? "(2 × 3 %)" : example;
    for (const tree::Block& block : reader.file.blocks)
        if ((block.heading == Heading::material || block.heading == Heading::blend) && block.name)
            return in_her_words(example, shown(tidy_name(reader.draft.at(block.name.span))));
    return in_her_words(example, "NAME");
}

/// A record that is as it was written can hold what this version can't read.
void say_later(Reader& reader, const LineKind& kind) {
    const Span word = reader.span(kind.begin, kind.word_end);
    reader.findings.push_back(explain_later(word, shown(reader.draft.at(word))));
}

void add_line(Reader& reader, const LineKind& kind, std::uint32_t begin, std::uint32_t end) {
    const FormWord& known = entry(kind.form);
    const Span word = reader.span(kind.begin, kind.word_end);
    if ((known.where & in(reader.block())) == 0) {
        if (!reader.misplaced_said) {
            reader.findings.push_back(
                explain_pasted_form(pasted(reader, kind, end), kind.form,
                                    explain_misplaced(reader.block(), kind.form, word)));
            if ((known.where & in(Heading::shade)) != 0)
                add_list_meant(reader.text, reader.file, reader.findings.back());
        }
        reader.misplaced_said = true;
        damage(reader, touches_formula(kind.form) || kind.form == Form::up_to);
        return;
    }
    reader.misplaced_said = false;
    tree::Line line;
    line.form = kind.form;
    line.is_private = kind.is_private;
    line.span = reader.span(begin, end);
    line.word_begin = word.begin;
    line.word_end = word.end;
    if (kind.form == Form::ingredient)
        if (auto number = explain_list_number(pasted(reader, kind, end))) {
            reader.findings.push_back(std::move(*number));
            return damage(reader, true);
        }
    const std::size_t exprs = reader.file.exprs.size();
    const char* origin = reader.text.data();
    auto wrong = read_form(kind.form, origin + kind.begin, origin + end, reader.draft, line.body);
    if (!wrong) {
        if (std::holds_alternative<tree::Text>(line.body)) reader.text_here = line.span;
        reader.file.lines.push_back(std::move(line));
        ++reader.file.blocks.back().count;
        return;
    }
    reader.file.exprs.resize(exprs);
    if (reader.whole) return say_later(reader, kind);
    if (kind.form == Form::ingredient && wrong->offset == end - kind.begin &&
        wrong->due == "the name of an ingredient")
        reader.broken_off = reader.span(kind.begin, end);
    Finding said =
        explain_misread(*wrong, reader.text, reader.span(kind.begin, end),
                        example_of(kind.form, reader.text.substr(kind.begin, end - kind.begin)));
    said.example = in_own_words(reader, kind.form, std::move(said.example));
    if (!has_own_words(*wrong))
        said = explain_pasted_form(pasted(reader, kind, end), kind.form, std::move(said));
    reader.findings.push_back(std::move(said));
    damage(reader, touches_formula(kind.form));
}

void stray_line(Reader& reader, const LineKind& kind, std::uint32_t end) {
    if (reader.stray_said) return;
    reader.stray_said = true;
    const Span line = reader.span(kind.begin, end);
    const auto remark = explain_pasted_remark(pasted(reader, kind, end));
    reader.findings.push_back(
        {.code = Code::line_without_heading,
         .message = "This line stands under no heading.",
         .span = line,
         .advice = "Put a heading above it, such as `shade NAME`. If the line was wrapped on its "
                   "way here, join it to the one before.",
         .fixes = remark ? remark->fixes : std::vector<Fix>{}});
}

/// What stands under an amount alone is its name, if it is no line of its own: one slip.
bool joins(Reader& reader, const LineKind& kind, std::uint32_t end) {
    const Span amount = std::exchange(reader.broken_off, {});
    if (!amount || kind.known || !kind.guess.empty()) return false;
    Finding& said = reader.findings.back();
    said.message = "The name of the ingredient stands behind its amount, on the same line.";
    said.advice.clear();
    said.example.clear();
    const auto words = [&](std::uint32_t begin, std::uint32_t until) {
        return shown(tidy_name(reader.text.substr(begin, until - begin)));
    };
    said.fixes = {possible_fix(reader.span(amount.begin, end),
                               words(amount.begin, amount.end) + "  " + words(kind.begin, end))};
    return true;
}

/// One line of meaning, already joined.
void read_line(Reader& reader, std::uint32_t begin, std::uint32_t end) {
    const LineKind kind = classify(reader.text, begin, end, reader.block());
    if (reader.whole && !is_for_records(kind)) return say_later(reader, kind);
    if (joins(reader, kind, end) || say_pasted(reader, kind, end)) return;
    if (kind.heading != Heading::none) return open_block(reader, kind, begin, end);
    if (reader.file.blocks.empty()) return stray_line(reader, kind, end);
    if (!kind.known) {
        reader.findings.push_back(unknown_word(reader, kind, begin, end));
        return damage(reader, kind.guess.empty() || touches_formula(kind.form));
    }
    add_line(reader, kind, begin, end);
}

/// True of a line that is not read: a mark of a merge, or what stands on its other side.
bool skip_conflict(Reader& reader, const PhysicalLine& line) {
    const Marker marker = merge_marker(reader.text.substr(reader.at, line.next - reader.at));
    const Span mark = reader.span(reader.at, reader.at + 7);
    const Passed passed = pass(reader.conflict, marker, mark, reader.findings);
    if (passed == Passed::lost) damage(reader, true);
    return passed != Passed::read;
}

/// A line that can't be read at all. Where it is a heading, its block is still opened, nameless:
/// the lines below are not those of the block before.
void lose_line(Reader& reader, const PhysicalLine& line) {
    const LineKind kind = classify(reader.text, line.begin, line.end, reader.block());
    if (line.begin < line.end && kind.known && kind.heading != Heading::none) {
        tree::Block block;
        block.heading = kind.heading;
        block.span = reader.span(line.begin, line.end);
        block.first = static_cast<std::uint32_t>(reader.file.lines.size());
        reader.file.blocks.push_back(block);
        reader.stray_said = reader.misplaced_said = false;
    }
    if (reader.file.blocks.empty()) reader.stray_said = true;
    damage(reader, true);
}

/// Joins the lines that follow one that ends in a comma. Returns the end of the whole.
std::uint32_t join(Reader& reader, PhysicalLine& line) {
    std::uint32_t end = line.end;
    const PhysicalLine first = line;
    while (reader.text[end - 1] == ',') {
        PhysicalLine next = cut_line(reader.text, line.next);
        // A line that is only a comment doesn't end the list.
        while (next.begin == next.end && next.comment < next.next && next.next > line.next) {
            add_comment(reader, next);
            line = next;
            next = cut_line(reader.text, line.next);
        }
        const bool nothing = next.begin == next.end;
        const bool alone = !nothing && stands_alone(reader.text, first, next, reader.block());
        if (nothing || alone || is_heading(reader.text, next.begin, next.end) ||
            !check_characters(reader.text, next.begin, next.end, reader.file.source,
                              reader.findings)) {
            reader.findings.push_back(explain_trailing_comma(reader.file.source, end, alone));
            return end - 1;
        }
        if (next.comment < next.next) add_comment(reader, next);
        end = next.end;
        line = next;
    }
    return end;
}

void read_physical(Reader& reader) {
    reader.text_above = std::exchange(reader.text_here, {});
    PhysicalLine line = cut_line(reader.text, reader.at);
    const std::uint32_t begin = line.begin;
    const bool stamped = reader.place.record != LinePlace::none;
    if (!stamped && skip_conflict(reader, line)) {
        reader.at = line.next;
        return;
    }
    line.end = std::min(line.end, reader.place.until);
    if (line.next - reader.at > longest_line) {
        reader.findings.push_back({.code = Code::text_line_too_long,
                                   .message = "This line is longer than any that can be read.",
                                   .span = reader.span(begin, begin + 1),
                                   .advice = "Write it as several lines."});
        damage(reader, true);
    } else if (!line.plain && !check_characters(reader.text, reader.at, line.comment_end,
                                                reader.file.source, reader.findings)) {
        lose_line(reader, line);
    } else {
        if (line.comment < line.next) add_comment(reader, line);
        if (line.begin < line.end) {
            const bool open = !stamped && ends_in_comma(reader.text, line, reader.block());
            const std::uint32_t end = open ? join(reader, line) : line.end;
            read_line(reader, begin, end);
        }
    }
    reader.at = line.next;
}

/// True, and said, where so much is wrong that the rest is left.
bool too_much(Reader& reader) {
    if (reader.findings.size() - reader.said_before < most_findings_read) return false;
    reader.findings.push_back(explain_too_much(reader.span(reader.at, reader.at)));
    return true;
}

/// Lines with the stamps of records, each record in one piece. Of one that was cut off, one finding
/// tells all that is wrong with it.
void read_records_of(Reader& reader, const RecordLines& lines) {
    reader.conflict.both_sides = true;
    reader.findings = findings_of(lines);
    reader.said_before = reader.findings.size();
    std::uint32_t read = reader.at;  // a list without a stamp may go on behind its end
    for (const LinePlace& place : lines.order) {
        reader.place = {};
        reader.whole = false;
        if (place.record == LinePlace::none) {
            for (reader.at = std::max(place.at, read); reader.at < place.until;) {
                read_physical(reader);
                if (too_much(reader)) return;
            }
            read = reader.at;
            continue;
        }
        const auto state = lines.records[place.record].state;
        const std::size_t said = reader.findings.size();
        reader.at = place.at;
        reader.place = place;
        reader.whole = state == StampedRecord::State::whole && place.until == LinePlace::none;
        read_physical(reader);
        if (state == StampedRecord::State::unfinished) reader.findings.resize(said);
        if (too_much(reader)) return;
    }
}

}  // namespace

Outcome<tree::File> read(const Sources& sources, SourceId source, Names& names, Reads what) {
    Outcome<tree::File> out;
    out.value.source = source;
    const std::string_view text = sources[source].text;
    Reader reader{text, Draft{names, out.value, text, text.data()}, out.value, out.findings};
    if (text.substr(0, 3) == "\xEF\xBB\xBF") reader.at = 3;
    const auto count = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
    out.value.lines.reserve(count + 1);
    out.value.exprs.reserve(count + 1);
    reader.conflict.both_sides = what == Reads::records;
    if (auto other = what == Reads::shades ? not_plain_text(text, source) : std::nullopt) {
        out.findings.push_back(std::move(*other));
        return out;
    }
    if (const RecordLines lines = arrange(text, source); !lines.order.empty())
        read_records_of(reader, lines);
    else
        while (reader.at < text.size() && !too_much(reader)) read_physical(reader);
    return out;
}

}  // namespace levigate
