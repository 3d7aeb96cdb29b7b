// One line in canonical form. What the tree knows of a line stays what it is, in one spelling;
// what stands between, words and signs of the language, is cut into tokens; and the blanks follow
// from which two tokens meet.

#include <utf8proc.h>

#include <algorithm>
#include <span>
#include <utility>

#include "grammar/lines.hpp"
#include "grammar/tidy_parts.hpp"

namespace levigate {

namespace {

/// The field in front of a line: what follows it begins in one column in all of them.
constexpr std::size_t field_width = 12;

/// How a token stands beside its neighbours.
enum class Touch : std::uint8_t { apart, opens, closes, tight, comment, line_break };

struct Token {
    std::string text;
    Touch touch = Touch::apart;
    bool is_name = false;
};
using Tokens = std::vector<Token>;

struct Sign {
    std::string_view written, one;
    Touch touch;
};
constexpr Sign signs[] = {
    {"+/-", "±", Touch::apart},      {"+/\u2212", "±", Touch::apart},
    {"+/\u2013", "±", Touch::apart}, {"+/\u2014", "±", Touch::apart},
    {"+-", "±", Touch::apart},       {"+\u2212", "±", Touch::apart},
    {"+\u2013", "±", Touch::apart},  {"+\u2014", "±", Touch::apart},
    {"(and)", ",", Touch::closes},   {"(AND)", ",", Touch::closes},
    {"(And)", ",", Touch::closes},   {"(", "(", Touch::opens},
    {")", ")", Touch::closes},       {",", ",", Touch::closes},
    {"{", "{", Touch::opens},        {"}", "}", Touch::closes},
    {"/", "/", Touch::apart},        {"*", "×", Touch::apart},
    {"\u00D7", "×", Touch::apart},   {"\u00F7", "/", Touch::apart},
    {"\u2212", "-", Touch::apart},   {"\u2013", "-", Touch::apart},
    {"\u2014", "-", Touch::apart},
};

bool is_letter(char sign) { return (sign | 0x20) >= 'a' && (sign | 0x20) <= 'z'; }
bool is_line_end(char sign) { return sign == '\n' || sign == '\r'; }

std::string word_text(std::string_view written) {
    std::string out(written);
    for (char& sign : out)
        if (sign >= 'A' && sign <= 'Z') sign = static_cast<char>(sign | 0x20);
    return out == "lab" ? "Lab" : out;
}

struct Cutter {
    std::string_view text;
    Atoms atoms;  ///< those that stand somewhere, by place
    Span open{};
    const MeasureSplit* split = nullptr;
    Comments comments = Comments::left_out;
    Tokens out{};
    bool made = false;    ///< of a plan: `of` and a shade stand behind the measure
    bool unsure = false;  ///< only blanks tell where the name begins

    Cutter(std::string_view of, Atoms all, Comments wanted)
        : text(of), atoms(std::move(all)), comments(wanted) {
        std::erase_if(atoms, [](const Atom& one) { return one.part == Atom::Part::flag; });
        const auto place = [](const Atom& one) { return one.span.begin; };
        std::ranges::stable_sort(atoms, {}, place);
        const auto twice = std::ranges::unique(atoms, {}, place);
        atoms.erase(twice.begin(), twice.end());
    }

    Tokens cut(std::uint32_t begin, std::uint32_t end) {
        std::uint32_t place = begin;
        auto next = std::ranges::lower_bound(atoms, begin, {},
                                             [](const Atom& one) { return one.span.begin; });
        for (; next != atoms.end() && next->span.end <= end; ++next) {
            const Atom& atom = *next;
            between(place, atom.span.begin, atom.part);
            add(atom);
            place = atom.span.end;
        }
        between(place, end, Atom::Part::flag);
        return std::exchange(out, {});
    }

    std::string_view at(Span span) const { return text.substr(span.begin, span.end - span.begin); }

    void add(const Atom& atom) {
        using enum Atom::Part;
        if (atom.span == open) return add_open();
        std::string_view written = at(atom.span);
        Token token{{}, Touch::apart, atom.part == name || atom.part == hole};
        if (atom.part == minus)
            token = {"-", Touch::opens};
        else if (atom.part == number)
            token.text = number_text(written);
        else if (atom.part == hole)
            token.text = '{' + tidy_name(written.substr(1, written.size() - 2)) + '}';
        else if (const std::uint32_t quote = quote_at(written, 0); quote == 0)
            token.text = tidy_name(written);
        else {
            written.remove_prefix(quote);
            written.remove_suffix(written.back() == '"' ? 1 : 3);
            token.text = atom.part == path ? written : tidy_name(written);
            token.text = '"' + token.text + '"';
        }
        out.push_back(std::move(token));
    }

