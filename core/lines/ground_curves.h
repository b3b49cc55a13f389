#pragma once
// The curves of a ground along which lines may be laid: beside its boundary and along its contours.
// They do not depend on the loads, so feedings on one ground with one rig share them.

#include "core/lines/curve_runs.h"

namespace haylane {

struct GroundCurves {
    CurveFamily boundary{LineFamily::boundary, {}, 1};
    CurveFamily contour{LineFamily::contour, {}, 1};
};

// None for line_radius_m 0 (straight lines only). Rings that cannot be made leave the other
// families, which always can.
[[nodiscard]] GroundCurves curves_on(const FeedableGround& ground, double line_radius_m,
                                     double spacing_m, int threads = 1);

}  // namespace haylane
