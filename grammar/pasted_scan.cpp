#include "grammar/pasted_scan.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace levigate {

bool digit_at(std::string_view text, std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

bool letter_at(std::string_view text, std::size_t at) {
    if (at >= text.size()) return false;
    const auto byte = static_cast<unsigned char>(text[at]);
    return (byte | 0x20) >= 'a' && (byte | 0x20) <= 'z';
}

namespace {

std::size_t skip_spaces(std::string_view text, std::size_t at) {
    while (at < text.size() && text[at] == ' ') ++at;
    return at;
}

}  // namespace

std::size_t word_length(std::string_view text, std::size_t at,
                        std::initializer_list<std::string_view> words) {
    for (const std::string_view word : words) {
        if (text.size() - at < word.size()) continue;
        const bool same =
            std::equal(word.begin(), word.end(), text.begin() + static_cast<long>(at),
                       [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? b | 0x20 : b); });
        if (!same) continue;
        const bool open = letter_at(word, word.size() - 1);
        if (open && (letter_at(text, at + word.size()) || digit_at(text, at + word.size())))
            continue;
        return word.size();
    }
    return 0;
}

namespace {

std::string_view digits_at(std::string_view text, std::size_t at) {
    std::size_t end = at;
    while (digit_at(text, end)) ++end;
    return text.substr(at, end - at);
}

}  // namespace

std::optional<Scanned> scan_number(std::string_view text, std::size_t at) {
    const auto vulgar = [&](std::size_t from) -> std::size_t {
        const std::string_view two = text.substr(from, 2), three = text.substr(from, 3);
        if (two == "¼" || two == "½" || two == "¾") return 2;
        return three.starts_with("\xE2\x85") ? 3 : 0;
    };
    if (const std::size_t sign = vulgar(at))
        return Scanned{std::string(text.substr(at, sign)), at + sign};
    const std::string_view whole = digits_at(text, at);
    std::size_t end = at + whole.size();
    std::string out(whole);
    if (whole.empty() && !(at < text.size() && text[at] == '.' && digit_at(text, at + 1)))
        return std::nullopt;
    if (const std::size_t sign = vulgar(end))
        return Scanned{out + " " + std::string(text.substr(end, sign)), end + sign};
    if (end < text.size() && text[end] == '/' && digit_at(text, end + 1)) {
        const std::string_view below = digits_at(text, end + 1);
        return Scanned{fmt::format("{}/{}", whole, below), end + 1 + below.size()};
    }
    const bool sign_behind = end < text.size() && (text[end] == '.' || text[end] == ',');
    if (!sign_behind || !digit_at(text, end + 1)) return Scanned{std::move(out), end};
    const char sign = text[end];
    std::string_view behind = digits_at(text, end + 1);
    end += 1 + behind.size();
    const bool more =
        end + 1 < text.size() && (text[end] == '.' || text[end] == ',') && digit_at(text, end + 1);
    if (more) {
        if (text[end] == sign || behind.size() != 3) return std::nullopt;
        out += behind;  // a thousand and a decimal: 1.000,5 or 1,000.5
        behind = digits_at(text, end + 1);
        end += 1 + behind.size();
    } else if (sign == ',' && behind.size() == 3 && whole != "0") {
        return std::nullopt;
    }
    return Scanned{fmt::format("{}.{}", out, behind), end};
}

namespace {

struct UnitWord {
    std::string_view written, here;
};

/// The longer ones first.
constexpr UnitWord unit_words[] = {
    {"% (w/w)", "%"},    {"% w/w", "%"},       {"%w/w", "%"},         {"% by weight", "%"},
    {"% by mass", "%"},  {"% (wt)", "%"},      {"% wt", "%"},         {"% m/m", "%"},
    {"% of total", "%"}, {"%", "%"},           {"wt.-%", "%"},        {"wt-%", "%"},
    {"wt.%", "%"},       {"wt. %", "%"},       {"wt %", "%"},         {"wt%", "%"},
    {"w/w %", "%"},      {"w/w%", "%"},        {"gew.-%", "%"},       {"gew.%", "%"},
    {"gew-%", "%"},      {"ma.-%", "%"},       {"m.-%", "%"},         {"mass-%", "%"},
    {"mass %", "%"},     {"mass%", "%"},       {"per cent", "%"},     {"per cento", "%"},
    {"pour cent", "%"},  {"por ciento", "%"},  {"percent", "%"},      {"prozent", "%"},
    {"procent", "%"},    {"pct.", "%"},        {"pct", "%"},          {"p.c.", "%"},
    {"pc", "%"},         {"‰", "in 1000"},     {"ppm", "ppm"},        {"grams", "g"},
    {"gram", "g"},       {"grammes", "g"},     {"gramm", "g"},        {"gramos", "g"},
    {"gms", "g"},        {"gm", "g"},          {"mg", "mg"},          {"kg", "kg"},
    {"g", "g"},          {"ml", "mL"},         {"millilitres", "mL"}, {"drops", "drops"},
    {"drop", "drop"},    {"tropfen", "drops"}, {"gouttes", "drops"},  {"gotas", "drops"},
    {"gocce", "drops"},  {"parts", "parts"},   {"part", "part"},      {"teile", "parts"},
    {"teil", "part"},    {"parties", "parts"}, {"partes", "parts"},   {"tsp", "tsp"},
    {"tbsp", "tbsp"},    {"oz", "oz"},
};

}  // namespace

