#pragma once
// Ways between the lines of a load, driven forward only, no sharper than the rig turns, on ground
// that may be driven and off hay laid that day. Ranch frame, metres.

#include "core/geometry/region.h"
#include "core/lines/candidate_lines.h"

#include <optional>
#include <vector>

namespace haylane {

// For each line, the way to its start from the end of the line before: points at most 1 m apart,
// both ends included. Empty for a load's first line (its way in is the haul stage's); one point
// where a line goes on where the one before ended. nullopt when some way cannot be driven.
// turn_radius_m > 0. Cost: at most six turn paths a line, each about its length in metres.
[[nodiscard]] std::optional<std::vector<Polyline>> joins(const Candidate& candidate,
                                                         double turn_radius_m,
                                                         const Region& drivable);

// The candidate with each line driven in the direction that throws the fewest lines into the wind,
// then makes its joins shortest in all; starts still keep away from gates. nullopt when no choice
// of directions can be driven. Needs request.turn_radius_m > 0 and request.drivable. Cost: four
// times that of joins.
[[nodiscard]] std::optional<Candidate> joined(const Candidate& candidate,
                                              const LineRequest& request);

}  // namespace haylane
