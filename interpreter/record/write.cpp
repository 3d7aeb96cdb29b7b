#include "interpreter/record/write.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

bool is_letter(char sign) { return (sign | 0x20) >= 'a' && (sign | 0x20) <= 'z'; }

/// In quotes, save where it is plain words, none of which means something behind an amount.
std::string written_name(const std::string& name) {
    bool plain = !name.empty();
    for (std::size_t at = 0; at < name.size(); ++at) {
        const std::size_t end = std::min(name.find(' ', at), name.size());
        std::string word = name.substr(at, end - at);
        for (char& sign : word)
            if (sign >= 'A' && sign <= 'Z') sign |= 0x20;
        plain = plain && !word.empty() && is_letter(word[0]) && word != "lot" && word != "of" &&
                word != "in" && std::all_of(word.begin(), word.end(), [](char sign) {
                    return is_letter(sign) || sign == '-' || (sign >= '0' && sign <= '9');
                });
        at = end;
    }
    return plain ? name : '"' + name + '"';
}

/// A lot, or a batch's number.
std::string written_number(const std::string& number) {
    const bool plain = !number.empty() && std::all_of(number.begin(), number.end(), [](char sign) {
        return is_letter(sign) || sign == '-' || (sign >= '0' && sign <= '9');
    });
    return plain ? number : '"' + number + '"';
}

void add_line(std::string& out, std::string_view word, std::string_view rest) {
    out += fmt::format("    {:<12}{}\n", word, rest);
}

std::string written_pour(const Formulary& formulary, const Pour& pour, const std::string& mass) {
    const std::string name = pour.what == no_ingredient ? pour.name : formulary.name(pour.what);
    std::string out = fmt::format("{} g {}", mass, written_name(name));
    if (!pour.lot.empty()) out += ", lot " + written_number(pour.lot);
    if (!pour.bowl.empty())
        out += ", in " +
               written_name(pour.into == no_ingredient ? pour.bowl : formulary.name(pour.into));
    return out;
}

std::string written_made(const Formulary& formulary, const Made& made) {
    std::string out = made.amount;
    if (!made.name.empty())
        out +=
            " " + written_name(made.what == no_ingredient ? made.name : formulary.name(made.what));
    if (!made.lot.empty()) out += ", lot " + written_number(made.lot);
    return out;
}

std::string heading(const Formulary& formulary, const RecordOrder& order) {
    const Sheet& sheet = order.sheet;
    const Shade& shade = formulary.shades[sheet.shade];
    std::string out = "record " + order.day + " ";
    out += sheet.batch == nothing ? order.made : written_name(shade.batches[sheet.batch].name);
    out += " of " + written_name(shade.name);
    if (sheet.version > 0) out += " / " + written_name(shade.versions[sheet.version].variant);
    if (sheet.finishing != nothing)
        out += " / " +
               written_name(formulary.finishes[formulary.finishings[sheet.finishing].finish].name);
    return out + "\n";
}

/// A brace would open a hole in a text.
std::string plain_words(std::string text) {
    std::replace(text.begin(), text.end(), '{', '(');
    std::replace(text.begin(), text.end(), '}', ')');
    return text;
}

std::string deviation(const RecordLine& line) {
    const std::string what = line.bowl.empty() ? line.name : line.name + " in " + line.bowl;
    if (!line.weighed) return fmt::format("{}: planned, and not weighed.", what);
    if (!line.planned)
        return fmt::format("{}: {} were weighed, and none was planned.", what,
                           gram_words(*line.weighed));
    const Mass off = *line.weighed - *line.planned;
    if (in_grams(off).is_zero()) return {};
    std::string percent;
    if (in_grams(*line.planned).sign() > 0)
        percent = fmt::format(
            " ({} %)", in_percent(share_of(grams(in_grams(off).abs()), *line.planned)).fixed(2));
    return fmt::format("{}: {} {} than planned{}.", what, gram_words(grams(in_grams(off).abs())),
                       in_grams(off).sign() > 0 ? "more" : "less", percent);
}

/// Fewer containers than were planned, or more.
std::string filling(const Formulary& formulary, const RecordOrder& order) {
    if (!order.size || order.sheet.batch == nothing) return {};
    const auto& batch = formulary.shades[order.sheet.shade].batches[order.sheet.batch];
    const auto* planned = std::get_if<ContainerCount>(&batch.size.amount);
    const auto* filled = std::get_if<ContainerCount>(&order.size->amount);
    if (!planned || !filled || planned->container != filled->container ||
        planned->count == filled->count)
        return {};
    return fmt::format("{} were filled, and {} were planned.", size_words(formulary, *order.size),
                       size_words(formulary, batch.size));
}

}  // namespace

std::vector<std::string> deviations(const Formulary& formulary, const RecordOrder& order) {
    std::vector<std::string> out;
    for (const RecordLine& line :
         record_lines(formulary, planned_pours(formulary, order.sheet), order.weighed))
        if (std::string words = deviation(line); !words.empty())
            out.push_back(plain_words(std::move(words)));
    if (std::string words = filling(formulary, order); !words.empty())
        out.push_back(plain_words(std::move(words)));
    return out;
}

std::string next_code(const std::string& day, const std::vector<Record>& records) {
    constexpr std::size_t most_digits = 9;
    const std::string year = day.substr(std::min<std::size_t>(day.size(), 2), 2) + "-";
    unsigned long highest = 0;
    for (const Record& record : records) {
        if (!record.code.starts_with(year)) continue;
        const std::string number = record.code.substr(year.size());
        if (!number.empty() && number.size() <= most_digits &&
            number.find_first_not_of("0123456789") == number.npos)
            highest = std::max(highest, std::stoul(number));
    }
    return year + std::to_string(highest + 1);
}

std::string record_text(const Formulary& formulary, const RecordOrder& order) {
    std::string out = heading(formulary, order);
    if (!order.code.empty()) add_line(out, "code", written_number(order.code));
    for (const Pour& pour : planned_pours(formulary, order.sheet))
        add_line(
            out, "planned",
            written_pour(formulary, pour, in_grams(pour.mass).fixed(order.sheet.reading.places)));
    for (const Pour& pour : order.weighed)
        add_line(out, "weighed", written_pour(formulary, pour, in_grams(pour.mass).exactly()));
    add_line(out, "by", written_name(order.by));
    if (!order.filled.empty()) add_line(out, "filled", order.filled);
    for (const Made& made : order.others) add_line(out, "made", written_made(formulary, made));
    for (const std::string& words : deviations(formulary, order)) add_line(out, "deviation", words);
    if (!order.note.empty()) add_line(out, "note", order.note);
    add_line(out, "formula", order.formula);
    return out;
}

}  // namespace levigate
