#include "grammar/pasted.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "grammar/forms_table.hpp"
#include "grammar/pasted_parts.hpp"
#include "grammar/pasted_scan.hpp"
#include "grammar/source.hpp"

namespace levigate {

bool reads_as(Form form, std::string_view line) {
    Names names;
    tree::File scratch;
    Draft draft{names, scratch, line, line.data()};
    tree::Body body;
    return !read_form(form, line.data(), line.data() + line.size(), draft, body);
}

bool reads_as(Heading heading, std::string_view line) {
    Names names;
    tree::File scratch;
    Draft draft{names, scratch, line, line.data()};
    tree::Block block;
    return !read_heading(heading, line.data(), line.data() + line.size(), draft, block);
}

namespace {

using How = PastedAmount::How;

// ---- Amounts and names -------------------------------------------------------------------------

std::string message_of(const PastedAmount& amount) {
    switch (amount.how) {
        case How::turned: return "The amount stands before the name of an ingredient.";
        case How::parted: return "Only a blank comes between an amount and a name.";
        case How::about:
            return fmt::format("An amount is exact; it can't be `{}`.", shown(amount.word));
        case How::limit:
            return fmt::format("An amount is exact: a limit such as `{}` is a line of `expect`.",
                               shown(amount.word));
        case How::comma: return "A comma can't be part of a bare name.";
        case How::range: return "An amount is one number, and here are two.";
        case How::rest: return "Write `rest` for the ingredient that makes up the total.";
        case How::bare:
            return fmt::format("{} of what? A number alone is no amount.", shown(amount.word));
        case How::row: return "A row of a table can't be read here.";
    }
    return {};
}

/// The word that begins a line with an amount in this block; nothing where none does.
std::optional<std::pair<Form, std::string>> amount_form(Heading block) {
    if (block == Heading::shelf) return std::pair(Form::have, std::string("have  "));
    if (!holds(block, Form::ingredient)) return std::nullopt;
    return std::pair(Form::ingredient, std::string());
}

/// Amounts and a name as lines that read, each a fix for `span`.
std::optional<Finding> as_amount_line(const PastedLine& pasted, std::string_view line, Form form,
                                      const std::string& word, Span span) {
    const auto meant = pasted_amount(line, pasted.names);
    if (!meant) return std::nullopt;
    std::vector<Fix> fixes;
    for (const std::string& amount : meant->amounts)
        for (const char* quote : {"", "\""}) {
            if (form == Form::have && amount == "rest") continue;
            const std::string name = quote + shown(meant->name) + quote;
            const std::string made = fmt::format("{}{}  {}", word, amount, name);
            const bool number = *quote == 0 && digit_at(name, 0);
            if (number || !reads_as(form, made)) continue;
            const std::string beside = meant->beside.empty() ? "" : "  # " + shown(meant->beside);
            const bool options = form == Form::have && meant->how == How::comma;
            fixes.push_back(possible_fix(
                span, options ? with_have_options(made, meant->beside) : made + beside));
            break;
        }
    if (fixes.empty()) return std::nullopt;
    std::string advice;
    if (fixes.size() > 1)
        for (const Fix& fix : fixes)
            advice += fmt::format("{}`{}`", advice.empty() ? "Write " : " or ", fix.text);
    return unknown_line(pasted, message_of(*meant), std::move(fixes),
                        advice.empty() ? advice : advice + ".");
}

std::optional<Finding> amount_line(const PastedLine& pasted, std::string_view line) {
    const auto form = amount_form(pasted.block);
    if (!form) return std::nullopt;
    const std::string plain = without_marks(line);
    const std::string made = form->second + shown(plain);
    const auto begin = static_cast<unsigned char>(plain.empty() ? ' ' : plain[0]);
    if (plain != tidy_name(line) && (digit_at(plain, 0) || begin >= 0x80) &&
        plain.find('|') == plain.npos && reads_as(form->first, made) &&
        !pasted_amount(plain, pasted.names).has_value())
        return unknown_line(pasted, "These marks have no meaning here.",
                            {possible_fix(pasted.line, made)});
    return as_amount_line(pasted, plain, form->first, form->second, pasted.line);
}

// ---- Numbers of a list -------------------------------------------------------------------------

/// Length of `1.`, `12)`, `(3)` or `a)` with the blanks behind it; 0.
std::size_t list_number(std::string_view line) {
    std::size_t at = line.starts_with('(') ? 1 : 0;
    const std::size_t first = at;
    while (digit_at(line, at) && at < first + 3) ++at;
    const bool letter = at == first && letter_at(line, at);
    if (letter) ++at;
    if (at == first) return 0;
    const std::size_t mark = at;
    while (at < line.size() && (line[at] == '.' || line[at] == ')')) ++at;
    if (at == mark || (letter && line[mark] != ')') || at - mark > 2) return 0;
    if (first == 1 && line[mark] != ')') return 0;
    const std::size_t next = line.find_first_not_of(" \t", at);
    return next == line.npos || next == at ? 0 : next;
}

/// `1`, `red 7 lake` and `0.5`, with tabs between.
bool is_numbered_row(std::string_view line) {
    const std::size_t first = line.find('\t'), last = line.rfind('\t');
    if (first == last || line.find_first_not_of("0123456789") != first) return false;
    const auto number = scan_number(line, last + 1);
    return number && (number->end == line.size() || is_pasted_amount(line.substr(last + 1)));
}

/// The line behind its number, as it is read here.
std::optional<Finding> without_number(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    const std::size_t length = list_number(line);
    if (length == 0) return std::nullopt;
    const std::string_view behind = line.substr(length);
    const auto number = static_cast<std::uint32_t>(length);
    const Span span{pasted.line.source, pasted.line.begin, pasted.line.begin + number};
    constexpr std::string_view message = "Lines are not numbered.";
    for (const FormWord& form : form_words())
        if (holds(pasted.block, form.form) &&
            (form.word.empty() ? digit_at(behind, 0) : word_length(behind, 0, {form.word}) > 0) &&
            reads_as(form.form, behind))
            return unknown_line(pasted, std::string(message), {possible_fix(span, "")},
                                fmt::format("Take `{}` away.", line.substr(0, length - 1)));
    if (auto out = amount_line(pasted, behind)) {
        out->message = message;
        return out;
    }
    if (is_sentence(tidy_name(behind)) || is_work(behind)) return as_sentence(pasted, behind);
    return std::nullopt;
}

// ---- Colons and semicolons ---------------------------------------------------------------------

/// `role: mica`, `density = 1.7 g/mL`: the line without the sign behind its word.
std::optional<Finding> without_sign(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    const std::size_t sign = line.find_first_of(":=");
    if (sign == line.npos || sign == 0) return std::nullopt;
    std::string made(line.substr(0, line.find_last_not_of(" \t", sign - 1) + 1));
    const std::string word = tidy_name(made);
    made += line.substr(sign + 1);
    const bool blank = sign + 1 < line.size() && (line[sign + 1] == ' ' || line[sign + 1] == '\t');
    if (!blank) return std::nullopt;
    const auto begin = static_cast<std::uint32_t>(pasted.line.begin);
    const Span span{pasted.line.source, begin + static_cast<std::uint32_t>(word.size()),
                    begin + static_cast<std::uint32_t>(sign + 1)};
    const std::string message = fmt::format("Write `{}` without {}.", shown(word),
                                            line[sign] == ':' ? "a colon" : "`=`");
    for (const FormWord& form : form_words())
        if (!form.word.empty() && holds(pasted.block, form.form) &&
            word_length(word, 0, {form.word}) == word.size() && reads_as(form.form, made))
            return unknown_line(pasted, message, {certain_fix(span, "")});
    for (const HeadingWord& heading : heading_words())
        if (word_length(word, 0, {heading.word}) == word.size() && reads_as(heading.heading, made))
            return unknown_line(pasted, message, {possible_fix(span, "")});
    return std::nullopt;
}

/// `batch size: 6 g`: a colon behind a name.
std::optional<Finding> without_colon(const PastedLine& pasted, Form form) {
    const std::string_view line = written_line(pasted);
    const std::size_t colon = line.find(": ");
    if (colon == line.npos || form == Form::ingredient) return std::nullopt;
    const std::string made = fmt::format("{}{}", line.substr(0, colon), line.substr(colon + 1));
    const auto at = pasted.line.begin + static_cast<std::uint32_t>(colon);
    if (!reads_as(form, made)) return std::nullopt;
    return unknown_line(pasted, "A name has no colon behind it.",
                        {possible_fix({pasted.line.source, at, at + 1}, "")}, "Leave it out.");
}

/// `batch full 48 tubes plus 5 % extra`: what comes on top of a batch is its overage.
std::optional<Finding> as_overage(const PastedLine& pasted) {
    constexpr std::size_t longest = 400;
    const std::string line = tidy_name(written_line(pasted));
    if (line.size() > longest) return std::nullopt;
    for (std::size_t at = line.find(' '); at != line.npos; at = line.find(' ', at + 1)) {
        const auto more = scan_amount(line, at + 1);
        if (!more || !more->amounts.front().ends_with('%')) continue;
        std::size_t end = more->end;
        while (end < line.size() && line[end] == ' ') ++end;
        end += word_length(line, end, {"overage", "extra", "more", "spare", "waste", "loss"});
        if (line.find_first_not_of(" ).", end) != line.npos) continue;
        std::string_view head = std::string_view(line).substr(0, at);
        for (const std::string_view word : {"overage", " with", " and", " plus", "+", "(", ","}) {
            while (head.ends_with(' ')) head.remove_suffix(1);
            if (head.ends_with(word)) head.remove_suffix(word.size());
        }
        while (head.ends_with(' ') || head.ends_with(',')) head.remove_suffix(1);
        const std::string made = fmt::format("{}, overage {}", shown(head), more->amounts.front());
        if (reads_as(Form::batch, made))
            return unknown_line(pasted, "What comes on top of a batch is its overage.",
                                {possible_fix(pasted.line, made)});
    }
    return std::nullopt;
}

/// `batch 6 g`: the size alone.
std::optional<Finding> with_batch_name(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    const std::string_view size = line.substr(entry(Form::batch).word.size());
    const std::size_t at = size.find_first_not_of(" \t");
    if (at == size.npos || !digit_at(size, at)) return std::nullopt;
    const std::string made = fmt::format("batch trial {}", size.substr(at));
    if (!reads_as(Form::batch, made)) return std::nullopt;
    return unknown_line(pasted, "A batch has a name before its size.",
                        {possible_fix(pasted.line, made)});
}

/// `swap copper mica with kaolin`
std::optional<Finding> as_swap(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    for (const std::string_view word : {" with ", " by ", " to ", " -> ", " → ", " against "}) {
        const std::size_t at = line.find(word);
        if (at == line.npos) continue;
        const auto begin = pasted.line.begin + static_cast<std::uint32_t>(at);
        const auto size = static_cast<std::uint32_t>(word.size());
        const std::string made =
            fmt::format("{} for {}", line.substr(0, at), line.substr(at + word.size()));
        if (reads_as(Form::swap, made))
            return unknown_line(
                pasted, "The name that goes and the one that comes have `for` between them.",
                {possible_fix({pasted.line.source, begin + 1, begin + size - 1}, "for")});
    }
    return std::nullopt;
}

}  // namespace

std::optional<Finding> explain_pasted(const PastedLine& pasted, Guess guess) {
    const std::string_view line = written_line(pasted);
    if (auto out = explain_front(pasted)) return out;
    if (auto out = explain_pasted_remark(pasted)) return out;
    if (auto out = without_sign(pasted)) return out;
    const auto meant = pasted_amount(without_marks(line), pasted.names);
    const bool rest = meant && meant->how == How::rest;
    const bool known = meant && pasted.names.find(meant->name) != no_name;
    if (guess == Guess::reads && !rest) return std::nullopt;
    if (guess == Guess::near && !known && !rest) {
        const std::string words = tidy_name(line);
        const auto blanks = std::count(words.begin(), words.end(), ' ');
        if (words.find_first_of("0123456789") != words.npos || blanks < 2) return std::nullopt;
        auto wrapped = explain_wrapped(pasted);
        return wrapped || blanks < 3 ? wrapped : as_sentence(pasted, words);
    }
    if (auto out = without_number(pasted)) return out;
    if (auto out = explain_wrapped(pasted); out && !meant) return out;
    if (auto out = amount_line(pasted, line)) return out;
    const std::string words = tidy_name(line);
    if (is_told(words) || is_sentence(words)) return as_sentence(pasted, words);
    return std::nullopt;
}

Finding explain_pasted_form(const PastedLine& pasted, Form form, Finding said) {
    const std::string_view line = written_line(pasted);
    const auto with = [&](const Finding& meant) {
        Finding out = std::move(said);
        out.fixes = meant.fixes;
        if (pasted.block == Heading::shelf && form == Form::ingredient) return out;
        out.message = meant.message;
        out.advice = meant.advice;
        out.example.clear();
        return out;
    };
    if (line.ends_with(';') && reads_as(form, line.substr(0, line.size() - 1))) {
        const Span mark{pasted.line.source, pasted.line.end - 1, pasted.line.end};
        said.fixes = {certain_fix(mark, "")};
        said.example.clear();
        said.message = "Take away the semicolon at the end.";
        said.advice.clear();
        return said;
    }
    if (form == Form::have && said.code == Code::line_malformed)
        if (auto option = explain_have_option(pasted, said)) return *option;
    if (const auto list = as_list(pasted)) return with(*list);
    if (form == Form::ingredient)
        if (const auto front = explain_front(pasted)) return with(*front);
    const bool signs = !letter_at(line, 0) && !digit_at(line, 0);
    if (const auto remark = explain_pasted_remark(pasted); remark && signs) return with(*remark);
    if (const auto sign = without_sign(pasted)) return with(*sign);
    if (said.code != Code::line_misplaced)
        if (const auto colon = without_colon(pasted, form)) return with(*colon);
    if (form == Form::batch)
        if (const auto more = as_overage(pasted)) return with(*more);
    if (form == Form::batch && said.code != Code::line_misplaced)
        if (const auto named = with_batch_name(pasted)) return with(*named);
    if (form == Form::price && said.code != Code::line_misplaced)
        if (const auto money = with_currency(pasted)) return with(*money);
    if (form == Form::swap)
        if (const auto swap = as_swap(pasted)) return with(*swap);
    if (const auto wrapped = explain_wrapped(pasted)) return with(*wrapped);
    if (form == Form::ingredient || form == Form::up_to) {
        if (const auto number = without_number(pasted)) return with(*number);
        if (const auto amount = amount_line(pasted, line)) return with(*amount);
        return said;
    }
    const bool amount_behind = form == Form::set || form == Form::add || form == Form::have;
    if (!amount_behind || said.code == Code::line_misplaced) return said;
    const auto word = static_cast<std::uint32_t>(entry(form).word.size());
    if (line.size() <= word) return said;
    const auto amount = as_amount_line(pasted, without_marks(line.substr(word)), form,
                                       std::string(entry(form).word) + "  ", pasted.line);
    return amount ? with(*amount) : said;
}

std::optional<Finding> explain_list_number(const PastedLine& pasted) {
    const std::string_view line = written_line(pasted);
    if (auto out = without_thousands(pasted)) return out;
    const std::size_t length = list_number(line);
    if (length == 0 && is_numbered_row(line)) return amount_line(pasted, line);
    if (length == 0 || line[0] == '(') return std::nullopt;
    if (auto out = without_number(pasted)) return out;
    const std::string name = shown(tidy_name(line.substr(length)));
    Finding out = unknown_line(pasted, "This line has no amount.", {});
    if (reads_as(Form::ingredient, "5 %  " + name)) out.example = "5 %  " + name;
    return out;
}

Finding explain_pasted_heading(const PastedLine& pasted, Heading heading, Finding said) {
    const std::string_view line = written_line(pasted);
    const std::size_t end = line.find_last_not_of(":;, ") + 1;
    if (end < line.size() && end > 0 && reads_as(heading, line.substr(0, end))) {
        const Span marks{pasted.line.source, pasted.line.begin + static_cast<std::uint32_t>(end),
                         pasted.line.end};
        said.fixes = {certain_fix(marks, "")};
        said.message = fmt::format("A heading ends without `{}`.", shown(line.substr(end)));
        said.advice = "Leave it out.";
        said.example.clear();
        return said;
    }
    if (const auto sign = without_sign(pasted)) {
        said.message = sign->message;
        said.advice = sign->advice;
        said.fixes = sign->fixes;
        said.example.clear();
    }
    return said;
}

std::string in_her_words(std::string_view example, std::string_view name) {
    std::string out(example);
    for (const std::string_view ours :
         {"Windfall mica", "black iron oxide", "vanilla flavour", "Dusk mica"}) {
        const std::size_t at = out.find(ours);
        if (at != out.npos) out.replace(at, ours.size(), name);
    }
    return out;
}

}  // namespace levigate
