#include "grammar/near.hpp"

#include <algorithm>
#include <iterator>
#include <string>
#include <vector>

namespace levigate {

namespace {

std::vector<char32_t> code_points(std::string_view text) {
    std::vector<char32_t> out;
    for (const char sign : text) {
        const auto byte = static_cast<unsigned char>(sign);
        if ((byte & 0xC0) == 0x80 && !out.empty())
            out.back() = (out.back() << 6) | (byte & 0x3F);
        else
            out.push_back(byte < 0x80 ? byte : byte & 0x1F);
    }
    return out;
}

}  // namespace

std::size_t distance(std::string_view left, std::string_view right) {
    const auto a = code_points(left), b = code_points(right);
    const std::size_t width = b.size() + 1;
    std::vector<std::size_t> before(width), last(width), now(width);
    for (std::size_t j = 0; j < width; ++j) last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        now[0] = i;
        for (std::size_t j = 1; j < width; ++j) {
            const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            now[j] = std::min({change, last[j] + 1, now[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                now[j] = std::min(now[j], before[j - 2] + 1);
        }
        std::swap(before, last);
        std::swap(last, now);
    }
    return last[b.size()];
}

bool is_near(std::string_view written, std::string_view meant) {
    // Lengths alone rule most out before any work is done.
    const auto count = [](std::string_view text) {
        return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char sign) {
            return (static_cast<unsigned char>(sign) & 0xC0) != 0x80;
        }));
    };
    const std::size_t a = count(written), b = count(meant), longest = std::max(a, b);
    const std::size_t apart = a > b ? a - b : b - a;
    if (longest > 200 || apart * 3 > longest) return false;
    return distance(written, meant) * 3 <= longest;
}

namespace {

using Words = std::vector<std::string_view>;

bool is_digit(char sign) { return sign >= '0' && sign <= '9'; }

std::string digits(std::string_view text) {
    std::string out;
    std::copy_if(text.begin(), text.end(), std::back_inserter(out), is_digit);
    return out;
}

Words words_of(std::string_view text) {
    Words out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" -"), text.size());
        if (end > 0) out.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

/// What is off by this is off by more than letters that are missing.
constexpr std::size_t head_missing = 100;
/// Names have few words; of a text that has many, nobody left one out.
constexpr std::size_t most_words = 20;

std::size_t letters_in(const Words& words) {
    std::size_t out = 0;
    for (const std::string_view word : words) out += code_points(word).size();
    return out;
}

/// True if each of `few` is one of `many`, none of them twice.
bool all_in(const Words& few, Words many) {
    for (const std::string_view word : few) {
        const auto found = std::find(many.begin(), many.end(), word);
        if (found == many.end()) return false;
        many.erase(found);
    }
    return true;
}

bool begins(std::string_view start, std::string_view word) {
    if (!word.starts_with(start)) return false;
    const bool cut_number =
        word.size() > start.size() && is_digit(start.back()) && is_digit(word[start.size()]);
    const bool cut_letter = word.size() > start.size() &&
                            (static_cast<unsigned char>(word[start.size()]) & 0xC0) == 0x80;
    return !cut_number && !cut_letter;
}

/// True if each word begins one of `whole`, in their order.
bool all_begin(const Words& starts, const Words& whole) {
    std::size_t at = 0;
    for (const std::string_view start : starts) {
        while (at < whole.size() && !begins(start, whole[at])) ++at;
        if (at++ == whole.size()) return false;
    }
    return true;
}

/// Letters by which each word is off from a word of `whole` of its own; nothing if one is too far.
std::optional<std::size_t> nearly_in(const Words& written, Words whole) {
    std::size_t off = 0;
    for (const std::string_view word : written) {
        std::size_t least = 1000;
        auto best = whole.end();
        for (auto at = whole.begin(); at != whole.end(); ++at) {
            if (!is_near(word, *at) || digits(word) != digits(*at)) continue;
            if (const std::size_t apart = distance(word, *at); apart < least)
                least = apart, best = at;
        }
        if (best == whole.end()) return std::nullopt;
        off += least;
        whole.erase(best);
    }
    return off;
}

/// How much of a name is missing in what fits it.
std::size_t missing(std::string_view written, std::string_view meant, const Words& some,
                    const Words& all) {
    const std::size_t head = meant.starts_with(written) ? 0 : head_missing;
    const std::size_t there = letters_in(some), whole = letters_in(all);
    return head + (whole > there ? whole - there : 0);
}

}  // namespace

std::optional<Fit> fit(std::string_view written, std::string_view meant) {
    const Words some = words_of(written), all = words_of(meant);
    const bool few =
        !some.empty() && !all.empty() && some.size() <= most_words && all.size() <= most_words;
    if (few && all_in(some, all)) return Fit{Likeness::words, missing(written, meant, some, all)};
    // One letter begins too many names to say anything.
    if (few && letters_in(some) > 1 && all_begin(some, all))
        return Fit{Likeness::beginning, missing(written, meant, some, all)};
    if (is_near(written, meant) && digits(written) == digits(meant))
        return Fit{Likeness::letters, distance(written, meant)};
    if (!few) return std::nullopt;
    if (some.size() <= 2 * all.size() && all_in(all, some) && digits(written) == digits(meant))
        return Fit{Likeness::more_words, letters_in(some) - letters_in(all)};
    if (some.size() < all.size())
        if (const auto off = nearly_in(some, all))
            return Fit{Likeness::near_words, *off * head_missing + letters_in(all)};
    return std::nullopt;
}

void Nearest::offer(std::string_view folded, std::size_t id) {
    if (const auto found = fit(written_, folded)) offer(*found, id);
}

void Nearest::offer(const Fit& found, std::size_t id) { offered_.push_back({found, id}); }

std::vector<std::size_t> Nearest::best(std::size_t most) const {
    std::vector<Offered> sorted = offered_;
    std::sort(sorted.begin(), sorted.end());
    std::vector<std::size_t> out;
    for (const Offered& one : sorted) {
        const Fit& first = sorted.front().fit;
        if (one.fit.how != first.how) break;
        if (first.how == Likeness::letters && !out.empty()) break;
        if (first.how == Likeness::near_words &&
            one.fit.apart / head_missing != first.apart / head_missing)
            break;
        if (out.size() < most) out.push_back(one.id);
    }
    return out;
}

}  // namespace levigate