std::optional<Scanned> scan_unit(std::string_view text, std::size_t at) {
    at = skip_spaces(text, at);
    for (const UnitWord& one : unit_words)
        if (const std::size_t length = word_length(text, at, {one.written}))
            return Scanned{std::string(one.here), at + length};
    return std::nullopt;
}

namespace {

/// Length of a dash or of a word between the two ends of a range.
std::size_t range_sign(std::string_view text, std::size_t at) {
    const std::size_t sign = skip_spaces(text, at);
    const std::size_t length =
        word_length(text, sign, {"-", "–", "—", "−", "...", "…", "..", "to ", "bis "});
    return length == 0 ? 0 : skip_spaces(text, sign + length) - at;
}

/// True where both are plain decimals and the first isn't more: `7 - 2 %` is no range.
bool rises(std::string_view first, std::string_view second) {
    if ((std::string(first) + std::string(second)).find_first_not_of("0123456789.") !=
        std::string::npos)
        return false;
    const std::size_t a = std::min(first.find('.'), first.size());
    const std::size_t b = std::min(second.find('.'), second.size());
    return a != b ? a < b : first < second;
}

/// What is said of an amount that isn't exact, or that is a limit.
std::size_t about_length(std::string_view text, std::size_t at) {
    return word_length(text, at,
                       {"~", "≈", "ca.", "ca", "circa", "about", "around", "approximately",
                        "approx.", "approx", "roughly", "etwa", "environ", "env.", "c."});
}

std::size_t limit_length(std::string_view text, std::size_t at) {
    return word_length(text, at,
                       {"≤", "≥", "<=", ">=", "<", ">", "max.", "max", "maximum", "min.", "min",
                        "minimum", "up to", "at most", "at least", "under", "over"});
}

/// Notes such a word at `at`, if there is one: the place behind it.
std::size_t scan_about(std::string_view text, std::size_t at, ScannedAmount& out) {
    const std::size_t about = about_length(text, at);
    const std::size_t limit = about > 0 ? 0 : limit_length(text, at);
    if (about + limit == 0) return at;
    out.how = about > 0 ? PastedAmount::How::about : PastedAmount::How::limit;
    out.word = text.substr(at, about + limit);
    return at + about + limit;
}

/// `per 10 g` and `/ 10 g` behind a unit.
void scan_per(std::string_view text, ScannedAmount& out) {
    std::size_t at = skip_spaces(text, out.end);
    const std::size_t word = word_length(text, at, {"per", "/"});
    if (word == 0) return;
    at = skip_spaces(text, at + word);
    const auto number = scan_number(text, at);
    const auto unit = number ? scan_unit(text, number->end) : std::nullopt;
    if (!unit) return;
    out.amounts.front() += fmt::format(" per {} {}", number->text, unit->text);
    out.end = unit->end;
}

}  // namespace

std::optional<ScannedAmount> scan_amount(std::string_view text, std::size_t at) {
    ScannedAmount out;
    at = skip_spaces(text, scan_about(text, at, out));
    const auto number = scan_number(text, at);
    if (!number) return std::nullopt;
    auto unit = scan_unit(text, number->end);
    if (const std::size_t sign = range_sign(text, unit ? unit->end : number->end)) {
        const auto other = scan_number(text, (unit ? unit->end : number->end) + sign);
        const auto same = other ? scan_unit(text, other->end) : std::nullopt;
        if (same && (!unit || unit->text == same->text) && rises(number->text, other->text)) {
            out.how = PastedAmount::How::range;
            out.amounts = {fmt::format("{} {}", number->text, same->text),
                           fmt::format("{} {}", other->text, same->text)};
            out.end = same->end;
            return out;
        }
    }
    if (!unit) return std::nullopt;
    out.amounts = {fmt::format("{} {}", number->text, unit->text)};
    out.end = unit->end;
    scan_per(text, out);
    if (out.how != PastedAmount::How::turned) return out;
    const std::size_t behind = skip_spaces(text, out.end);
    const std::size_t next = scan_about(text, behind, out);
    if (next > behind) out.end = next;
    return out;
}

std::size_t scan_rest(std::string_view text, std::size_t at) {
    const auto take = [&](std::initializer_list<std::string_view> words) {
        const std::size_t length = word_length(text, at, words);
        if (length > 0) at = skip_spaces(text, at + length);
        return length > 0;
    };
    const bool strong =
        take({"q.s.p.", "q.s.p", "q.s.", "q.s", "qsp", "qs", "quantum satis", "balance", "bal.",
              "remainder", "remaining", "the rest", "rest of", "rest"});
    bool weak = false;
    while (take({"to make", "make up", "made up", "top up", "fill up", "up to", "up", "to", "ad",
                 "auf", "with", "of"}))
        weak = true;
    const std::size_t number = word_length(text, at, {"100"});
    const bool hundred =
        number > 0 && !digit_at(text, at + number) &&
        !(text.substr(at + number).starts_with('.') && digit_at(text, at + number + 1));
    if (!strong && !(weak && hundred)) return 0;
    if (hundred) {
        at += number;
        if (const auto unit = scan_unit(text, at)) at = unit->end;
        at = skip_spaces(text, at);
        take({"with", "of"});
    }
    return at;
}

}  // namespace levigate
