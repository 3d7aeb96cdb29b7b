#include "interpreter/render/side_by_side.hpp"

#include <algorithm>

namespace levigate {
namespace {

using Words = std::vector<std::string_view>;

Words words_of(std::string_view text) {
    Words out;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        out.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return out;
}

}  // namespace

std::optional<std::vector<WordBeside>> words_beside(const std::vector<std::string_view>& texts) {
    std::vector<Words> each;
    for (const std::string_view text : texts) each.push_back(words_of(text));
    for (const Words& words : each)
        if (words.size() != each.front().size()) return std::nullopt;
    std::vector<WordBeside> out;
    for (std::size_t i = 0; !each.empty() && i < each.front().size(); ++i) {
        WordBeside& word = out.emplace_back();
        for (const Words& words : each) word.each.push_back(words[i]);
        const auto all = [&](const auto& holds) {
            return std::all_of(word.each.begin(), word.each.end(), holds);
        };
        if (all([&](std::string_view one) { return one == word.each.front(); })) {
            word.each.resize(1);
        } else if (all([](std::string_view one) { return one.starts_with('('); })) {
            word.lead = word.each.front().substr(0, 1);
            for (std::string_view& one : word.each) one.remove_prefix(1);
        }
    }
    return out;
}

std::optional<std::string> side_by_side(const std::vector<std::string_view>& texts) {
    const auto words = words_beside(texts);
    if (!words) return std::nullopt;
    std::string out;
    for (const WordBeside& word : *words) {
        if (&word != &words->front()) out += ' ';
        out += word.lead;
        for (std::size_t i = 0; i < word.each.size(); ++i) {
            if (i > 0) out += " | ";
            out += word.each[i];
        }
    }
    return out;
}

}  // namespace levigate
