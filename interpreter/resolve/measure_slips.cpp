// Measures that nobody knows: other words for those that are there, containers without a block,
// and numbers in front of a name.

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/resolve/slips.hpp"
#include "interpreter/resolve/unknown.hpp"

namespace levigate::resolving {

bool read_in_two_ways(std::string_view folded) { return folded == "m" || folded == "t"; }

Finding two_readings(const Context& context, Span letter, std::string_view advice) {
    return {.code = Code::unit_refused,
            .message = fmt::format("`{}` alone could be read in more than one way.",
                                   shown(context.written(letter))),
            .span = letter,
            .advice = std::string(advice)};
}

const tree::Line* line_at(const Context& context, Span span) {
    for (const LoadedFile& file : context.files) {
        if (file.tree.source != span.source) continue;
        // They come in the order of the text.
        const auto& lines = file.tree.lines;
        const auto behind = std::upper_bound(
            lines.begin(), lines.end(), span.begin,
            [](std::uint32_t at, const tree::Line& one) { return at < one.span.begin; });
        if (behind != lines.begin() && span.end <= std::prev(behind)->span.end)
            return &*std::prev(behind);
    }
    return nullptr;
}

namespace {

/// A currency by its everyday name.
bool names_money(std::string_view folded) {
    constexpr std::string_view names[] = {"dollar", "dollars", "euro",   "euros", "cent",
                                          "cents",  "franc",   "francs", "yen"};
    return std::find(std::begin(names), std::end(names), folded) != std::end(names);
}

/// A measure as it is written elsewhere, folded, and here; `or_else` where it may be another too.
struct Spelling {
    std::string_view written, here, or_else = {};
};

constexpr Spelling spellings[] = {
    {"pct", "%"},         {"p.c", "%"},         {"pc", "%", "piece"},   {"per cent", "%"},
    {"per cento", "%"},   {"percento", "%"},    {"pour cent", "%"},     {"pour-cent", "%"},
    {"por ciento", "%"},  {"por cento", "%"},   {"prozent", "%"},       {"procent", "%"},
    {"procenta", "%"},    {"gr", "g", "grain"}, {"grs", "g", "grains"}, {"gm", "g"},
    {"gms", "g"},         {"gramm", "g"},       {"gramo", "g"},         {"gramos", "g"},
    {"grammo", "g"},      {"grammi", "g"},      {"milligramm", "mg"},   {"kilo", "kg"},
    {"kilos", "kg"},      {"ccm", "mL"},        {"cm³", "mL"},          {"tropfen", "drops"},
    {"gtt", "drops"},     {"gtts", "drops"},    {"goutte", "drop"},     {"gouttes", "drops"},
    {"gota", "drop"},     {"gotas", "drops"},   {"goccia", "drop"},     {"gocce", "drops"},
    {"teil", "part"},     {"teile", "parts"},   {"partie", "part"},     {"parties", "parts"},
    {"parte", "part"},    {"partes", "parts"},  {"parti", "parts"},     {"tl", "tsp"},
    {"teelöffel", "tsp"}, {"el", "tbsp"},       {"esslöffel", "tbsp"},  {"tbs", "tbsp"},
    {"tbl", "tbsp"},      {"stk", "pieces"},    {"stück", "pieces"},    {"pcs", "pieces"},
    {"pce", "pieces"},    {"pces", "pieces"},
};

/// Where the first `count` words of the text end; 0 where there are fewer.
std::uint32_t end_of_words(std::string_view text, int count) {
    std::size_t at = 0;
    for (; count > 0; --count) {
        at = text.find_first_not_of(" \t", at);
        if (at == text.npos) return 0;
        at = std::min(text.find_first_of(" \t", at), text.size());
    }
    return static_cast<std::uint32_t>(at);
}

/// The words with which another spelling begins, and what it is here.
struct Known {
    Span words;
    std::vector<std::string> here;
};

std::optional<Known> spelt_otherwise(Context& context, Span words) {
    const std::string_view text = context.sources.text(words);
    std::string folded;
    for (const int count : {2, 1}) {
        const std::uint32_t end = end_of_words(text, count);
        if (end == 0) continue;
        const Span first{words.source, words.begin, words.begin + end};
        fold_name(text.substr(0, end), folded);
        const bool stop = folded.size() > 1 && folded.back() == '.';
        if (stop) folded.pop_back();
        for (const Spelling& one : spellings)
            if (one.written == folded) {
                Known out{first, {std::string(one.here)}};
                if (!one.or_else.empty()) out.here.emplace_back(one.or_else);
                return out;
            }
        if (stop && !read_in_two_ways(folded) && measure(context, folded))
            return Known{first, {std::string(text.substr(0, end - 1))}};
    }
    return std::nullopt;
}

/// True in a line that counts containers, so that an unknown measure is probably one.
bool counts_containers(const Context& context, Span words) {
    const tree::Line* line = line_at(context, words);
    if (!line) return false;
    const auto* had = std::get_if<tree::Have>(&line->body);
    return line->form == Form::batch || line->form == Form::make || (had && !had->name);
}

std::string singular_of(std::string name) {
    const auto ends = [&](std::string_view end) {
        return name.size() > end.size() + 1 && name.ends_with(end);
    };
    if (ends("ies"))
        name.replace(name.size() - 3, 3, "y");
    else if (ends("ches") || ends("shes") || ends("xes") || ends("sses"))
        name.resize(name.size() - 2);
    else if (ends("s") && !ends("ss"))
        name.pop_back();
    return name;
}

std::string measure_advice(const Context& context, Span words, const std::string& written) {
    if (counts_containers(context, words))
        return fmt::format("If it is a container, add a block `container {}` and under it a line "
                           "such as `holds 4 g`. If not, write a measure that is known, such as "
                           "g or mL.",
                           written_name(singular_of(written)));
    return fmt::format("Write a measure that is known, such as g or mL, or add a line `unit {} = "
                       "…`.",
                       written);
}

}  // namespace

void report_measure(Context& context, Span words) {
    if (report_measure_meant(context, words)) return;
    std::string folded;
    fold_name(context.sources.text(words), folded);
    const std::string written = shown(context.written(words));
    const auto unknown = [&](Span span, std::string advice, std::vector<Fix> fixes) {
        report(context,
               {.code = Code::unit_unknown,
                .message = fmt::format("No measure is called {}.", shown(context.written(span))),
                .span = span,
                .advice = std::move(advice),
                .fixes = std::move(fixes)});
    };
    if (names_money(folded) && !has_measure_block(context, folded))
        return unknown(words,
                       "If money is meant, write the three letters of the currency (ISO 4217), as "
                       "in USD or EUR.",
                       {});
    if (read_in_two_ways(folded)) {
        report(context, two_readings(context, words,
                                     folded == "m" ? "Write mg, mL or minim in full."
                                                   : "Write teaspoon or tablespoon in full."));
        return;
    }
    if (has_measure_block(context, folded)) return;  // broken, or there twice: said there
    if (const auto known = spelt_otherwise(context, words)) {
        std::vector<Fix> fixes;
        for (const std::string& one : known->here) fixes.push_back(possible_fix(known->words, one));
        return unknown(known->words,
                       fixes.size() == 1 ? ""
                                         : fmt::format("Write {} or {}, whichever is meant.",
                                                       known->here[0], known->here[1]),
                       fixes);
    }
    const std::vector<std::string> near = near_measure(context, folded);
    if (near.empty() && context.lost.any(in(Heading::unit) | in(Heading::container))) return;
    // A container of one's own is likelier than another one of which a word is the same.
    const bool slip =
        !near.empty() && (!counts_containers(context, words) || is_near(folded, near.front()));
    std::string advice = slip ? "" : measure_advice(context, words, written);
    if (!slip && !near.empty())
        advice += fmt::format(" The library has {}: write that if it is meant.", list_words(near));
    unknown(words, std::move(advice), near_fix(words, near));
}

namespace {

/// True where the first words name a measure that has a block: what is wrong was said there.
bool begins_with_block(Context& context, Span words) {
    const std::string_view text = context.sources.text(words);
    for (std::size_t end = text.find(' ');; end = text.find(' ', end + 1)) {
        std::string folded;
        fold_name(text.substr(0, end), folded);
        if (has_measure_block(context, folded)) return true;
        if (end == std::string_view::npos) return false;
    }
}

/// `8 copper mica`: nothing says 8 of what.
void report_bare(Context& context, Span bare, Bare where) {
    const auto number = context.sources.text(bare);
    Finding finding{.code = Code::quantity_bare,
                    .message = fmt::format("{} of what? A number alone is no amount.", number),
                    .span = bare};
    const auto offer = [&](std::string_view measure) {
        finding.fixes.push_back(possible_fix(bare, fmt::format("{} {}", number, measure)));
    };
    if (where == Bare::amount) {
        finding.advice = fmt::format("Write {0} parts, {0} g or {0} %.", number);
        offer("parts");
    }
    offer("g");
    if (where == Bare::amount) offer("%");
    report(context, std::move(finding));
}

/// True of a role, and of words that are near to a name of as many.
bool may_be_name(Context& context, std::string_view words) {
    const Sym sym = context.names.intern(words);
    if (sym < context.is_role.size() && context.is_role[sym]) return true;
    const std::vector<std::string> near = near_ingredient(context, sym);
    const auto blanks = [](std::string_view text) {
        return std::count(text.begin(), text.end(), ' ');
    };
    return !near.empty() && blanks(near.front()) == blanks(context.names.folded(sym));
}

}  // namespace

void report_no_measure(Context& context, const tree::Expr& expr, Bare where) {
    const Span words = expr.words;
    if (!expr.number) {
        report(context, {.code = Code::quantity_kind,
                         .message = "A weight stands behind `per`, and this is none.",
                         .span = words,
                         .advice = "Write a weight, as in `per 10 g`; a name that begins with "
                                   "`per` stands in double quotes."});
        return;
    }
    const std::string_view text = context.sources.text(words);
    // The words are a name, and the measure is missing.
    if (names_something(context, context.names.find(text)))
        return report_bare(context, expr.number, where);
    if (begins_with_block(context, words)) return;  // a broken measure, said at its block
    if (report_measure_meant(context, words)) return;
    if (spelt_otherwise(context, words)) return report_measure(context, words);
    if (may_be_name(context, text)) return report_bare(context, expr.number, where);
    // On a shelf a count of containers has no name behind it.
    if (where == Bare::stock && counts_containers(context, words))
        return report_measure(context, words);
    // The first word is taken for the measure; more words would only blur the place.
    report_measure(context, {words.source, words.begin, words.begin + end_of_words(text, 1)});
}

namespace {

/// What is written in front of a name and is none of it.
bool no_part_of_name(std::string_view folded) {
    constexpr std::string_view known[] = {"of",  "by weight", "by mass", "w/w", "(w/w)", "wt",
                                          "m/m", "ca.",       "ca",      "x",   "the",   "-"};
    return std::find(std::begin(known), std::end(known), folded) != std::end(known);
}

/// What is written behind a name and says more of it.
bool remark_behind_name(std::string_view text) {
    return text.starts_with("//") || text.starts_with('(') || text.starts_with("- ") ||
           (!text.empty() && text[0] >= '0' && text[0] <= '9');
}

bool ends_line(const Context& context, Span span) {
    const std::string_view text = context.sources[span.source].text;
    const std::size_t next = text.find_first_not_of(" \t", span.end);
    return next == text.npos || text[next] == '\n' || text[next] == '\r';
}

}  // namespace

bool report_more_than_name(Context& context, const Name& name) {
    constexpr std::size_t longest = 200;
    const std::string_view text = context.sources.text(name.span);
    if (text.size() > longest) return false;
    const Span in_quotes = with_quotes(context, name.span);
    if (in_quotes.begin != name.span.begin) return false;
    const auto there = [&](std::string_view words) {
        return names_something(context, context.names.find(words));
    };
    std::string folded;
    for (std::size_t at = text.find(' '); at != text.npos; at = text.find(' ', at + 1)) {
        const std::string_view before = text.substr(0, at);
        const std::string_view behind =
            text.substr(std::min(text.find_first_not_of(' ', at), text.size()));
        fold_name(before, folded);
        std::string meant;
        if (no_part_of_name(folded) && there(behind))
            meant = tidy_name(behind);
        else if (there(before) && remark_behind_name(behind) && ends_line(context, name.span))
            meant = fmt::format("{}  # {}", tidy_name(before), shown(tidy_name(behind)));
        if (meant.empty()) continue;
        report(context,
               {.code = Code::name_unknown,
                .message = fmt::format("Nothing is called {}.", shown(context.written(name.span))),
                .span = name.span,
                .fixes = {possible_fix(name.span, std::move(meant))}});
        return true;
    }
    return false;
}

}  // namespace levigate::resolving
