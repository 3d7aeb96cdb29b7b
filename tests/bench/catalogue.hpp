#pragma once
// The catalogue that the benchmark reckons: invented, generated, the same on every machine.

#include <fmt/format.h>

#include <cstdint>
#include <string>

namespace levigate::bench {

/// A small generator of our own, so that every machine gets the same text.
struct Dice {
    std::uint64_t state = 1;
    std::uint32_t roll(std::uint32_t from, std::uint32_t to) {
        state = state * 6364136223846793005u + 1442695040888963407u;
        return from + static_cast<std::uint32_t>((state >> 33) % (to - from + 1));
    }
};

inline std::string materials() {
    std::string text;
    // Numbers that both regions know, one of them with a limit on colour in the US.
    static constexpr const char* numbers[] = {"CI 77491", "CI 77891", "CI 17200, strength 10 %",
                                              "CI 15850:1", "CI 77499"};
    static constexpr const char* names[] = {"Iron Oxides", "Titanium Dioxide", "Red 33 Lake",
                                            "Red 7 Lake", "Iron Oxides"};
    for (int i = 0; i < 60; ++i)
        text += fmt::format("material mica {}\n    role        mica\n    density     2.8 g/mL\n"
                            "    label       Mica 60 %, {} 40 %\n    colourant   {}\n\n",
                            i, names[i % 5], numbers[i % 5]);
    for (const char* other : {"soft base|base", "hard wax|wax", "light oil|oil", "white clay|clay",
                              "light thinner|thinner"}) {
        const std::string_view both(other);
        const std::size_t bar = both.find('|');
        text += fmt::format("material {}\n    role        {}\n    density     0.9 g/mL\n\n",
                            both.substr(0, bar), both.substr(bar + 1));
    }
    return text;
}

/// 10 bases, 50 shared blends, and `shades` shades like one of the bases; as made and matte, two
/// batches each: four sheets a shade.
inline std::string catalogue(int shades) {
    Dice dice;
    std::string text = materials();
    for (int b = 0; b < 50; ++b) {
        text += fmt::format("blend pearl {}\n    role        mica\n", b);
        const std::uint32_t first = dice.roll(0, 14);
        for (std::uint32_t i = 0; i < 4; ++i)
            text += fmt::format("    {} parts     mica {}\n", dice.roll(1, 9), first + i * 15);
        text += '\n';
    }
    for (int b = 0; b < 10; ++b)
        text += fmt::format("shade Base {}\n    rest        soft base\n    {}.5 %       hard wax\n"
                            "    {} %         light oil\n    {} %         pearl {}\n"
                            "    finishes    satin, matte\n    batch       trial  60 g\n"
                            "    batch       full   250 g, overage 5 %\n\n",
                            b, dice.roll(5, 12), dice.roll(3, 9), dice.roll(5, 15), b);
    // Each swaps its base's blend for one of the fifty, and adds two micas, or one (3 in 20).
    for (int i = 0; i < shades; ++i) {
        const int base = i % 10;
        const std::uint32_t pearl = dice.roll(0, 49), mica = dice.roll(0, 59);
        text += fmt::format("shade Shade {} like Base {}\n", i, base);
        if (pearl != static_cast<std::uint32_t>(base))
            text += fmt::format("    swap        pearl {} for pearl {}\n", base, pearl);
        text += fmt::format("    set         {}.{} %       pearl {}\n", dice.roll(5, 19),
                            dice.roll(0, 9), pearl);
        text += fmt::format("    add         {}.{} %       mica {}\n", dice.roll(1, 4),
                            dice.roll(0, 9), mica);
        if (i % 20 < 17)
            text += fmt::format("    add         {}.{} %       mica {}\n", dice.roll(1, 4),
                                dice.roll(0, 9), (mica + 7) % 60);
        text += '\n';
    }
    return text + "finish matte\n    add         as much white clay as the base\n"
                  "    add         1/4 × as much light thinner as the base\n";
}

/// One shade after another with all its own lines, about `lines` lines of text.
inline std::string long_file(int lines) {
    Dice dice;
    std::string text = materials();
    for (int i = 0; i * 10 < lines - 380; ++i) {
        text += fmt::format("shade Shade {}\n    rest        soft base\n", i);
        for (int m = 0; m < 5; ++m)
            text +=
                fmt::format("    {}.{} %       mica {}\n", dice.roll(1, 5), dice.roll(0, 9), m * 9);
        text += "    batch       trial  60 g\n    expect      the mica at most 30 %\n\n";
    }
    return text;
}

}  // namespace levigate::bench
