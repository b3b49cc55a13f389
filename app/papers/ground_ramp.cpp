// Between a few corners in OKLab whose lightness lies on one straight line.
#include "app/papers/ground_ramp.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

double linear(double channel) {
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double gamma(double channel) {
    const double cut = std::clamp(channel, 0.0, 1.0);
    return cut <= 0.0031308 ? 12.92 * cut : 1.055 * std::pow(cut, 1.0 / 2.4) - 0.055;
}

template <std::size_t N>
QColor between(const std::array<OkLab, N>& corners, double share) {
    const double place = std::clamp(share, 0.0, 1.0) * static_cast<double>(N - 1);
    const std::size_t low = std::min(N - 2, static_cast<std::size_t>(place));
    const double t = place - static_cast<double>(low);
    const OkLab& a = corners[low];
    const OkLab& b = corners[low + 1];
    return color_of({std::lerp(a.l, b.l, t), std::lerp(a.a, b.a, t), std::lerp(a.b, b.b, t)});
}

}  // namespace

OkLab oklab_of(const QColor& color) {
    const double r = linear(static_cast<double>(color.redF()));
    const double g = linear(static_cast<double>(color.greenF()));
    const double b = linear(static_cast<double>(color.blueF()));
    const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
    const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
    const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
    return {0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
            1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
            0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

QColor color_of(const OkLab& lab) {
    const double l = std::pow(lab.l + 0.3963377774 * lab.a + 0.2158037573 * lab.b, 3.0);
    const double m = std::pow(lab.l - 0.1055613458 * lab.a - 0.0638541728 * lab.b, 3.0);
    const double s = std::pow(lab.l - 0.0894841775 * lab.a - 1.2914855480 * lab.b, 3.0);
    return QColor::fromRgbF(
        static_cast<float>(gamma(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s)),
        static_cast<float>(gamma(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s)),
        static_cast<float>(gamma(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)));
}

QColor load_color(double share) {
    static constexpr std::array<OkLab, 5> kCorners{{{0.97, 0.000, 0.020},
                                                    {0.80, 0.020, 0.105},
                                                    {0.63, 0.075, 0.095},
                                                    {0.46, 0.085, 0.030},
                                                    {0.29, 0.060, -0.030}}};
    return between(kCorners, share);
}

QColor change_color(double share) {
    static constexpr std::array<OkLab, 3> kCorners{
        {{0.985, -0.004, -0.006}, {0.80, 0.000, 0.012}, {0.36, 0.110, 0.060}}};
    return between(kCorners, 0.5 * (share + 1.0));
}

int load_step(double value) {
    return static_cast<int>(std::upper_bound(kLoadSteps.begin(), kLoadSteps.end(), value) -
                            kLoadSteps.begin());
}

QColor step_color(int step) {
    return load_color(static_cast<double>(step) / static_cast<double>(kLoadSteps.size()));
}

QString step_label(int step) {
    if (step <= 0) return QStringLiteral("under %1").arg(kLoadSteps.front());
    const auto at = static_cast<std::size_t>(step);
    if (at >= kLoadSteps.size()) return QStringLiteral("over %1").arg(kLoadSteps.back());
    return QStringLiteral("%1 to %2").arg(kLoadSteps[at - 1]).arg(kLoadSteps[at]);
}

}  // namespace haylane
