#include "core/deposit/around_rings.h"

#include "core/base/units.h"

#include <cmath>

namespace haylane {

MultiPolyline around_rings(const std::vector<Point>& places) {
    constexpr double kAway_m = 2.0;
    constexpr int kSides = 16;
    MultiPolyline around;
    for (const Point place : places) {
        Polyline circle;
        for (int k = 0; k <= kSides; ++k)
            circle.push_back(place +
                             along_azimuth(2.0 * units::kPi * (k % kSides) / kSides) * kAway_m);
        around.push_back(std::move(circle));
    }
    return around;
}

}  // namespace haylane
