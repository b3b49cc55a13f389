#pragma once
// Curved lines along the contours of the terrain, smoothed until a rig can follow them, cut where a
// line may not go. Ground that is level, or whose elevation is not known, has none.

#include "core/lines/curve_runs.h"

namespace haylane {

// In order of elevation. line_radius_m > 0; spacing_m between lines. Cost: linear in the ground's
// box (at most about 250,000 cells) and the contours in it.
[[nodiscard]] CurveFamily contour_curves(const FeedableGround& ground, double line_radius_m,
                                         double spacing_m, int threads = 1);

}  // namespace haylane
