#pragma once
// A line with fewer points: Douglas and Peucker 1973, by GEOS.

#include "core/base/result.h"
#include "core/geometry/polyline.h"

namespace haylane {

// Ends stay, no point is moved, and no point that is left out lay farther than the tolerance from
// what is left. A line of fewer than three points comes back as it is. Cost: n log n as a rule, n^2
// at worst. Error: geometry_failed.
[[nodiscard]] Result<Polyline> simplified(const Polyline& line, double tolerance_m);

}  // namespace haylane