    /// Measure and name in one run of words.
    void add_open() {
        const std::string_view words = at(open);
        std::size_t measure = split && *split ? (*split)(words) : 0;
        unsure = measure == 0;
        if (unsure) measure = wide_gap(words);
        out.push_back({tidy_name(words.substr(0, measure))});
        std::string name = tidy_name(words.substr(measure));
        if (made && word_text(name.substr(0, 3)) == "of ") name.replace(0, 2, "of");
        if (!name.empty()) out.push_back({std::move(name), Touch::apart, true});
    }
    /// Where the maker left more than a blank, or else behind the first word.
    static std::size_t wide_gap(std::string_view words) {
        std::size_t first = words.size();
        const auto size = static_cast<std::uint32_t>(words.size());
        for (std::uint32_t i = 0; i < size; ++i) {
            const std::uint32_t next = skip_blanks(words, i, size);
            if (next == i) continue;
            const auto byte = static_cast<unsigned char>(words[i]);
            const std::uint32_t one = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : 3;
            if (next - i > one || words[i] == '\t') return i;
            first = std::min<std::size_t>(first, i);
            i = next - 1;
        }
        return first;
    }

    /// `next` is what comes behind.
    void between(std::uint32_t at, std::uint32_t end, Atom::Part next) {
        while ((at = skip_blanks(text, at, end)) < end) {
            if (is_line_end(text[at]))
                at = line_break(at, end);
            else if (text[at] == '#')
                at = comment(at, end);
            else if (is_letter(text[at]))
                at = word(at, end);
            else
                at = sign(at, end, next);
        }
    }
    std::uint32_t line_break(std::uint32_t at, std::uint32_t end) {
        // A comment that was left out leaves no line behind.
        if (out.empty() || out.back().touch != Touch::line_break)
            out.push_back({"\n" + std::string(list_indent, ' '), Touch::line_break});
        const bool two = text[at] == '\r' && at + 1 < end && text[at + 1] == '\n';
        // Bullets and indentation of the line that goes on don't count.
        return std::min(end, cut_line(text, at + (two ? 2 : 1)).begin);
    }
    std::uint32_t comment(std::uint32_t at, std::uint32_t end) {
        std::uint32_t stop = at;
        while (stop < end && !is_line_end(text[stop])) ++stop;
        if (comments == Comments::kept)
            out.push_back(
                {std::string(text.substr(at, trim_end(text, at, stop) - at)), Touch::comment});
        return stop;
    }
    std::uint32_t word(std::uint32_t at, std::uint32_t end) {
        std::uint32_t stop = at;
        while (stop < end && is_letter(text[stop])) ++stop;
        out.push_back({word_text(text.substr(at, stop - at))});
        return stop;
    }
    std::uint32_t sign(std::uint32_t at, std::uint32_t end, Atom::Part next) {
        const std::string_view rest = text.substr(at, end - at);
        for (const Sign& known : signs) {
            if (!rest.starts_with(known.written)) continue;
            // The measures of g/mL stand close; a quantity behind the slash has a number first.
            const bool rate = known.one == "/" && next == Atom::Part::measure;
            out.push_back({std::string(known.one), rate ? Touch::tight : known.touch});
            return at + static_cast<std::uint32_t>(known.written.size());
        }
        const auto byte = static_cast<unsigned char>(rest[0]);
        const std::uint32_t length = byte < 0xC0 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
        out.push_back({std::string(rest.substr(0, length))});
        return at + length;
    }
};

std::string joined(std::span<const Token> tokens) {
    std::string out;
    const Token* before = nullptr;
    for (const Token& token : tokens) {
        const bool close = !before || before->touch == Touch::opens ||
                           before->touch == Touch::tight || before->touch == Touch::line_break ||
                           token.touch == Touch::closes || token.touch == Touch::tight ||
                           token.touch == Touch::line_break;
        if (!close) out += token.touch == Touch::comment ? "  " : " ";
        out += token.text;
        before = &token;
    }
    return out;
}

/// What stands in front, padded to the field, and what follows.
std::string in_field(std::string front, const std::string& tail, std::size_t least = 1) {
    if (tail.empty()) return front;
    const std::size_t width = display_width(front);
    const std::size_t gap = width < field_width ? field_width - width : 2;
    front.append(std::max(gap, least), ' ');
    return front += tail;
}

/// `private` and the word of the form, in one spelling, and where what follows begins.
std::string front_words(std::string_view text, const tree::Line& line, std::uint32_t& at) {
    const std::string_view word = entry(line.form).word;
    std::size_t due = line.is_private ? 1 : 0;
    if (!word.empty()) due += 1 + static_cast<std::size_t>(std::ranges::count(word, ' '));
    std::string out;
    for (; due > 0; --due) {
        std::uint32_t stop = at;
        while (stop < line.span.end && is_letter(text[stop])) ++stop;
        if (!out.empty()) out += ' ';
        out += word_text(text.substr(at, stop - at));
        at = skip_blanks(text, stop, line.span.end);
    }
    return out;
}

/// Literal words keep what they hold; only their blanks become single, and the holes one spelling.
std::string prose(std::string_view text, const tree::File& file, const tree::Line& line,
                  std::uint32_t at) {
    std::string out;
    Cutter holes(text, atoms_of(text, file, line), Comments::left_out);
    const auto quotes = [&](std::uint32_t end) {
        for (; at < end; at += std::max(quote_at(text, at), 1u))
            if (quote_at(text, at) > 0) out += '"';
    };
    for (const tree::TextPiece& piece : std::get<tree::Text>(line.body).pieces) {
        quotes(piece.span.begin);
        if (piece.text)
            out += single_blanks(text.substr(at, piece.span.end - at));
        else
            out += joined(holes.cut(piece.span.begin, piece.span.end));
        at = piece.span.end;
    }
    quotes(line.span.end);
    return out;
}

/// An amount and the name of what is weighed, behind `set` or `add` or behind nothing.
std::string ingredient_text(std::string front, const tree::Ingredient& part, const Tokens& tokens,
                            bool unsure) {
    const auto behind = [&](std::string more) {
        if (front.empty()) return more;
        return front + (front == "private" ? " " : "  ") + more;
    };
    const bool quantity = part.amount.kind == tree::AmountKind::quantity ||
                          part.amount.kind == tree::AmountKind::rest;
    if (!quantity || tokens.empty() || !tokens.back().is_name) return behind(joined(tokens));
    const std::span<const Token> all(tokens);
    return in_field(behind(joined(all.first(all.size() - 1))), tokens.back().text, unsure ? 2 : 1);
}

}  // namespace

std::string number_text(std::string_view written) {
    std::string out;
    for (std::size_t i = 0; i < written.size();) {
        utf8proc_int32_t code = 0, parts[8];
        const auto length =
            utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(written.data() + i),
                             static_cast<utf8proc_ssize_t>(written.size() - i), &code);
        i += static_cast<std::size_t>(std::max<utf8proc_ssize_t>(length, 1));
        int last_class = 0;
        const auto count = utf8proc_decompose_char(
            code, parts, 8, static_cast<utf8proc_option_t>(UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT),
            &last_class);
        if (code >= 0x80 && count > 1 && !out.empty() && out.back() != ' ') out += ' ';
        for (utf8proc_ssize_t k = 0; k < count; ++k)
            out += parts[k] == 0x2044 ? '/' : static_cast<char>(parts[k]);
    }
    out = tidy_name(out);
    return out.starts_with('.') ? '0' + out : out;
}

