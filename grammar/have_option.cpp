// What stands behind the name on a `have` line, as packs print it: `exp 03/2027`, `lot # 24-117`.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "grammar/forms_table.hpp"
#include "grammar/pasted_parts.hpp"
#include "grammar/pasted_scan.hpp"
#include "grammar/source.hpp"

namespace levigate {
namespace {

constexpr std::size_t longest_have = 400;  ///< bytes; nobody writes more

bool reads_as_have(std::string_view line) {
    Names names;
    tree::File scratch;
    Draft draft{names, scratch, line, line.data()};
    tree::Body body;
    return !read_form(Form::have, line.data(), line.data() + line.size(), draft, body);
}

bool option_reads(std::string_view option) {
    return reads_as_have(fmt::format("have 1 g x, {}", option));
}

bool all_digits(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == text.npos;
}

/// From begin to end, without blanks around.
struct ListPart {
    std::size_t begin = 0, end = 0;
    std::string_view of(std::string_view line) const { return line.substr(begin, end - begin); }
};

/// Parted at commas outside quotes. `March 15, 2027` stays together.
std::vector<ListPart> list_parts(std::string_view line) {
    std::vector<ListPart> out;
    bool quoted = false;
    const auto add = [&](std::size_t begin, std::size_t end) {
        while (begin < end && line[begin] == ' ') ++begin;
        while (begin < end && line[end - 1] == ' ') --end;
        const ListPart part{begin, end};
        if (out.size() > 1 && end - begin == 4 && all_digits(part.of(line)))
            out.back().end = end;
        else
            out.push_back(part);
    };
    std::size_t begin = 0;
    for (std::size_t at = 0; at < line.size(); ++at) {
        if (line[at] == '"') quoted = !quoted;
        if (line[at] != ',' || quoted) continue;
        add(begin, at);
        begin = at + 1;
    }
    add(begin, line.size());
    return out;
}

// ---- Dates -------------------------------------------------------------------------------------

/// 1 for `Jan`, `January` and what is between; 0.
int month_of(std::string_view word) {
    constexpr std::array<std::string_view, 12> months = {
        "january", "february", "march",     "april",   "may",      "june",
        "july",    "august",   "september", "october", "november", "december"};
    constexpr std::size_t shortest = 3;
    if (word.size() < shortest) return 0;
    for (std::size_t i = 0; i < months.size(); ++i) {
        if (word.size() > months[i].size()) continue;
        const std::string_view begin = months[i].substr(0, word.size());
        if (word_length(word, 0, {begin}) == word.size()) return static_cast<int>(i) + 1;
    }
    return 0;
}

struct DateWords {
    std::vector<std::string> numbers;
    int month = 0;
    bool other = false;
};

DateWords date_words_of(std::string_view text) {
    DateWords out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find_first_of(" /.-,", at), text.size());
        std::string_view word = text.substr(at, end - at);
        at = end + 1;
        if (word.empty() || word_length(word, 0, {"end", "of", "the"}) == word.size()) continue;
        const std::size_t digits = std::min(word.find_first_not_of("0123456789"), word.size());
        if (digits > 0 && word_length(word, digits, {"st", "nd", "rd", "th"}) == 2)
            word = word.substr(0, digits);
        if (all_digits(word) && word.size() <= 4)
            out.numbers.emplace_back(word);
        else if (const int month = month_of(word); month > 0 && out.month == 0)
            out.month = month;
        else
            out.other = true;
    }
    return out;
}

/// `2027-03` of what may be written so; two of `03/04/2027`; none of what has no whole year.
std::vector<std::string> dates_meant(std::string_view text) {
    DateWords words = date_words_of(text);
    std::vector<int> small;
    std::string year;
    bool year_first = false;
    for (const std::string& number : words.numbers) {
        if (number.size() == 4 && year.empty()) {
            year = number;
            year_first = small.empty();
        } else if (number.size() <= 2) {
            small.push_back(std::stoi(number));
        } else {
            words.other = true;
        }
    }
    if (words.other || year.empty()) return {};
    std::vector<std::string> out;
    const auto add = [&](int month, int day) {
        if (month < 1 || month > 12 || day > 31) return;
        std::string made = fmt::format("{}-{:02}", year, month);
        if (day > 0) made += fmt::format("-{:02}", day);
        if (std::find(out.begin(), out.end(), made) == out.end()) out.push_back(std::move(made));
    };
    if (words.month > 0 && small.size() < 2) {
        add(words.month, small.empty() ? 0 : small[0]);
    } else if (words.month == 0 && small.size() == 1) {
        add(small[0], 0);
    } else if (words.month == 0 && small.size() == 2 && year_first) {
        add(small[0], small[1]);
    } else if (words.month == 0 && small.size() == 2) {
        add(small[1], small[0]);
        if (text.find('.') == text.npos) add(small[0], small[1]);
    }
    return out;
}

// ---- Options -----------------------------------------------------------------------------------

/// What an option is meant as: in what words, and why not as it is.
struct OptionMeant {
    std::string_view message;
    std::string_view example;
    std::vector<std::string> made = {};  ///< the likeliest first; may be none
};

std::string_view behind_signs(std::string_view text) {
    for (bool again = true; again;) {
        again = false;
        while (!text.empty() && std::string_view(" .:#=").find(text[0]) != text.npos)
            text.remove_prefix(1);
        for (const std::string_view sign : {"№", "no.", "No.", "nr.", "Nr."})
            if (text.starts_with(sign)) text.remove_prefix(sign.size()), again = true;
    }
    return text;
}

