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

std::optional<std::string> side_by_side(const std::vector<std::string_view>& texts) {
    std::vector<Words> each;
    for (const std::string_view text : texts) each.push_back(words_of(text));
    for (const Words& words : each)
        if (words.size() != each.front().size()) return std::nullopt;
    std::string out;
    for (std::size_t i = 0; !each.empty() && i < each.front().size(); ++i) {
        if (i > 0) out += ' ';
        out += each.front()[i];
        const bool same = std::all_of(each.begin(), each.end(), [&](const Words& words) {
            return words[i] == each.front()[i];
        });
        for (std::size_t other = 1; !same && other < each.size(); ++other) {
            std::string_view word = each[other][i];
            if (word.starts_with('(') && each.front()[i].starts_with('(')) word.remove_prefix(1);
            out += " | ";
            out += word;
        }
    }
    return out;
}

}  // namespace levigate
