#include "interpreter/query/near.hpp"

#include "grammar/near.hpp"

namespace levigate {

std::string_view nearest(std::string_view written, std::span<const std::string_view> words) {
    std::string_view best;
    std::size_t least = 0;
    for (std::string_view word : words) {
        if (!is_near(written, word)) continue;
        std::size_t apart = distance(written, word);
        if (!best.empty() && apart >= least) continue;
        best = word;
        least = apart;
    }
    return best;
}

}  // namespace levigate
