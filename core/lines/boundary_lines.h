#pragma once
// Curved lines beside the boundary of the feedable ground: rings at growing distances inside it,
// rounded until a rig can follow them, cut where a line may not go.

#include "core/base/result.h"
#include "core/lines/curve_runs.h"

namespace haylane {

// In order of distance from the boundary. line_radius_m > 0; spacing_m between lines. Errors:
// geometry_failed. Cost: about five buffers a ring.
[[nodiscard]] Result<CurveFamily> boundary_curves(const FeedableGround& ground,
                                                  double line_radius_m, double spacing_m,
                                                  int threads = 1);

}  // namespace haylane
