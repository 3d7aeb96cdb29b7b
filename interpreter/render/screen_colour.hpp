#pragma once
// A measured colour on a screen. The one place of a sheet where a double is good enough: a screen
// shows 256 steps.

#include <array>
#include <string>

#include "interpreter/formulary/formulary.hpp"

namespace levigate {

struct ScreenColour {
    std::array<int, 3> rgb{};  ///< sRGB, 0 to 255
    bool cut = false;          ///< the colour lies outside what an sRGB screen can show
    std::string hex() const;   ///< "#a0522d"
};

/// CIE Lab for the light D50 to sRGB (IEC 61966-2-1): adapted to D65 by Bradford's matrix, and each
/// channel cut to what there is.
ScreenColour on_screen(const std::array<Exact, 3>& lab);

}  // namespace levigate
