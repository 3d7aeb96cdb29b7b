#include "grammar/misread.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

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

/// `1.000,5` and `1,000.5`: a point and a comma, of which the first parts the thousands.
std::optional<Finding> about_thousands(std::string_view text, Span line, Span number) {
    const auto mark = [&](std::uint32_t i) { return text[i] == ',' || text[i] == '.'; };
    const auto digit = [&](std::uint32_t i) {
        return i < line.end && text[i] >= '0' && text[i] <= '9';
    };
    while (number.begin > line.begin + 1 && mark(number.begin - 1) && digit(number.begin - 2)) {
        --number.begin;
        while (number.begin > line.begin && digit(number.begin - 1)) --number.begin;
    }
    while (number.end + 1 < line.end && mark(number.end) && digit(number.end + 1)) {
        ++number.end;
        while (digit(number.end)) ++number.end;
    }
    std::string plain(text.substr(number.begin, number.end - number.begin));
    const std::size_t last = plain.find_last_of(",.");
    const char thousands = plain[last] == ',' ? '.' : ',';
    const std::size_t first = plain.find(thousands);
    if (first == plain.npos || plain.find(plain[last]) != last) return std::nullopt;
    for (std::size_t at = first; at < last; at += 4)
        if (plain[at] != thousands || plain.find_first_of(",.", at + 1) != at + 4)
            return std::nullopt;
    std::string whole = plain.substr(0, last);
    std::erase(whole, thousands);
    return Finding{.code = Code::comma_decimal,
                   .message = "Write thousands without a separator.",
                   .span = number,
                   .fixes = {possible_fix(number, whole + "." + plain.substr(last + 1))}};
}

/// Both readings of `4,8 %` in a list of values: one of them with a decimal, or two.
std::optional<Finding> about_values(std::string_view text, Span line, Span number) {
    const std::string_view words = text.substr(line.begin, line.end - line.begin);
    std::string first(words.substr(0, 4));
    for (char& sign : first) sign = static_cast<char>(sign | 0x20);
    if (first != "vary" && !first.starts_with("row")) return std::nullopt;
    Span all = number;
    while (all.end < line.end && is_blank(text[all.end])) ++all.end;
    const std::uint32_t unit = all.end;
    while (all.end < line.end && !is_blank(text[all.end]) && text[all.end] != ',') ++all.end;
    const std::string measure(text.substr(unit, all.end - unit));
    if (measure.empty() || number_sign(measure[0])) return std::nullopt;
    std::string point(text.substr(number.begin, number.end - number.begin)), values = point;
    const bool several = point.find(',') != point.rfind(',');
    std::replace(point.begin(), point.end(), ',', '.');
    for (std::size_t at = values.find(','); at != values.npos; at = values.find(',', at + 1))
        values.replace(at, 1, " " + measure + ", "), at += measure.size() + 2;
    point += " " + measure;
    values += " " + measure;
    if (several)
        return Finding{.code = Code::comma_decimal,
                       .message = "Each value of a list has its measure behind it.",
                       .span = number,
                       .fixes = {possible_fix(all, values)}};
    return Finding{.code = Code::comma_decimal,
                   .message = "A comma in a list of values can be read in two ways.",
                   .span = number,
                   .advice = fmt::format("Write {} for one value, or {} for two.", point, values),
                   .fixes = {possible_fix(all, point), possible_fix(all, values)}};
}

Finding about_comma(std::string_view text, Span line, std::size_t offset) {
    const Span span = comma_number(text, line, static_cast<std::uint32_t>(line.begin + offset));
    if (auto both = about_thousands(text, line, span)) return *both;
    if (auto values = about_values(text, line, span)) return *values;
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
    {"!lots", Code::line_malformed, "There are two lots here.", "Write one."},
    {"!lot", Code::line_malformed, "A lot with `in` is put in double quotes.", "",
     "lot \"24 in blue\""},
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

/// "A name is missing here."
std::string missing(std::string_view due) {
    if (due.find(", ") != due.npos) return fmt::format("This is missing here: {}.", due);
    std::string out(due);
    const bool small = !out.empty() && out[0] >= 'a' && out[0] <= 'z';
    if (small) out[0] = static_cast<char>(out[0] - 'a' + 'A');
    return out + " is missing here.";
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
            .message = missing(wrong.due),
            .span = at,
            .example = std::move(right)};
}

/// `shade Damson like Night 8 %`, `make full of Night 8 %`: a name with an amount in it.
std::optional<Finding> about_member(std::string_view text, Span line) {
    const std::string_view words = text.substr(line.begin, line.end - line.begin);
    for (const std::string_view before : {" like ", " of "}) {
        std::size_t begin = words.find(before);
        if (begin == words.npos) continue;
        begin += before.size();
        const std::size_t name = words.find_first_not_of(' ', begin);
        std::size_t end = std::min(words.find(" / ", begin), words.size());
        while (end > begin && is_blank(words[end - 1])) --end;
        if (name == words.npos || name + 2 >= end || words[end - 1] != '%') continue;
        const std::string_view whole = words.substr(name, end - name);
        if (whole.find('"') != whole.npos || (whole[0] >= '0' && whole[0] <= '9')) continue;
        const Span span{line.source, line.begin + static_cast<std::uint32_t>(name),
                        line.begin + static_cast<std::uint32_t>(end)};
        return Finding{.code = Code::line_malformed,
                       .message = "A name with `%` in it needs double quotes.",
                       .span = span,
                       .fixes = {possible_fix(span, fmt::format("\"{}\"", shown(whole)))}};
    }
    return std::nullopt;
}

}  // namespace

bool has_own_words(const Misread& wrong) {
    constexpr std::string_view known[] = {"!comma", "!negative", "!quote", "!number"};
    return wrong.due.starts_with("the ) ") ||
           std::find(std::begin(known), std::end(known), wrong.due) != std::end(known);
}

Finding explain_misread(const Misread& wrong, std::string_view text, Span line,
                        std::string_view example) {
    if (wrong.due == "!comma") return about_comma(text, line, wrong.offset);
    if (wrong.due == "!end")
        if (auto member = about_member(text, line)) return *member;
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
                                              : "The end of this line can't be read.",
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

}  // namespace levigate
