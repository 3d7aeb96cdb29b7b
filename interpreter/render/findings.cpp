#include "interpreter/render/findings.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "grammar/names.hpp"

namespace levigate {
namespace {

// ---- The line around a place -------------------------------------------------------------------

bool starts_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }

/// The end of the letter that begins at `at`, with what is drawn over it.
std::size_t next_letter(std::string_view text, std::size_t at) {
    std::size_t end = at + 1;
    while (end < text.size() && !starts_letter(text[end])) ++end;
    return end;
}

/// As many letters from the left as fit.
std::string head_of(std::string_view text, std::size_t columns) {
    if (display_width(text) <= columns) return std::string(text);
    std::size_t end = 0, width = 0;
    while (end < text.size()) {
        std::size_t next = next_letter(text, end);
        width += display_width(text.substr(end, next - end));
        if (width + 1 > columns) break;
        end = next;
    }
    return std::string(text.substr(0, end)) + "…";
}

/// As many letters from the right as fit.
std::string tail_of(std::string_view text, std::size_t columns) {
    if (display_width(text) <= columns) return std::string(text);
    std::size_t begin = text.size(), width = 0;
    while (begin > 0) {
        std::size_t before = begin - 1;
        while (before > 0 && !starts_letter(text[before])) --before;
        width += display_width(text.substr(before, begin - before));
        if (width + 1 > columns) break;
        begin = before;
    }
    return "…" + std::string(text.substr(begin));
}

/// Bytes of a very long line that are looked at on either side of a place.
constexpr std::size_t enough_bytes = 1000;

std::string_view clipped_tail(std::string_view text) {
    if (text.size() <= enough_bytes) return text;
    text.remove_prefix(text.size() - enough_bytes);
    while (!text.empty() && !starts_letter(text[0])) text.remove_prefix(1);
    return text;
}

std::string_view clipped_head(std::string_view text) {
    std::size_t end = std::min(text.size(), enough_bytes);
    while (end > 0 && end < text.size() && !starts_letter(text[end])) --end;
    return text.substr(0, end);
}

// ---- Words and colours -------------------------------------------------------------------------

struct Ink {
    bool colour;
    std::string operator()(std::string_view code, std::string_view text) const {
        if (!colour || text.empty()) return std::string(text);
        return fmt::format("\x1B[{}m{}\x1B[0m", code, text);
    }
};

std::string_view ink_of(Severity severity) {
    constexpr std::array<std::string_view, 3> inks = {"1;31", "1;33", "1;36"};
    return inks[static_cast<std::size_t>(severity)];
}

std::string place(const Sources& sources, Span span) {
    if (span.source >= sources.size()) return "levigate";
    Position at = sources.position(span);
    return fmt::format("{}:{}:{}", shown(sources[span.source].name), at.line, at.column);
}

/// A sentence of ours, in which a name keeps to itself. Text to be written stays as it is.
std::string said(const Sources& sources, std::string_view sentence) {
    return sources.isolates().in_sentence(shown(sentence));
}

void append_marked_line(std::string& out, const Sources& sources, Span span, std::string_view words,
                        std::string_view ink, char mark, Ink paint) {
    if (span.source >= sources.size()) return;
    Excerpt line = excerpt(sources, span);
    std::string number = std::to_string(sources.position(span).line);
    std::size_t gutter = std::max<std::size_t>(5, number.size());
    out += fmt::format("{:>{}} | {}\n", number, gutter, line.text);
    std::string under(line.marked, mark);
    if (!words.empty()) under += " " + said(sources, words);
    out += fmt::format("{:>{}} | {}{}\n", "", gutter, std::string(line.before, ' '),
                       paint(ink, under));
}

/// Of whole lines the likeliest is enough.
constexpr std::size_t most_offered = 60;

/// Where several names may be meant, the next likeliest too.
void append_other_names(std::string& out, const Finding& finding) {
    std::size_t offered = remedy(finding).size();
    for (std::size_t i = 1; i < finding.fixes.size(); ++i) {
        const Fix& fix = finding.fixes[i];
        if (fix.certain || fix.text.empty() || fix.span != finding.fixes.front().span) return;
        offered += fix.text.size();
        if (offered > most_offered) return;
        out += fmt::format(", or {}", shown(fix.text));
    }
}

void append_remedy(std::string& out, const Sources& sources, const Finding& finding, Ink paint) {
    std::string_view words = remedy(finding);
    if (words.empty()) return;
    if (!finding.advice.empty()) {
        out += fmt::format("  {}\n", said(sources, words));
        return;
    }
    out += paint("1", finding.fixes.empty() ? "  as in:" : "  write instead:");
    const bool several = words.find('\n') != std::string_view::npos;
    while (!words.empty()) {
        const std::string_view line = words.substr(0, words.find('\n'));
        words.remove_prefix(std::min(line.size() + 1, words.size()));
        out += several ? "\n      " : " ";
        out += shown(line);
    }
    if (!several) append_other_names(out, finding);
    out += '\n';
}

void append_fixes(std::string& out, const Sources& sources, const Finding& finding, Ink paint) {
    for (const Fix& fix : finding.fixes)
        out += fmt::format("{} {}\n", paint("1", fix.certain ? "  certain:" : "  possible:"),
                           fix_words(sources.text(fix.span), fix.text));
}

}  // namespace

