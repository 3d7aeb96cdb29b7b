// Measured colours on a screen, against figures from elsewhere.
#include <catch2/catch.hpp>

#include "interpreter/render/screen_colour.hpp"

using namespace levigate;

namespace {

struct Known {
    const char* name;
    std::array<const char*, 3> lab;  // for D50
    std::array<int, 3> rgb;
};

// The columns L_D50_bradford, a_D50, b_D50 and R8 G8 B8 of the project's table of colours, which
// were reckoned from sRGB to Lab with other code (exact fractions of W3C CSS Color 4, Bradford).
const Known table[] = {
    {"white", {"100", "0", "0"}, {255, 255, 255}},
    {"black", {"0", "0", "0"}, {0, 0, 0}},
    {"red", {"54.2905", "80.8049", "69.8910"}, {255, 0, 0}},
    {"green", {"87.8185", "-79.2711", "80.9946"}, {0, 255, 0}},
    {"blue", {"29.5683", "68.2874", "-112.0297"}, {0, 0, 255}},
    {"yellow", {"97.6070", "-15.7498", "93.3936"}, {255, 255, 0}},
    {"cyan", {"90.6660", "-50.6565", "-14.9617"}, {0, 255, 255}},
    {"magenta", {"60.1689", "93.5396", "-60.5008"}, {255, 0, 255}},
    {"grey128", {"53.5850", "0", "0"}, {128, 128, 128}},
    {"grey119", {"50.0344", "0", "0"}, {119, 119, 119}},
    {"maroon128", {"26.1652", "48.4725", "39.4393"}, {128, 0, 0}},
    {"crimson", {"47.8786", "71.2758", "35.4817"}, {220, 20, 60}},
    {"indianred", {"53.9252", "45.7516", "23.1557"}, {205, 92, 92}},
    {"firebrick", {"39.8305", "56.5886", "39.1857"}, {178, 34, 34}},
    {"rosybrown", {"63.7910", "17.5552", "6.9576"}, {188, 143, 143}},
    {"palevioletred", {"60.9096", "45.4001", "1.2117"}, {219, 112, 147}},
    {"sienna", {"44.2749", "30.9110", "36.3477"}, {160, 82, 45}},
    {"near_black", {"0.5927", "0.1678", "0.4777"}, {3, 2, 1}},
};

/// "-79.2711" as the fraction that it is.
Exact exact(std::string_view text) {
    const bool minus = text.starts_with('-');
    Exact value, scale = 1;
    bool behind = false;
    for (const char c : text.substr(minus ? 1 : 0)) {
        behind = behind || c == '.';
        if (c == '.') continue;
        value = value * 10 + Exact(c - '0');
        if (behind) scale *= 10;
    }
    return (minus ? Exact(-1) : Exact(1)) * value / scale;
}

}  // namespace

TEST_CASE("a measured colour becomes the screen's colour", "[swatch]") {
    for (const Known& known : table) {
        INFO(known.name);
        const ScreenColour came =
            on_screen({exact(known.lab[0]), exact(known.lab[1]), exact(known.lab[2])});
        CHECK(came.rgb == known.rgb);
        CHECK_FALSE(came.cut);
    }
}

TEST_CASE("what no screen shows is cut, and said to be", "[swatch]") {
    const ScreenColour deep = on_screen({Exact(30), Exact(120), Exact(0)});
    CHECK(deep.cut);
    const ScreenColour bright = on_screen({Exact(150), Exact(0), Exact(0)});
    CHECK(bright.cut);
    CHECK(bright.hex() == "#ffffff");
    CHECK(on_screen({Exact(0), Exact(0), Exact(0)}).hex() == "#000000");
}
