#pragma once
// How far lines stay from one another: enough, half enough, or too close. Ranch frame, metres.

#include "core/geometry/polyline.h"

namespace haylane {

enum class Clearance : unsigned char {
    touching,  // closer than half the spacing
    near,      // at least half the spacing
    clear      // at least the spacing
};

// A line without points is clear of everything. No closer look is taken once the answer is known to
// be `bad_enough` or worse: of what is worse, either may then be answered.
[[nodiscard]] Clearance clearance(const Polyline& a, const Polyline& b, double spacing_m,
                                  Clearance bad_enough = Clearance::touching);

}  // namespace haylane