std::optional<OptionMeant> lot_meant(std::string_view option) {
    const std::size_t word = word_length(option, 0, {"lot", "batch", "charge"});
    if (word == 0) return std::nullopt;
    const bool lot = word_length(option, 0, {"lot"}) > 0;
    OptionMeant out{lot ? "The number of a lot comes right behind `lot`."
                        : "The number of a lot begins with `lot` here.",
                    "lot 24-117"};
    const std::string name = tidy_name(behind_signs(option.substr(word)));
    if (name.empty() || name.find('"') != name.npos || name.find(" lot ") != name.npos) return out;
    for (const char* quote : {"", "\""}) {
        const std::string made = fmt::format("lot {0}{1}{0}", quote, shown(name));
        if (!option_reads(made)) continue;
        out.made.push_back(made);
        break;
    }
    return out;
}

std::optional<OptionMeant> date_meant(std::string_view option) {
    const std::size_t right = word_length(option, 0, {"best before"});
    const std::size_t word =
        word_length(option, 0, {"best before end", "best before", "best by",         "best-before",
                                "best",            "bbe",         "bbd",             "bb",
                                "expires on",      "expires",     "expiry date",     "expiry",
                                "exp. date",       "exp date",    "expiration date", "expiration",
                                "exp",             "use before",  "use by",          "use-by",
                                "good until",      "until",       "before",          "mhd"});
    if (word == 0) return std::nullopt;
    OptionMeant out{right > 0 ? "A date has its year first, and then its month, in numbers."
                              : "A date on the shelf begins with `best before`.",
                    "best before 2027-03"};
    for (const std::string& date : dates_meant(behind_signs(option.substr(word)))) {
        const std::string made = "best before " + date;
        if (option_reads(made)) out.made.push_back(made);
    }
    return out;
}

std::optional<OptionMeant> option_meant(std::string_view written) {
    const std::string option = tidy_name(written);
    auto out = lot_meant(option);
    return out ? out : date_meant(option);
}

/// `lot # 24-117`: a comment begins there, and the number is in it.
std::string lot_in_comment(const PastedLine& pasted, std::uint32_t& end) {
    const std::string_view text = pasted.text;
    const std::size_t sign = text.find_first_not_of(" \t", pasted.line.end);
    if (sign == text.npos || text[sign] != '#') return {};
    const std::size_t begin = text.find_first_not_of(" \t", sign + 1);
    if (begin == text.npos) return {};
    const std::size_t behind = std::min(text.find_first_of(" \t\r\n,", begin), text.size());
    const std::string made = fmt::format("lot {}", shown(text.substr(begin, behind - begin)));
    if (made.find_first_of("0123456789") == made.npos || !option_reads(made)) return {};
    end = static_cast<std::uint32_t>(behind);
    // What follows stays a comment.
    const std::size_t more = text.find_first_not_of(" \t", behind);
    const bool ends = more == text.npos || text[more] == '\n' || text[more] == '\r';
    return ends ? made : made + "  #";
}

void write_instead(Finding& said, Span span, const OptionMeant& meant) {
    said.advice.clear();
    said.example = meant.made.empty() ? std::string(meant.example) : std::string();
    for (const std::string& made : meant.made) said.fixes.push_back(possible_fix(span, made));
    if (meant.made.size() > 1)
        said.advice = fmt::format("Write `{}` or `{}`.", meant.made[0], meant.made[1]);
}

}  // namespace

std::string with_have_options(std::string head, std::string_view options) {
    std::string remark;
    for (const ListPart& part : list_parts(fmt::format("x, {}", options))) {
        if (part.begin == 0) continue;
        const std::string option(part.of(fmt::format("x, {}", options)));
        const auto meant = option_meant(option);
        if (option_reads(option) || (meant && meant->made.empty()))
            head += ", " + shown(option);
        else if (meant)
            head += ", " + meant->made.front();
        else
            remark += fmt::format("{}{}", remark.empty() ? "" : ", ", shown(option));
    }
    return remark.empty() ? head : head + "  # " + remark;
}

std::optional<Finding> explain_have_option(const PastedLine& pasted, Finding said) {
    const std::string_view line = written_line(pasted);
    if (line.size() > longest_have) return std::nullopt;
    const std::vector<ListPart> parts = list_parts(line);
    if (parts.size() < 2 || !reads_as_have(parts[0].of(line))) return std::nullopt;
    const auto faulty = std::find_if(parts.begin() + 1, parts.end(), [&](const ListPart& part) {
        return !option_reads(part.of(line));
    });
    if (faulty == parts.end()) return said;  // twice the same
    auto meant = option_meant(faulty->of(line));
    if (!meant) {
        const std::string made =
            with_have_options(std::string(parts[0].of(line)), line.substr(parts[1].begin));
        said.fixes = {possible_fix(pasted.line, made)};
        said.message = "A comma can't be part of a bare name.";
        said.advice.clear();
        said.example.clear();
        return said;
    }
    const auto place = [&](std::size_t at) {
        return pasted.line.begin + static_cast<std::uint32_t>(at);
    };
    Span span{pasted.line.source, place(faulty->begin), place(faulty->end)};
    const bool said_in = pasted.text.substr(said.span.begin, said.span.end - said.span.begin) ==
                             "in" && span.begin < said.span.begin && said.span.end < span.end;
    const bool two = faulty->of(line).find(" lot ") != std::string_view::npos;
    if (two) return said;
    if (!said_in) {
        if (span.end == pasted.line.end && faulty->end - faulty->begin == 3)
            if (std::string made = lot_in_comment(pasted, span.end); !made.empty())
                meant->made = {std::move(made)};
        said.message = std::string(meant->message);
        said.span = span;
    }
    write_instead(said, span, *meant);
    return said;
}

}  // namespace levigate
