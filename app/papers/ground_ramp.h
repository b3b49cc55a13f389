#pragma once
// Colours for amounts on the ground, from pale paper to dark: their lightness falls evenly in OKLab
// (Ottosson 2020), so that they read the same in black and white and to colour-blind eyes.

#include <array>

#include <QColor>
#include <QString>

namespace haylane {

struct OkLab {
    double l = 0.0;
    double a = 0.0;
    double b = 0.0;
};
[[nodiscard]] OkLab oklab_of(const QColor& color);
// The nearest colour of a screen; out-of-gamut channels are cut off.
[[nodiscard]] QColor color_of(const OkLab& lab);

// Amounts: hay-pale at 0 to dark plum at 1.
[[nodiscard]] QColor load_color(double share);
// Changes: near white for less (-1) by a pale grey for as before to dark rust for more (1).
[[nodiscard]] QColor change_color(double share);

// Fixed steps, so that all maps can be compared: 1, 2, 5, ... 500 in the unit shown.
inline constexpr std::array<double, 9> kLoadSteps{1, 2, 5, 10, 20, 50, 100, 200, 500};
// 0 below the first step ... 9 above the last.
[[nodiscard]] int load_step(double value);
[[nodiscard]] QColor step_color(int step);
[[nodiscard]] QString step_label(int step);  // "under 1", "5 to 10", "over 500"

}  // namespace haylane
