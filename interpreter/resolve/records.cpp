// Records of what was made. A record is about the past, so what it names may be gone; that is no
// error.

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "grammar/read.hpp"
#include "grammar/stamped.hpp"
#include "interpreter/resolve/joined.hpp"
#include "interpreter/resolve/joined_records.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/resolve/slips.hpp"

namespace levigate {

using namespace resolving;

namespace {

constexpr std::size_t digest_size = 16;  ///< signs of a fingerprint

void add_pours(Joined& joined, const tree::Line& line, std::vector<Pour>& out) {
    for (const tree::Pour& pour : std::get<tree::PourList>(line.body).pours)
        if (auto made = resolve_pour(joined, pour, false)) out.push_back(std::move(*made));
}

/// What a pour of the form `47 slim tubes` or `12 g Windfall mica` comes to, with its lot.
Made made_of(Joined& joined, const tree::Pour& pour) {
    Context& context = joined.context;
    Made out;
    out.span = pour.span;
    const auto split = split_measure(context, pour.words);
    Span name = pour.name ? pour.name.span : Span{};
    if (split && split->name.begin != split->name.end) name = split->name;
    out.amount = context.written(cover(pour.number, split ? split->measure : pour.words));
    if (name) {
        out.name = context.written(name);
        out.what = joined.ingredient(context.names.intern(context.sources.text(name)));
    }
    if (pour.lot) out.lot = context.written(pour.lot.span);
    return out;
}

void read_line(Joined& joined, const tree::Line& line, Record& out) {
    Context& context = joined.context;
    Env none;
    const auto words = [&] { return plain_text(context, std::get<tree::Text>(line.body)); };
    const auto name = [&] {
        return context.written(std::get<tree::Reference>(line.body).name.span);
    };
    switch (line.form) {
        case Form::planned: add_pours(joined, line, out.planned); break;
        case Form::weighed: add_pours(joined, line, out.weighed); break;
        case Form::by: out.by = name(); break;
        case Form::code: out.code = name(); break;
        case Form::filled: {
            tree::BatchLine size;
            size.quantity = std::get<tree::QuantityLine>(line.body).expr;
            out.filled = batch_size(context, joined.last(), size, none, line.span);
            break;
        }
        case Form::note: out.notes.push_back(words()); break;
        case Form::deviation: out.deviations.push_back(words()); break;
        case Form::said: out.said.push_back(words()); break;
        case Form::reading: out.readings.push_back(words()); break;
        case Form::commit: out.commit = name(); break;
        case Form::made:
            for (const tree::Pour& pour : std::get<tree::PourList>(line.body).pours)
                out.made.push_back(made_of(joined, pour));
            break;
        case Form::formula: out.formula = name(); break;
        default: break;
    }
}

/// Of what it is the record; what is gone since stays in words.
void read_made(Joined& joined, const tree::Block& block, Record& out) {
    Context& context = joined.context;
    if (block.made == tree::no_expr) return;
    tree::Make make = joined.file().makes[block.made];
    PlanLine line;
    if (make.open && !part_make(context, joined.last(), make, line)) return;
    if (make.quantity != tree::no_expr && !make.open) {
        Env none;
        tree::BatchLine size;
        size.quantity = make.quantity;
        line.size = batch_size(context, joined.last(), size, none, {});
    }
    out.size = line.size;
    if (make.batch) out.batch = context.written(make.batch.span);
    out.shade = joined.shade(make.shade.sym);
    if (two_finishes(context, make)) return;
    for (const Name& name : {make.variant_or_finish, make.finish})
        if (name) out.under.push_back(name.sym);
    if (out.shade != nothing) return;
    report(context,
           {.code = Code::record_shade,
            .message = fmt::format("Nothing is called {} today, so this record can't be held "
                                   "against it.",
                                   shown(context.written(make.shade.span))),
            .span = make.shade.span,
            .advice = "Name the file that the shade stands in."});
}

/// What is written instead of a day: the day that is meant, else how one is written.
void propose_day(const Context& context, Finding& finding) {
    std::string meant = day_meant(context.written(finding.span));
    if (meant.empty())
        finding.advice = "Write the day as year-month-day, as in 2026-11-25.";
    else
        finding.fixes = {certain_fix(finding.span, std::move(meant))};
}

/// What can't be meant of something that was made, where a person says it now.
void check_made(Joined& joined, const tree::Pour& pour, const Made& made) {
    Context& context = joined.context;
    if (!split_measure(context, pour.words)) return report_measure(context, pour.words);
    if (pour.bowl)
        report(context, {.code = Code::line_malformed,
                         .message = "What was made is in no bowl.",
                         .span = pour.bowl.span,
                         .example = "12 g Windfall mica lot W-1"});
    if (made.name.empty() || made.what != no_ingredient) return;
    if (joined.shade(context.names.intern(made.name)) != nothing) return;
    report(context, {.code = Code::name_unknown,
                     .message = fmt::format("Nothing is called {}.", shown(made.name)),
                     .span = pour.span,
                     .advice = "Write a name as the files have it."});
}

/// It isn't one batch, and is not shown as one.
void join_said(Context& context, Record& record, std::string_view why) {
    record.joined = true;
    report(context,
           {.code = Code::record_joined,
            .message = fmt::format("This looks like two records that became one: it has {}.", why),
            .span = record.span,
            .advice = "It is not shown. Take both records from an older copy of the file; in git, "
                      "the commits before the merge have them."});
}

/// `stamped`: what is known of it by its stamp; none in a record of an earlier version.
Record read_record(Joined& joined, const tree::Block& block, const StampedRecord* stamped) {
    Context& context = joined.context;
    Record out;
    out.span = block.span;
    out.day = context.written(block.name.span);
    out.title = context.written({block.span.source, block.name.span.end, block.span.end});
    for (std::uint32_t i = 0; i < block.count; ++i)
        read_line(joined, joined.file().lines[block.first + i], out);
    if (stamped) {
        using State = StampedRecord::State;
        out.stamp = stamped->stamp;
        out.finished = stamped->state != State::unfinished;
        out.altered = stamped->state == State::altered;
        out.cut = stamped->state == State::cut;
    } else {
        out.finished = out.formula.size() == digest_size;
        if (const std::string why = joined_words(joined.file(), block, out); !why.empty())
            join_said(context, out, why);
    }
    if (!out.finished) return out;
    read_made(joined, block, out);
    if (block.name && !is_day(out.day)) {
        Finding finding{.code = Code::record_day,
                        .message = fmt::format("{} is no day of the calendar.", shown(out.day)),
                        .span = block.name.span};
        propose_day(context, finding);
        report(context, std::move(finding));
    }
    return out;
}

/// A stretch of the text: a record, or what stands before the first.
struct Stretch {
    std::uint32_t begin = 0;
    std::uint32_t whole = 0;  ///< up to here the record is finished; `begin` where it isn't
    std::uint32_t end = 0;
    Record* record = nullptr;  ///< of an earlier version, which has no stamp to be judged by
};

std::uint32_t end_of_formula(const tree::File& file, const tree::Block& block) {
    for (std::uint32_t i = block.count; i-- > 0;)
        if (file.lines[block.first + i].form == Form::formula)
            return file.lines[block.first + i].span.end;
    return block.span.begin;
}

/// The last line of a text that isn't blank.
Span last_line(std::string_view text, Span stretch) {
    while (stretch.end > stretch.begin && static_cast<unsigned char>(text[stretch.end - 1]) <= ' ')
        --stretch.end;
    const std::size_t before = text.substr(0, stretch.end).find_last_of('\n');
    if (before != text.npos && before >= stretch.begin)
        stretch.begin = static_cast<std::uint32_t>(before + 1);
    while (stretch.begin < stretch.end && text[stretch.begin] == ' ') ++stretch.begin;
    return stretch;
}

/// What is behind the last whole record was cut off while it was written, and so was a record
/// without its last line: that is one slip, and what seems wrong in its last line is part of it.
bool judge_stretch(const Stretch& stretch, Span last, bool said, Findings& met, Findings& out) {
    bool cut = stretch.record && !stretch.record->finished;
    for (Finding& finding : met) {
        if (finding.span.source != last.source || finding.span.begin < stretch.begin ||
            finding.span.begin >= stretch.end)
            continue;  // of another stretch, or said when the files were compiled
        // A mark of an unfinished merge may be the last line: nothing was cut off by it.
        const bool mark = finding.code == Code::text_merge_marker;
        if (!mark && finding.span.begin >= last.begin && stretch.whole <= last.begin) {
            cut = true;
            continue;
        }
        if (stretch.record && finding.severity == Severity::error) stretch.record->damaged = true;
        out.push_back(std::move(finding));
    }
    // What was left of `planned` may look like a heading, and is the end of the same piece.
    if (cut && (stretch.record || !said))
        out.push_back({.code = Code::record_unfinished,
                       .message = "The writing of a record was cut off here, or its last line was "
                                  "taken away. What was written of it is left as it is.",
                       .span = last,
                       .advice = "Record the batch again, and leave this piece where it is as a "
                                 "trace."});
    return cut;
}

}  // namespace

Outcome<std::vector<Made>> resolve_made(const Sources& sources, SourceId source, Names& names,
                                        const std::vector<LoadedFile>& files,
                                        const Formulary& formulary) {
    Outcome<std::vector<Made>> out;
    auto text = read_pours_text(sources, source, names);
    out.findings = std::move(text.findings);
    if (!out.findings.empty()) return out;
    Joined joined(sources, names, files, formulary, std::move(text.value.file), out.findings);
    for (const tree::Pour& pour : text.value.pours) {
        out.value.push_back(made_of(joined, pour));
        check_made(joined, pour, out.value.back());
    }
    return out;
}

namespace {

/// Findings on lines with a stamp, and on the file as a whole: they are as they are.
void pass_stamped(std::string_view text, SourceId source, std::vector<Record>& records,
                  Findings& met, Findings& out) {
    std::unordered_map<std::string_view, std::vector<Record*>> of;
    for (Record& record : records) of[record.stamp].push_back(&record);
    std::erase_if(met, [&](Finding& finding) {
        if (finding.span.source != source) return true;  // said when the files were compiled
        const std::string_view stamp = stamp_of_line(text, finding.span.begin);
        if (stamp.empty() && finding.code != Code::record_joined) return false;
        const bool spoilt = finding.severity == Severity::error && !stamp.empty() &&
                            finding.code != Code::record_cut && finding.code != Code::record_gone;
        if (spoilt)
            for (Record* record : of[stamp]) record->damaged = true;
        out.push_back(std::move(finding));
        return true;
    });
}

/// The stretch of a block: of one with a stamp, what is read behind its last line is no part of it.
Stretch stretch_of(const tree::File& file, const tree::Block& block, const StampedRecord* stamped) {
    if (!stamped) return {block.span.begin, end_of_formula(file, block)};
    return {block.span.begin, stamped->last.end};
}

void judge_stretches(std::string_view text, SourceId source, std::vector<Stretch>& stretches,
                     Findings& met, Findings& out) {
    bool was_cut = false;
    const auto size = static_cast<std::uint32_t>(text.size());
    for (const Stretch& one : stretches) {
        const Span last = last_line(text, {source, one.begin, std::min(one.end, size)});
        was_cut = judge_stretch(one, last, was_cut, met, out);
    }
}

}  // namespace

Outcome<std::vector<Record>> resolve_records(const Sources& sources, Names& names,
                                             const std::vector<LoadedFile>& files,
                                             const Formulary& formulary, Outcome<tree::File> read) {
    Outcome<std::vector<Record>> out;
    const SourceId source = read.value.source;
    const std::string_view text = sources[source].text;
    Findings& met = read.findings;  // then also what looking up finds
    Joined joined(sources, names, files, formulary, std::move(read.value), met);
    const RecordLines lines = arrange(text, source);
    std::unordered_map<std::uint32_t, const StampedRecord*> stamped;  // by where the heading begins
    for (const StampedRecord& record : lines.records)
        if (record.heading) stamped.emplace(record.heading.begin, &record);
    std::vector<Stretch> stretches(1);
    std::vector<std::size_t> record_of{nothing};  // by stretch
    bool lone_heading = false;  // the record before has no stamp and no line
    for (const tree::Block& block : joined.file().blocks) {
        const auto found = stamped.find(block.span.begin);
        const StampedRecord* mark = found == stamped.end() ? nullptr : found->second;
        stretches.back().end = block.span.begin;
        stretches.push_back(stretch_of(joined.file(), block, mark));
        record_of.push_back(nothing);
        if (block.heading != Heading::record) continue;
        if (!mark) record_of.back() = out.value.size();
        const std::size_t before = met.size();
        out.value.push_back(read_record(joined, block, mark));
        if (lone_heading && !mark && !out.value.back().joined)
            join_said(joined.context, out.value.back(), "another heading right above it");
        lone_heading = !mark && block.count == 0;
        if (mark && !out.value.back().finished) met.resize(before);
    }
    stretches.back().end = static_cast<std::uint32_t>(text.size()) + 1;
    for (std::size_t i = 0; i < stretches.size(); ++i)
        if (record_of[i] != nothing) stretches[i].record = &out.value[record_of[i]];
    pass_stamped(text, source, out.value, met, out.findings);
    judge_stretches(text, source, stretches, met, out.findings);
    return out;
}

namespace {

/// "2026-1-5" with the zeros that were left out.
std::string with_zeros(std::string_view written) {
    if (written.size() < 8 || written[4] != '-') return {};
    const std::size_t dash = written.find('-', 5);
    if (dash == written.npos) return {};
    return fmt::format("{}-{:0>2}-{:0>2}", written.substr(0, 4), written.substr(5, dash - 5),
                       written.substr(dash + 1));
}

/// "29.11.2026" and "29/11/2026" can be read in one way only where the first number is no month.
std::string day_first(std::string_view written) {
    if (written.size() != 10 || written.substr(0, 2) <= "12") return {};
    return fmt::format("{}-{}-{}", written.substr(6), written.substr(3, 2), written.substr(0, 2));
}

}  // namespace

std::string day_meant(std::string_view written) {
    for (std::string out : {with_zeros(written), day_first(written)})
        if (is_day(out)) return out;
    return {};
}

bool is_day(std::string_view text) {
    constexpr int lengths[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
    const auto number = [&](std::size_t at, std::size_t size) {
        int out = 0;
        for (const char sign : text.substr(at, size))
            out = sign >= '0' && sign <= '9' ? out * 10 + (sign - '0') : -100000;
        return out;
    };
    const int year = number(0, 4), month = number(5, 2), day = number(8, 2);
    if (year < 0 || month < 1 || month > 12 || day < 1 || day > lengths[month - 1]) return false;
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return month != 2 || day < 29 || leap;
}

}  // namespace levigate
