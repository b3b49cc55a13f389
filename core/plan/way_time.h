#pragma once
// Driving time of one way to lay a feeding: each load out to its first line's start, from line to
// line, and back from its last line's end. Infinity where a line cannot be reached.

#include "core/haul/travel_map.h"
#include "core/lines/candidate_lines.h"

#include <vector>

namespace haylane {

// `yards` by load. Safe to call from several threads.
[[nodiscard]] double way_time_s(const TravelMap& travel, PastureId pasture,
                                const std::vector<YardId>& yards, const Candidate& candidate);

}  // namespace haylane
