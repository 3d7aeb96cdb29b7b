#include "grammar/hidden.hpp"

#include <algorithm>
#include <iterator>

namespace levigate {
namespace {

struct Range {
    char32_t first, last;
};

constexpr Range never_seen[] = {
    {0x00, 0x08},       {0x0A, 0x1F},     {0x7F, 0x9F},     {0xAD, 0xAD},       {0x034F, 0x034F},
    {0x061C, 0x061C},   {0x115F, 0x1160}, {0x17B4, 0x17B5}, {0x180E, 0x180E},   {0x200B, 0x200B},
    {0x200E, 0x200F},   {0x2028, 0x202E}, {0x2060, 0x206F}, {0x2800, 0x2800},   {0x3164, 0x3164},
    {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0}, {0xFFF0, 0xFFFB}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A},
    {0xE0000, 0xE0FFF},
};

constexpr Range shaping[] = {
    {0x180B, 0x180D}, {0x180F, 0x180F}, {0x200C, 0x200D}, {0xFE00, 0xFE0F}};

template <std::size_t count>
bool among(const Range (&ranges)[count], char32_t sign) {
    return std::any_of(std::begin(ranges), std::end(ranges),
                       [=](Range one) { return sign >= one.first && sign <= one.last; });
}

/// Scripts whose letters join, ideographs and pictures; a digit may be drawn on a key.
bool takes_shape(char32_t sign) {
    const bool key = (sign >= '0' && sign <= '9') || sign == '#' || sign == '*';
    const bool european = sign < 0x600 || (sign >= 0x1E00 && sign < 0x2190 && sign != 0x203C);
    return key || sign == 0xA9 || sign == 0xAE || !european;
}

}  // namespace

bool hidden(char32_t sign, char32_t before) {
    if (sign < 0x80) return sign == 0x7F || (sign < 0x20 && sign != '\t');
    if (among(never_seen, sign)) return true;
    if (!among(shaping, sign)) return false;
    const bool selector = sign != 0x200C && sign != 0x200D;  // one is enough for a sign
    return !takes_shape(before) || (selector && among(shaping, before));
}

}  // namespace levigate
