// The sine is meant over the pieces of the lines by their lengths. No measurement of fines against
// wind was found: the form is an assumption, and both numbers are 0 until a rig trial gives them.
#include "core/plan/laying_wind.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kBreeze_m_per_s = 5.0 * units::kMetersPerSecondPerMph;
constexpr double kMostFines_ratio = 0.5;

// Mean of |sin(heading - wind)|.
double share_across(const MultiPolyline& lines, double wind_from_rad) {
    const Point wind = along_azimuth(wind_from_rad);
    double across = 0.0;
    double length = 0.0;
    for (const Polyline& line : lines) {
        for (std::size_t i = 0; i + 1 < line.size(); ++i) {
            across += std::abs(cross(line[i + 1] - line[i], wind));
            length += distance_m(line[i], line[i + 1]);
        }
    }
    return length > 0.0 ? across / length : 0.0;
}

}  // namespace

std::optional<double> laying_wind_from_rad(const Ranch& ranch, const Rig& rig, sys_days day) {
    const WeatherDay* weather = weather_on(ranch, day);
    if (rig.method != Method::shred || weather == nullptr) return std::nullopt;
    if (weather->wind_m_per_s.value_or(kBreeze_m_per_s) < kBreeze_m_per_s) return std::nullopt;
    return weather->wind_from_rad;
}

double fines_ratio(const Ranch& ranch, const Rig& rig, sys_days day, const MultiPolyline& lines) {
    if (rig.method != Method::shred) return 0.0;
    const Settings& s = ranch.settings;
    const WeatherDay* weather = weather_on(ranch, day);
    double ratio = s.fines_still_ratio;
    if (weather != nullptr && weather->wind_from_rad && weather->wind_m_per_s)
        ratio += s.fines_per_wind_s_per_m * *weather->wind_m_per_s *
                 share_across(lines, *weather->wind_from_rad);
    return std::min(ratio, kMostFines_ratio);
}

}  // namespace haylane
