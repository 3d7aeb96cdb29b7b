// Words on lines of their own: comments of other languages, captions, rules, sentences, and the
// second half of a note that was wrapped.

#include <fmt/format.h>

#include <algorithm>

#include "grammar/pasted_amount.hpp"
#include "grammar/pasted_parts.hpp"
#include "grammar/pasted_scan.hpp"
#include "grammar/source.hpp"

namespace levigate {

Finding unknown_line(const PastedLine& pasted, std::string message, std::vector<Fix> fixes,
                     std::string advice) {
    return {.code = Code::line_unknown,
            .message = std::move(message),
            .span = pasted.first_word,
            .advice = std::move(advice),
            .fixes = std::move(fixes)};
}

namespace {

bool no_words(std::string_view line) {
    return std::none_of(line.begin(), line.end(), [](char sign) {
        return letter_at({&sign, 1}, 0) || digit_at({&sign, 1}, 0);
    });
}

Finding as_remark(const PastedLine& pasted, std::string message, std::string_view words,
                  bool certain) {
    if (holds_amount(pasted, words))
        return unknown_line(pasted, std::move(message), {},
                            "Begin it with # if it is a comment; if not, with the amount.");
    const std::string made = fmt::format("# {}", shown(tidy_name(words)));
    return unknown_line(
        pasted, std::move(message),
        {certain ? certain_fix(pasted.line, made) : possible_fix(pasted.line, made)});
}

/// `Phase A`, `Part 2 (75 °C)`, `Method`, `Total 100 %`, `Ingredient | %`.
bool is_caption(std::string_view line) {
    const std::size_t part =
        word_length(line, 0, {"phase", "part", "section", "stage", "teil", "schritt", "étape"});
    if (part > 0 && part < line.size() && line[part] == ' ') {
        const std::size_t one = part + 1;
        const bool ends = one + 1 >= line.size() || !(letter_at(line, one + 1));
        if ((letter_at(line, one) || digit_at(line, one)) && ends && line[line.size() - 1] != '%')
            return true;
    }
    const std::size_t word = word_length(
        line, 0, {"ingredients",  "ingredient",  "method",   "procedure",     "directions",
                  "instructions", "preparation", "formula",  "recipe",        "notes",
                  "zutaten",      "rohstoffe",   "rohstoff", "raw materials", "raw material",
                  "ingrédients",  "ingrédient",  "inci",     "name",          "material",
                  "total",        "totals",      "sum",      "subtotal",      "summe",
                  "gesamt",       "yield"});
    const std::size_t rest = line.find_first_not_of(' ', word);
    return word > 0 &&
           (rest == line.npos || !letter_at(line, rest) || is_pasted_amount(line.substr(rest)));
}

}  // namespace

bool is_sentence(std::string_view line) {
    constexpr long few = 4;
    if (line.empty()) return false;
    const bool stop = std::string_view(".!?").find(line.back()) != std::string_view::npos;
    return (stop && line.find(' ') != line.npos) || line.find(". ") != line.npos ||
           std::count(line.begin(), line.end(), ' ') >= few;
}

bool is_work(std::string_view line) {
    return word_length(line, 0, {"melt", "stir",    "mix",   "heat",   "grind", "work",
                                 "pour", "cool",    "blend", "weigh",  "sift",  "sieve",
                                 "warm", "whisk",   "fill",  "remove", "place", "take",
                                 "beat", "combine", "rest",  "wet",    "bring", "keep"}) > 0;
}

Finding as_sentence(const PastedLine& pasted, std::string_view line) {
    const std::string words = shown(tidy_name(line));
    // Amounts are never lost in words for readers, nor are options.
    if (holds_amount(pasted, line)) {
        std::vector<Fix> work;
        if (is_work(words) && holds(pasted.block, Form::step))
            work = {possible_fix(pasted.line, "step  " + words)};
        std::string advice = work.empty() ? "Write an amount, a blank and a name; words for "
                                            "readers stand behind `note` or `step`."
                                          : "";
        return unknown_line(pasted, "This line can't be read.", std::move(work),
                            std::move(advice));
    }
    for (const FormWord& form : form_words()) {
        const std::size_t word = form.word.empty() ? 0 : word_length(words, 0, {form.word});
        if (word == 0 || word >= words.size() || words[word] != ':') continue;
        return unknown_line(pasted, fmt::format("Write `{}` without a colon.", form.word), {},
                            fmt::format("Write it as in `{}`.", form.example));
    }
    std::vector<Fix> fixes;
    const Fix note = possible_fix(pasted.line, "note  " + words);
    const Fix step = possible_fix(pasted.line, "step  " + words);
    if (!holds(pasted.block, Form::step))
        fixes = {note};
    else
        fixes = is_work(words) ? std::vector{step, note} : std::vector{note, step};
    fixes.push_back(possible_fix(pasted.line, "# " + words));
    return unknown_line(pasted, "A sentence begins with `note` or `step`, or is a comment.",
                        std::move(fixes));
}

bool is_told(std::string_view line) {
    const std::size_t colon = line.find(": ");
    return colon != line.npos && colon > 0 && !is_pasted_amount(line.substr(colon + 2)) &&
           std::count(line.begin(), line.begin() + static_cast<long>(colon), ' ') < 3;
}

std::optional<Finding> explain_wrapped(const PastedLine& pasted) {
    if (!pasted.above || pasted.line.begin >= pasted.line.end) return std::nullopt;
    const auto first = static_cast<unsigned char>(pasted.text[pasted.line.begin]);
    const bool small = (first >= 'a' && first <= 'z') || first >= 0x80;
    const char last = pasted.text[pasted.above.end - 1];
    const std::string_view between =
        pasted.text.substr(pasted.above.end, pasted.line.begin - pasted.above.end);
    if (between.find_first_not_of(" \t\r\n>") != between.npos) return std::nullopt;
    if (!small || std::string_view(".!?:;").find(last) != std::string_view::npos)
        return std::nullopt;
    return unknown_line(
        pasted, "This seems to go on from the line above, which ends where its line ends.",
        {possible_fix({pasted.line.source, pasted.above.end, pasted.line.begin}, " ")},
        "Join the two lines.");
}

std::optional<Finding> explain_pasted_remark(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    const auto behind = [&](std::size_t length) { return line.substr(length); };
    if (line.starts_with("//"))
        return as_remark(pasted, "A comment begins with #.", behind(2), true);
    if (line.starts_with("/*") || line.starts_with("--") || line.starts_with("<!--")) {
        std::string_view words = behind(std::min(line.find_first_not_of("/*-<!"), line.size()));
        for (const std::string_view end : {"*/", "-->"})
            if (words.ends_with(end)) words.remove_suffix(end.size());
        if (!no_words(words)) return as_remark(pasted, "A comment begins with #.", words, false);
    }
    const bool ascii = std::all_of(line.begin(), line.end(), [](char sign) {
        return static_cast<unsigned char>(sign) < 0x80;
    });
    if (no_words(line) && (ascii ? line.size() >= 3 : line.size() >= 6) &&
        line.find_first_of("%\"{") == line.npos)
        return as_remark(pasted, "A ruled line has no meaning here.", line, false);
    const std::string plain = without_marks(line);
    if (line.ends_with(':') && plain.find_first_of("%") == plain.npos)
        return as_remark(pasted, "A caption has no meaning here.", line, false);
    if (is_caption(plain)) return as_remark(pasted, "A caption has no meaning here.", line, false);
    return std::nullopt;
}

}  // namespace levigate
