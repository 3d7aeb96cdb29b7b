#include "grammar/classify.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <unordered_map>

#include "grammar/lines.hpp"
#include "grammar/near.hpp"

namespace levigate {

namespace {

struct Entry {
    Heading heading = Heading::none;
    Form form = Form::ingredient;
};

constexpr std::array amount_words = {"rest", "enough", "as", "half", "twice", "a", "three"};

const std::unordered_map<std::string_view, Entry>& table() {
    static const auto made = [] {
        std::unordered_map<std::string_view, Entry> entries;
        for (const HeadingWord& one : heading_words())
            entries.emplace(one.word, Entry{one.heading, Form::ingredient});
        for (const FormWord& one : form_words()) {
            const std::size_t blank = one.word.find(' ');
            if (one.word.empty()) continue;
            const auto [at, fresh] =
                entries.emplace(one.word.substr(0, blank), Entry{Heading::none, one.form});
            if (!fresh) at->second.form = one.form;
        }
        for (const std::string_view word : amount_words) entries.emplace(word, Entry{});
        return entries;
    }();
    return made;
}

bool is_ascii_letter(char sign) { return (sign | 0x20) >= 'a' && (sign | 0x20) <= 'z'; }

/// End of the run of signs up to a blank.
std::uint32_t run_end(std::string_view text, std::uint32_t at, std::uint32_t end) {
    while (at < end && text[at] != ' ' && text[at] != '\t' && text[at] != '\n' &&
           text[at] != '\r' && skip_blanks(text, at, end) == at)
        ++at;
    return at;
}

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& sign : out)
        if (sign >= 'A' && sign <= 'Z') sign = static_cast<char>(sign + 32);
    return out;
}

/// The nearest word that this block could begin a line with, or that opens a block.
void guess(LineKind& kind, std::string_view word, Heading block) {
    std::size_t best = 1000;
    const auto consider = [&](std::string_view candidate, bool heading) {
        if (!is_near(word, candidate)) return;
        const std::size_t far = distance(word, candidate);
        if (far >= best) return;
        best = far;
        kind.guess = candidate;
        kind.near_heading = heading;
    };
    for (const FormWord& form : form_words())
        if (!form.word.empty() && (form.where & in(block)) != 0) {
            const std::size_t blank = form.word.find(' ');
            consider(form.word.substr(0, blank), false);
            if (blank != std::string_view::npos && kind.guess == form.word.substr(0, blank))
                kind.guess = form.word;
        }
    for (const HeadingWord& heading : heading_words()) consider(heading.word, true);
    for (const std::string_view amount : amount_words)
        if (amount.size() > 2) consider(amount, false);
    if (kind.near_heading)
        for (const HeadingWord& heading : heading_words())
            if (heading.word == kind.guess) kind.heading = heading.heading;
    if (!kind.guess.empty() && !kind.near_heading)
        for (const FormWord& form : form_words())
            if (form.word == kind.guess) kind.form = form.form;
}

/// An edition's words are common ones, `shades` among them: elsewhere they are slips for others.
bool claimed(const Entry& found, Heading block) {
    const bool edition =
        found.form != Form::ingredient && entry(found.form).where == in(Heading::edition);
    return !edition || block == Heading::edition;
}

bool amount_sign(std::string_view text, std::uint32_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    if ((first >= '0' && first <= '9') || first == '{' || first == '(' || first == '"') return true;
    if (first == '.' || first == '-' || first == '+') return true;
    return first >= 0x80;  // ½, −, a curly quote: the grammar will tell
}

}  // namespace

LineKind classify(std::string_view text, std::uint32_t begin, std::uint32_t end, Heading block) {
    LineKind kind;
    kind.begin = begin;
    for (;;) {
        kind.word_end = run_end(text, kind.begin, end);
        std::uint32_t letters = kind.begin;
        while (letters < kind.word_end && is_ascii_letter(text[letters])) ++letters;
        const std::string word = lower(text.substr(kind.begin, kind.word_end - kind.begin));
        if (word == "private" && !kind.is_private) {
            kind.is_private = true;
            kind.begin = skip_blanks(text, kind.word_end, end);
            if (kind.begin < end) continue;
            kind.known = false;
            kind.begin = begin;
            return kind;
        }
        const auto found = table().find(word);
        if (found != table().end() && claimed(found->second, block)) {
            // A word that both opens a block and stands in one (`market`) is the latter where it
            // can.
            kind.form = found->second.form;
            const bool here = kind.form != Form::ingredient && (entry(kind.form).where & in(block));
            if (!here) kind.heading = found->second.heading;
            return kind;
        }
        if (letters == kind.begin && amount_sign(text, kind.begin)) {
            if (static_cast<unsigned char>(text[kind.begin]) < 0x80 || block != Heading::none)
                return kind;
        }
        kind.known = false;
        guess(kind, word, block);
        return kind;
    }
}

bool is_heading(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    const std::uint32_t word_end = run_end(text, begin, end);
    if (word_end - begin > 10) return false;
    const auto found = table().find(lower(text.substr(begin, word_end - begin)));
    return found != table().end() && found->second.heading != Heading::none;
}

bool is_for_records(const LineKind& kind) {
    const bool form = kind.known && kind.heading == Heading::none;
    return form && (entry(kind.form).where & in(Heading::record)) != 0;
}

}  // namespace levigate
