#pragma once
// Curved lines along the contours of the terrain, smoothed until a rig can follow them, cut where a
// line may not go. Ground that is level, or whose elevation is not known, has none.

#include "core/lines/candidate_lines.h"

#include <vector>

namespace haylane {

// At most about twice `wanted` ways, in order of elevation. Needs request.line_radius_m > 0. Paths
// are resampled at an even step of at most 2 m; the caller still judges them (line_faults) and
// thins. Cost: linear in the ground's box (at most about 250,000 cells) and the contours in it.
[[nodiscard]] std::vector<Candidate> contour_candidates(const FeedableGround& ground,
                                                        const LineRequest& request, int wanted);

}  // namespace haylane
