#pragma once
// Curved lines beside the boundary of the feedable ground: rings at growing distances inside it,
// rounded until a rig can follow them, cut where a line may not go.

#include "core/base/result.h"
#include "core/lines/candidate_lines.h"

#include <vector>

namespace haylane {

// At most about twice `wanted` ways, in order of distance from the boundary. Needs
// request.line_radius_m > 0. Paths are resampled at an even step of at most 2 m; the caller still
// judges them (line_faults) and thins. Errors: geometry_failed. Cost: about five buffers a ring.
[[nodiscard]] Result<std::vector<Candidate>> boundary_candidates(const FeedableGround& ground,
                                                                 const LineRequest& request,
                                                                 int wanted);

}  // namespace haylane
