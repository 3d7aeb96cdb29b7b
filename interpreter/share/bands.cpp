#include "interpreter/share/bands.hpp"

namespace levigate::sharing {

namespace {

/// In thousandths.
constexpr int all_ends[] = {0, 1, 10, 50, 100, 300, 600, 800, 1000};

}  // namespace

std::vector<Share> band_ends(const Share& within) {
    std::vector<Share> out{Share()};
    for (const int end : all_ends) {
        const Share here = share(Exact(end, 1000));
        if (end > 0 && !(here - out.back() < within)) out.push_back(here);
    }
    if (!(out.back() == share(1))) {
        if (out.size() > 1) out.pop_back();
        out.push_back(share(1));
    }
    return out;
}

Share band_below(const std::vector<Share>& ends, const Share& size) {
    Share out;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i)
        if (!(size < ends[i])) out = ends[i];
    return out;
}

Share band_above(const std::vector<Share>& ends, const Share& size) {
    for (const Share& end : ends)
        if (size < end) return end;
    return ends.back();
}

}  // namespace levigate::sharing
