#include "grammar/misread.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "grammar/names.hpp"
#include "grammar/source.hpp"

namespace levigate {

namespace {

bool is_blank(char sign) { return sign == ' ' || sign == '\t'; }

/// From the place of the slip to the end of the word there; one column where nothing follows.
Span slip(std::string_view text, Span line, std::size_t offset) {
    auto at = static_cast<std::uint32_t>(line.begin + offset);
    while (at < line.end && is_blank(text[at])) ++at;
    std::uint32_t end = at;
    while (end < line.end && !is_blank(text[end]) && text[end] != '\n' && text[end] != '\r') ++end;
    return {line.source, at, std::max(end, at)};
}

bool number_sign(char sign) { return (sign >= '0' && sign <= '9') || sign == '.' || sign == '/'; }

/// The whole number around `at`.
Span whole_number(std::string_view text, Span line, Span at) {
    while (at.begin > line.begin && number_sign(text[at.begin - 1])) --at.begin;
    at.end = std::max(at.end, at.begin);
    while (at.end < line.end && number_sign(text[at.end])) ++at.end;
    return at;
}

/// A slip at a `%` is one at the number before it.
Span step_back(std::string_view text, Span line, Span at) {
    if (at.begin >= line.end || text[at.begin] != '%') return at;
    std::uint32_t begin = at.begin;
    while (begin > line.begin && is_blank(text[begin - 1])) --begin;
    const std::uint32_t end = begin;
    while (begin > line.begin && number_sign(text[begin - 1])) --begin;
    return begin < end ? Span{at.source, begin, end} : at;
}

/// From the minus to the end of the number, and of the `%` behind it.
Span with_minus(std::string_view text, Span line, Span at) {
    std::uint32_t end = at.begin;
    while (end < line.end && number_sign(text[end])) ++end;
    std::uint32_t percent = end;
    while (percent < line.end && is_blank(text[percent])) ++percent;
    if (percent < line.end && text[percent] == '%') end = percent + 1;
    while (at.begin > line.begin && text[at.begin] != '-' &&
           static_cast<unsigned char>(text[at.begin]) != 0xE2)
        --at.begin;
    return {at.source, at.begin, std::max(end, at.end)};
}

/// The quote that opens what is never closed.
Span open_quote(std::string_view text, Span line, Span at) {
    for (std::uint32_t i = std::min(at.begin, line.end); i-- > line.begin;) {
        if (text[i] == '"') return {at.source, i, i + 1};
        const std::string_view three = text.substr(i, 3);
        if (three == "\u201C" || three == "\u201D" || three == "\u201E")
            return {at.source, i, i + 3};
    }
    return at;
}

/// The number with a decimal comma around `at`.
Span comma_number(std::string_view text, Span line, std::uint32_t at) {
    const auto digit = [&](std::uint32_t i) { return text[i] >= '0' && text[i] <= '9'; };
    Span number{line.source, at, at + 1};
    while (number.begin > line.begin && digit(number.begin - 1)) --number.begin;
    while (number.end < line.end &&
           (digit(number.end) ||
            (text[number.end] == ',' && number.end + 1 < line.end && digit(number.end + 1))))
        ++number.end;
    return number;
}

/// True of `1,000`, which is a thousand to some, and one to others.
bool may_be_thousand(std::string_view number) {
    return number.size() == number.find(',') + 4 && number[0] != '0';
}

/// Points for the decimal commas from this number to the end of the line, or to a name in quotes: a
/// maker who writes one comma writes them all.
Fix with_points(std::string_view text, Span line, Span number) {
    const std::string_view beside = "./,";
    const char before = number.begin > line.begin ? text[number.begin - 1] : ' ';
    const char behind = number.end < line.end ? text[number.end] : ' ';
    Fix out = certain_fix(number, {});
    out.certain = beside.find(before) == beside.npos && behind != '.' && behind != '/';
    std::uint32_t last = number.begin;
    for (std::uint32_t i = number.begin; i + 1 < line.end; ++i) {
        if (text[i] == '"' || static_cast<unsigned char>(text[i]) == 0xE2) break;  // “ and its like
        if (text[i] != ',' || !number_sign(text[i + 1]) || !number_sign(text[i - 1])) continue;
        const Span one = comma_number(text, line, i);
        const std::string_view words = text.substr(one.begin, one.end - one.begin);
        if (words.find(',') != words.rfind(',') || may_be_thousand(words)) break;
        out.text.append(text.substr(last, i - last)).append(".");
        last = i + 1;
        out.span.end = one.end;
    }
    out.text += text.substr(last, out.span.end - last);
    return out;
}

Finding about_comma(std::string_view text, Span line, std::size_t offset) {
    const Span span = comma_number(text, line, static_cast<std::uint32_t>(line.begin + offset));
    std::string point(text.substr(span.begin, span.end - span.begin));
    const bool thousand = may_be_thousand(point);
    const bool several = point.find(',') != point.rfind(',');  // `1,5,3` is no number to anyone
    std::string joined = point;
    std::erase(joined, ',');
    std::replace(point.begin(), point.end(), ',', '.');
    if (thousand)
        return {.code = Code::comma_decimal,
                .message = "A comma in a number can be read in two ways.",
                .span = span,
                .advice = fmt::format("Write {} for a thousand and more, or {} for a "
                                      "decimal.",
                                      joined, point),
                .fixes = {possible_fix(span, joined), possible_fix(span, point)}};
    return {.code = Code::comma_decimal,
            .message = "A decimal is written with a point here, not with a comma.",
            .span = span,
            .advice = several ? "Write each number with at most one point, and a blank after each "
                                "comma between two numbers."
                              : "",
            .fixes =
                several ? std::vector<Fix>{} : std::vector<Fix>{with_points(text, line, span)}};
}

/// The comma behind a part of a list is none of it.
Span without_comma(std::string_view text, Span, Span at) {
    while (at.end > at.begin && text[at.end - 1] == ',') --at.end;
    return at;
}

Span as_it_is(std::string_view, Span, Span at) { return at; }

/// Slips that have words of their own (expected.hpp and actions.hpp raise them).
struct Slip {
    std::string_view due;
    Code code;
    std::string_view message;
    std::string_view advice;
    std::string_view example = {};  ///< both empty: a right line of the form
    Span (*place)(std::string_view text, Span line, Span at) = as_it_is;
};

constexpr Slip slips[] = {
    {"!number", Code::number_malformed, "This is not a number that can be read.", "",
     "0.5, 1/2 or 2 1/2", whole_number},
    {"!brackets", Code::line_malformed, "An amount that is reckoned out stands in brackets.", "",
     "(2 × 3 %) Dusk mica"},
    {"!negative", Code::amount_negative, "An amount can't be less than nothing.",
     "Leave the minus out; to take something out of an inherited formula, `set` a smaller amount "
     "or write `without`.",
     "", with_minus},
    {"!quote", Code::quote_open, "The double quote is never closed.",
     "Write a second \" behind the name.", "", open_quote},
    {"!share", Code::line_malformed, "A share in a label has its measure behind it.",
     "60 %, 600000 ppm or 3 in 5; a third is 100/3 %. A name that ends so stands in double "
     "quotes.",
     "", without_comma},
    {"!and", Code::line_malformed, "A blank is due before and behind `(and)`.", "",
     "label  Mica (and) Silica", without_comma},
    {"!locants", Code::line_malformed, "The comma in this name would part it in two.",
     "Put the whole name in double quotes, as in \"1,2-Hexanediol\".", "", without_comma},
    {"!stop", Code::line_malformed, "A name can't end in a full stop.",
     "Leave it out, or put the whole name in double quotes."},
    {"!empty", Code::line_malformed, "Nothing stands between the quotes.", ""},
    {"!again", Code::line_malformed, "This stands on the line twice.", ""},
    {"!lot", Code::line_malformed, "A lot's number ends before `in`.",
     "Put a number that holds the word in double quotes, as in lot \"24 in blue\"."},
};

/// `75 °C` where an amount and a name are due.
Span with_number(std::string_view text, Span line, Span at) {
    while (at.begin > line.begin && is_blank(text[at.begin - 1])) --at.begin;
    while (at.begin > line.begin && number_sign(text[at.begin - 1])) --at.begin;
    return at;
}

/// `[nano]`, as boxes print it, with what follows it without a blank.
bool is_nano_sign(std::string_view word) {
    constexpr std::string_view sign = "[nano]";
    return word.size() >= sign.size() &&
           std::equal(sign.begin(), sign.end(), word.begin(),
                      [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? b | 0x20 : b); });
}

/// Too deep, or simply not right: what has no `!` in front.
Finding about_due(const Misread& wrong, std::string_view text, Span line, Span at,
                  std::string right) {
    if (wrong.due.starts_with("maximum"))  // PEGTL's own words for its bound
        return {.code = Code::nesting_too_deep,
                .message = "Too many brackets within brackets.",
                .span = at,
                .advice = "Put a part of it into a `let`."};
    if (wrong.due.empty())
        return {.code = Code::line_malformed,
                .message = "This line can't be read.",
                .span = at,
                .example = std::move(right)};
    if (wrong.due.starts_with("the ) ") && text.substr(at.begin).starts_with("±"))
        return {.code = Code::line_malformed,
                .message = "± stands behind a whole figure with its measure, in no bracket.",
                .span = at,
                .example = "0.9 g/mL ± 0.02 g/mL"};
    if (wrong.due.starts_with("the ) "))
        return {.code = Code::line_malformed,
                .message = "A bracket is not closed.",
                .span = at,
                .advice = "Write a ) for each (."};
    if (wrong.due == "the name of an ingredient" && text.substr(at.begin).starts_with("°"))
        return {.code = Code::quantity_kind,
                .message = "An amount is a share, a weight or a volume, and this is a reading of "
                           "temperature.",
                .span = with_number(text, line, at),
                .example = "8 parts, 8 g or 8 %"};
    if (wrong.due.find("name") != std::string::npos && at.begin < at.end &&
        static_cast<unsigned char>(text[at.begin]) >= 0x80)
        return {.code = Code::line_malformed,
                .message = "This sign can't stand in a bare name.",
                .span = at,
                .advice = "Put the whole name in double quotes."};
    return {.code = Code::line_malformed,
            .message = fmt::format("Here should stand {}.", wrong.due),
            .span = at,
            .example = std::move(right)};
}

/// `Windfall mica 18 %` with its percentage in front; empty where the line doesn't end in one.
std::string amount_first(std::string_view line) {
    if (!line.ends_with('%')) return {};
    std::size_t number = line.size() - 1;
    while (number > 0 && line[number - 1] == ' ') --number;
    const std::size_t end = number;
    while (number > 0 && number_sign(line[number - 1])) --number;
    if (number == end || number == 0 || line[number - 1] != ' ') return {};
    const std::string_view name = line.substr(0, number - 1);
    return fmt::format("{}  {}", line.substr(number), name);
}

/// A line of a formula that begins with a name.
Finding without_amount(std::string_view written, Span first_word, Span line) {
    constexpr std::size_t longest = 40;  // more words are prose
    const std::string whole = shown(tidy_name(written));
    Finding out{.code = Code::line_unknown,
                .message = whole.find('%') != whole.npos
                               ? "The amount stands before the name of an ingredient."
                               : "This line has no amount.",
                .span = first_word};
    const bool name_alone = whole.find_first_of("0123456789.%") == whole.npos;
    const std::string turned = amount_first(whole);
    if (whole.size() <= longest && !turned.empty())
        out.fixes = {possible_fix(line, turned)};
    else if (whole.size() <= longest && name_alone)
        out.example = "5 %  " + whole;
    else
        out.example = "18 %  Windfall mica";
    return out;
}

/// Says which edit is meant by another word for it, as in `remove vanilla`; false where none is.
bool say_edit(Finding& out, std::string_view whole, Span line, Heading block) {
    if (block != Heading::shade && block != Heading::blend && block != Heading::variant)
        return false;
    const std::string_view written = whole.substr(0, out.span.end - out.span.begin);
    const std::string name = shown(tidy_name(whole.substr(written.size())));
    std::string folded;
    fold_name(written, folded);
    const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
        return std::find(words.begin(), words.end(), folded) != words.end();
    };
    if (name.empty()) return false;
    if (is_one_of({"remove", "delete", "drop", "omit"}))
        out.fixes = {possible_fix(line, "without " + name)};
    else if (is_one_of({"replace", "exchange"}))
        out.example = "swap OLD for NEW";
    else if (folded == "change")
        out.example = "set AMOUNT NAME";
    return !remedy(out).empty();
}

