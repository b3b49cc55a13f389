#pragma once
// How far lines stay from one another: enough, half enough, or too close. Ranch frame, metres.

#include "core/geometry/polyline.h"

namespace haylane {

enum class Clearance : unsigned char {
    touching,  // closer than half the spacing
    near,      // at least half the spacing
    clear      // at least the spacing
};

// Least distance between the lines, or `cap_m` when they are at least that far apart; 0 where they
// cross. A line without points is far from everything. Cost: segment pairs whose boxes are near.
[[nodiscard]] double capped_distance_m(const Polyline& a, const Polyline& b, double cap_m);
[[nodiscard]] Clearance clearance(const Polyline& a, const Polyline& b, double spacing_m);

}  // namespace haylane
