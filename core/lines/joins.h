#pragma once
// Ways between the lines of a load, driven forward only, no sharper than the rig turns, on ground
// that may be driven and off hay laid that day. Ranch frame, metres.

#include "core/geometry/region.h"
#include "core/lines/candidate_lines.h"

#include <optional>

namespace haylane {

// The way from the end of one line to the start of the next: points at most 1 m apart, both ends
// included; one point where the next line goes on where the one before ended. nullopt when none can
// be driven. `hay` is what was laid before, with `from`. turn_radius_m > 0. Cost: at most six turn
// paths, each about its length in metres.
[[nodiscard]] std::optional<Polyline> join(const Polyline& from, const Polyline& to,
                                           const MultiPolyline& hay, double turn_radius_m,
                                           const Region& drivable);

// The candidate with each line driven in the direction that throws the fewest lines into the wind,
// then makes its joins shortest in all, and their length; starts still keep away from gates.
// nullopt when no choice of directions can be driven, or a line ends where the rig has no room to
// turn away. As it is where the request gives no turning radius or ground. Cost: four joins a line.
[[nodiscard]] std::optional<Candidate> joined(const Candidate& candidate,
                                              const LineRequest& request);

}  // namespace haylane
