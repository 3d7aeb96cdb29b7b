// Lines of which the first word says nothing, or nothing in their block.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/misread.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"

namespace levigate {

namespace {

/// A line of a formula that begins with a name, or with words.
Finding without_amount(std::string_view written, Span first_word, Span line, const Names& names) {
    constexpr std::size_t longest = 40;  // more words are prose
    const std::string whole = shown(tidy_name(written));
    const bool percent = whole.find('%') != whole.npos;
    Finding out{.code = Code::line_unknown,
                .message = percent ? "The amount stands before the name of an ingredient."
                                   : "This line has no amount.",
                .span = first_word};
    const bool short_name =
        whole.size() <= longest && whole.find_first_of("0123456789.%:\"") == whole.npos;
    if (names.find(whole) != no_name) {
        out.example = "5 %  " + whole;
    } else if (percent) {
        out.advice = "Write an amount, a blank and a name. Words for readers stand behind `note` "
                     "or #.";
    } else if (short_name) {
        out.advice = fmt::format("If it is an ingredient, write its amount before it, as in `5 %  "
                                 "{0}`; a comment begins with #, as in `# {0}`.",
                                 whole);
        out.fixes = {possible_fix(line, "# " + whole)};
    } else {
        out.advice = "Write an amount, a blank and a name. Words for readers stand behind `note` "
                     "or #.";
        out.fixes = {possible_fix(line, "# " + whole)};
    }
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

Finding explain_unknown(std::string_view text, Span first_word, Span line, std::string_view guess,
                        Heading block, const Names& names) {
    const std::string_view written =
        text.substr(first_word.begin, first_word.end - first_word.begin);
    const std::string_view whole = text.substr(line.begin, line.end - line.begin);
    const bool formula = block == Heading::shade || block == Heading::blend;
    Finding out{.code = Code::line_unknown,
                .message = fmt::format("No line begins with `{}`.", written),
                .span = first_word};
    if (!guess.empty()) out.fixes = {possible_fix(first_word, std::string(guess))};
    if (!guess.empty() || say_edit(out, whole, line, block)) return out;
    if (formula && written != "%") return without_amount(whole, first_word, line, names);
    if (formula) {
        out.message = "The number before `%` is missing.";
        const std::string name = shown(tidy_name(whole.substr(1)));
        out.example = "18 %  " + (name.empty() ? "NAME" : name);
    } else {
        out.advice = what_begins_lines(block);
    }
    return out;
}

std::string_view example_of(Form form, std::string_view line) {
    if (form == Form::ingredient && line.starts_with("enough"))
        return "enough soft base to bring the lake to 5 %";
    if (form == Form::ingredient && line.find("much") != std::string_view::npos)
        return "as much kaolin as the base";
    return entry(form).example;
}

Finding explain_misplaced(Heading block, Form form, Span word) {
    const FormWord& known = entry(form);
    std::string holders;
    for (const HeadingWord& heading : heading_words()) {
        if ((known.where & in(heading.heading)) == 0) continue;
        if (!holders.empty()) holders += ", ";
        holders += heading.word;
    }
    const std::string_view here = levigate::word(block);
    if (form == Form::ingredient)
        return {.code = Code::line_misplaced,
                .message = fmt::format("A {} holds no ingredients.", here),
                .span = word,
                .advice = block == Heading::shelf
                              ? "Write `have` before the amount."
                              : "Put a heading above it, `shade NAME` or `blend NAME`."};
    std::string advice = fmt::format("It belongs under: {}.", holders);
    // A variant changes formulas; what else differs makes another shade.
    if (block == Heading::variant && (known.where & in(Heading::shade)) != 0)
        advice = fmt::format("{}, or write `shade NEW like SHADE` with this line in it.",
                             form == Form::let ? "Write `set` and the amount"
                                               : "Write it in the shade that takes the variant");
    return {.code = Code::line_misplaced,
            .message = fmt::format("`{}` has no meaning in {} {}.", known.word,
                                   here.front() == 'e' ? "an" : "a", here),
            .span = word,
            .advice = std::move(advice)};
}

}  // namespace levigate
