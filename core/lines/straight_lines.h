#pragma once
// Straight families: parallel swaths across the feedable ground at every heading and along its long
// edges, cut where a line may not go, with the loads laid end to end and swath beside swath.

#include "core/lines/candidate_lines.h"

#include <vector>

namespace haylane {

// At least about `wanted` ways where the ground has them, seldom over twice that; ordered by
// heading, offset and start. All loads have bales and a length. Lines lie on allowed ground; the
// caller still judges them (line_faults) and thins.
[[nodiscard]] std::vector<Candidate> straight_candidates(const FeedableGround& ground,
                                                         const LineRequest& request, int wanted);

}  // namespace haylane