/// Of a block that holds no formula, the words that its lines begin with.
std::string what_begins_lines(Heading block) {
    if ((entry(Form::ingredient).where & in(block)) != 0)
        return "Write an amount and a name, or one of the words that this block knows.";
    std::string words;
    for (const FormWord& known : form_words()) {
        if (known.word.empty() || (known.where & in(block)) == 0) continue;
        words += fmt::format("{}`{}`", words.empty() ? "" : ", ", known.word);
    }
    return fmt::format("A line of this block begins with one of these: {}.", words);
}

}  // namespace

Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example) {
    if (wrong.due == "!comma") return about_comma(text, line, wrong.offset);
    const Span at = step_back(text, line, slip(text, line, wrong.offset));
    if (wrong.due == "!end" && at.begin < at.end && text[at.begin] == ',')
        return {.code = Code::line_malformed,
                .message = "A comma can't stand here: it would let the line go on.",
                .span = at,
                .advice = "Take the comma away; what follows it stands in a line of its own."};
    if (wrong.due == "!end" && is_nano_sign(text.substr(at.begin, at.end - at.begin))) {
        const Span sign = without_comma(text, line, at);
        return {.code = Code::line_malformed,
                .message = "Nano stands in round brackets here.",
                .span = sign,
                .fixes = {certain_fix(sign, "(nano)")}};
    }
    if (wrong.due == "!end")
        return {.code = Code::line_malformed,
                .message = at.begin == at.end ? "The line ends too soon."
                                              : "This is not understood at the end of the line.",
                .span = at,
                .example = std::string(example)};
    for (const Slip& known : slips)
        if (wrong.due == known.due)
            return {.code = known.code,
                    .message = std::string(known.message),
                    .span = known.place(text, line, at),
                    .advice = std::string(known.advice),
                    .example = std::string(!known.advice.empty()   ? ""
                                           : known.example.empty() ? example
                                                                   : known.example)};
    return about_due(wrong, text, line, at, std::string(example));
}

Finding explain_unknown(std::string_view text, Span first_word, Span line, std::string_view guess,
                        Heading block) {
    const std::string_view written =
        text.substr(first_word.begin, first_word.end - first_word.begin);
    const std::string_view whole = text.substr(line.begin, line.end - line.begin);
    const bool formula = block == Heading::shade || block == Heading::blend;
    Finding out{.code = Code::line_unknown,
                .message = fmt::format("No line begins with `{}`.", written),
                .span = first_word};
    if (!guess.empty()) out.fixes = {possible_fix(first_word, std::string(guess))};
    if (!guess.empty() || say_edit(out, whole, line, block)) return out;
    if (formula && written != "%") return without_amount(whole, first_word, line);
    if (formula) {
        out.message = "The number before `%` is missing.";
        out.example = "18 %  Windfall mica";
    } else {
        out.advice = what_begins_lines(block);
    }
    return out;
}

}  // namespace levigate
