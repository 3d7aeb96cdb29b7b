#include "interpreter/query/near.hpp"

#include "grammar/names.hpp"
#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {

std::string_view nearest(std::string_view written, std::span<const std::string_view> words) {
    Nearest near(written);
    for (std::size_t i = 0; i < words.size(); ++i) near.offer(words[i], i);
    const std::vector<std::size_t> best = near.best(1);
    return best.empty() ? std::string_view() : words[best.front()];
}

std::vector<std::string> near_ones(std::string_view written, const std::vector<std::string>& all) {
    std::string folded, other;
    fold_name(written, folded);
    Nearest near(folded);
    for (std::size_t i = 0; i < all.size(); ++i) {
        fold_name(all[i], other);
        near.offer(other, i);
    }
    std::vector<std::string> out;
    for (const std::size_t i : near.best()) out.push_back(all[i]);
    return out;
}

void offer_known(std::string_view written, const std::vector<std::string>& all, Finding& finding) {
    for (const std::string& name : near_ones(written, all))
        finding.fixes.push_back(possible_fix(Span{}, name));
    if (finding.fixes.empty() && !all.empty())
        finding.advice = "Known here: " + list_words(all) + ".";
}

}  // namespace levigate
