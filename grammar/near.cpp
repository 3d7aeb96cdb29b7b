#include "grammar/near.hpp"

#include <algorithm>
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

}  // namespace levigate
