#include "interpreter/formulary/written_name.hpp"

#include <algorithm>
#include <array>

#include "grammar/names.hpp"

namespace levigate {
namespace {

/// Words that some line waits for behind a name.
constexpr std::array waited_for = {"and",  "as", "at",   "between", "by", "for",   "in",  "is",
                                   "like", "of", "over", "per",     "to", "under", "the", "much"};

bool is_waited_for(std::string_view word) {
    std::string folded;
    fold_name(word, folded);
    return std::find(waited_for.begin(), waited_for.end(), folded) != waited_for.end();
}

bool plain_sign(char sign) {
    const auto byte = static_cast<unsigned char>(sign);
    const bool letter = (sign | 0x20) >= 'a' && (sign | 0x20) <= 'z';
    const bool digit = sign >= '0' && sign <= '9';
    return letter || digit || byte >= 0x80 ||
           std::string_view(" -'./&+()#").find(sign) != std::string_view::npos;
}

}  // namespace

bool needs_name_quotes(std::string_view name) {
    if (name.empty() || name.back() == '.') return true;
    const bool letter = (name.front() | 0x20) >= 'a' && (name.front() | 0x20) <= 'z';
    if (!letter && static_cast<unsigned char>(name.front()) < 0x80) return true;
    if (!std::all_of(name.begin(), name.end(), plain_sign)) return true;
    while (!name.empty()) {
        const std::size_t end = std::min(name.find(' '), name.size());
        const std::string_view word = name.substr(0, end);
        if (word == "/" || word == "-" || word == "#" || word == "+") return true;
        if (is_waited_for(word)) return true;
        name.remove_prefix(std::min(name.size(), end + 1));
    }
    return false;
}

std::string written_name(std::string_view name) {
    return needs_name_quotes(name) ? '"' + std::string(name) + '"' : std::string(name);
}

std::vector<Fix> near_fix(Span span, const std::vector<std::string>& near) {
    std::vector<Fix> out;
    for (const std::string& name : near) out.push_back(possible_fix(span, written_name(name)));
    return out;
}

}  // namespace levigate