std::string single_blanks(std::string_view text) {
    std::string out;
    const auto size = static_cast<std::uint32_t>(text.size());
    for (std::uint32_t at = 0; at < size;) {
        const std::uint32_t next = skip_blanks(text, at, size);
        out += next > at ? ' ' : text[at];
        at = std::max(next, at + 1);
    }
    return out;
}

std::string line_text(std::string_view text, const tree::File& file, const tree::Line& line,
                      const MeasureSplit& split, Comments comments) {
    std::uint32_t at = line.span.begin;
    std::string front = front_words(text, line, at);
    if (std::holds_alternative<tree::Text>(line.body))
        return in_field(std::move(front), prose(text, file, line, at));
    Cutter cutter(text, atoms_of(text, file, line), comments);
    cutter.open = open_words(file, line.body);
    cutter.split = &split;
    cutter.made = line.form == Form::make;
    const Tokens tokens = cutter.cut(at, line.span.end);
    if (const auto* part = std::get_if<tree::Ingredient>(&line.body))
        return ingredient_text(std::move(front), *part, tokens, cutter.unsure);
    if (line.form == Form::let) return front + ' ' + joined(tokens);
    if (line.form != Form::batch) return in_field(std::move(front), joined(tokens));
    const std::span<const Token> all(tokens);
    return in_field(std::move(front), tokens.front().text + "  " + joined(all.subspan(1)));
}

std::string heading_text(std::string_view text, const tree::File& file, const tree::Block& block,
                         std::uint32_t begin, Comments comments) {
    return joined(Cutter(text, atoms_of(text, file, block), comments).cut(begin, block.span.end));
}

std::string tidy_line(std::string_view text, const tree::File& file, const tree::Line& line,
                      const MeasureSplit& split) {
    return line_text(text, file, line, split, Comments::left_out);
}

std::string tidy_heading(std::string_view text, const tree::File& file, const tree::Block& block) {
    return heading_text(text, file, block, block.span.begin, Comments::left_out);
}

}  // namespace levigate
