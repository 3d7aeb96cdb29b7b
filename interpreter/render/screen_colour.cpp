#include "interpreter/render/screen_colour.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

namespace levigate {
namespace {

using Three = std::array<double, 3>;
using Matrix = std::array<Three, 3>;

// The white of D50 from its chromaticity 0.3457, 0.3585; Bradford's adaptation to D65; and the
// inverse of sRGB's primaries. As in W3C CSS Color 4, section "Sample code for colour conversions";
// tests/unit/render/screen_colour.cpp holds them against a table reckoned elsewhere.
constexpr Three white_d50{0.3457 / 0.3585, 1, (1 - 0.3457 - 0.3585) / 0.3585};
constexpr Matrix d50_to_d65{{{0.9554734527, -0.0230985369, 0.0632593087},
                             {-0.0283697070, 1.0099954580, 0.0210413990},
                             {0.0123140017, -0.0205076964, 1.3303659366}}};
constexpr Matrix to_srgb{{{3.2409699419, -1.5373831776, -0.4986107603},
                          {-0.9692436363, 1.8759675015, 0.0415550574},
                          {0.0556300797, -0.2039769589, 1.0569715142}}};

double number(const Exact& exact) {
    const std::string text = exact.fixed(9);
    double value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

Three times(const Matrix& matrix, const Three& vector) {
    Three out{};
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t i = 0; i < 3; ++i) out[row] += matrix[row][i] * vector[i];
    return out;
}

/// CIE 15: the cube, and the straight line near black.
double unfolded(double f) {
    constexpr double delta = 6.0 / 29;
    return f > delta ? f * f * f : 3 * delta * delta * (f - 4.0 / 29);
}

double encoded(double linear) {
    if (linear <= 0.0031308) return 12.92 * linear;
    return 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

}  // namespace

ScreenColour on_screen(const std::array<Exact, 3>& lab) {
    const double fy = (number(lab[0]) + 16) / 116;
    const double fx = fy + number(lab[1]) / 500, fz = fy - number(lab[2]) / 200;
    const Three xyz{white_d50[0] * unfolded(fx), white_d50[1] * unfolded(fy),
                    white_d50[2] * unfolded(fz)};
    const Three linear = times(to_srgb, times(d50_to_d65, xyz));
    ScreenColour out;
    for (std::size_t i = 0; i < 3; ++i) {
        const double step = 255 * encoded(linear[i]);
        out.cut = out.cut || !(step > -0.5 && step < 255.5);
        out.rgb[i] =
            static_cast<int>(std::lround(std::clamp(std::isfinite(step) ? step : 0.0, 0.0, 255.0)));
    }
    return out;
}

std::string ScreenColour::hex() const {
    return fmt::format("#{:02x}{:02x}{:02x}", rgb[0], rgb[1], rgb[2]);
}

}  // namespace levigate
