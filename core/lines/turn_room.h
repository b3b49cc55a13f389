#pragma once
// Whether a rig can turn away at the end of a line without backing up. Ranch frame, metres.

#include "core/geometry/polyline.h"
#include "core/geometry/region.h"

namespace haylane {

// Whether a quarter turn to the left or to the right, driven on from the line's end, stays on
// ground that may be driven. A line of fewer than two points has room. radius_m > 0. Cost: two
// arcs.
[[nodiscard]] bool has_room_to_turn(const Polyline& line, double radius_m, const Region& drivable);

}  // namespace haylane