std::string fix_words(std::string_view was, std::string_view text) {
    if (text.empty()) return "delete " + shown(was);
    if (was.empty()) return fmt::format("put {} here", shown(tidy_name(text)));
    return fmt::format("{} in place of {}", shown(text), shown(was));
}

// The place keeps up to six tenths of the line, what stands before it up to three.
Excerpt excerpt(const Sources& sources, Span span, std::size_t columns) {
    std::string_view line = sources.line(span);
    std::uint32_t line_begin = sources.line_begin(span);
    std::size_t begin = std::max(span.begin, line_begin) - line_begin;
    begin = std::min(begin, line.size());
    std::size_t end = std::max(span.end, line_begin) - line_begin;
    end = std::clamp(end, begin, line.size());
    std::string_view raw_before = clipped_tail(line.substr(0, begin));
    std::string before = shown(raw_before);
    if (raw_before.size() < begin) before.insert(0, "…");
    std::string marked = shown(clipped_head(line.substr(begin, end - begin)));
    std::string after = shown(clipped_head(line.substr(end)));
    if (display_width(before) + display_width(marked) + display_width(after) > columns) {
        marked = head_of(marked, columns * 6 / 10);
        std::size_t left = columns - display_width(marked);
        std::size_t wanted_after = std::min(display_width(after), left - columns * 3 / 10);
        before = tail_of(before, left - wanted_after);
        after = head_of(after, left - display_width(before));
    }
    Excerpt out;
    out.before = display_width(before);
    out.marked = std::max<std::size_t>(1, display_width(marked));
    out.text = before + marked + after;
    return out;
}

std::string_view severity_word(Severity severity) {
    constexpr std::array<std::string_view, 3> words = {"error", "warning", "advice"};
    return words[static_cast<std::size_t>(severity)];
}

void append_finding(std::string& out, const Sources& sources, const Finding& finding,
                    FindingStyle style) {
    Ink paint{style.colour};
    std::string_view ink = ink_of(finding.severity);
    out += fmt::format("{}: {} {} ({})\n", paint("1", place(sources, finding.span)),
                       paint(ink, fmt::format("{}:", severity_word(finding.severity))),
                       said(sources, finding.message), row_of(finding.code).name);
    if (style.brief) return;
    append_marked_line(out, sources, finding.span, finding.here, ink, '^', paint);
    for (const Note& note : finding.notes) {
        if (!note.span) {
            out += fmt::format("  {}\n", said(sources, note.text));
            continue;
        }
        out += fmt::format("  and {}\n", place(sources, note.span));
        append_marked_line(out, sources, note.span, note.text, "1;34", '-', paint);
    }
    const bool all = style.fixes && !finding.fixes.empty();
    if (!all || !finding.advice.empty()) append_remedy(out, sources, finding, paint);
    if (all) append_fixes(out, sources, finding, paint);
    out += '\n';
}

Findings each_once(const Findings& findings) {
    using Key = std::tuple<Code, SourceId, std::uint32_t, std::uint32_t, std::string_view>;
    std::set<Key> seen;
    Findings out;
    for (const Finding& finding : findings) {
        const Span& span = finding.span;
        if (seen.emplace(finding.code, span.source, span.begin, span.end, finding.message).second)
            out.push_back(finding);
    }
    return out;
}

std::string count_words(const Findings& findings) {
    std::array<std::size_t, 3> counts = {};
    for (const Finding& finding : findings) ++counts[static_cast<std::size_t>(finding.severity)];
    constexpr std::array<std::string_view, 3> one = {"error", "warning", "piece of advice"};
    constexpr std::array<std::string_view, 3> many = {"errors", "warnings", "pieces of advice"};
    std::string out;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] == 0) continue;
        if (!out.empty()) out += ", ";
        out += fmt::format("{} {}", counts[i], counts[i] == 1 ? one[i] : many[i]);
    }
    return out;
}

Findings rules_together(Findings findings) {
    const auto unconfirmed = [](const Finding& finding) {
        return finding.code == Code::rule_unconfirmed;
    };
    const auto count = std::count_if(findings.begin(), findings.end(), unconfirmed);
    if (count < 2) return findings;
    std::erase_if(findings, unconfirmed);
    findings.push_back({Code::rule_unconfirmed,
                        fmt::format("{} of the rules used here are not confirmed by a text of the "
                                    "law.",
                                    count),
                        Span{},
                        "Give `levigate check` the option `--sources` to see each, with what was "
                        "read and where."});
    return findings;
}

std::string findings_text(const Sources& sources, const Findings& findings, FindingStyle style) {
    std::string out;
    const Findings once = each_once(findings);
    for (const Finding& finding : style.sources ? once : rules_together(once))
        append_finding(out, sources, finding, style);
    if (!style.brief && !once.empty()) out += count_words(once) + "\n";
    return out;
}

}  // namespace levigate
