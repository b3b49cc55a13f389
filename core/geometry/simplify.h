#pragma once
// A line with fewer points that keeps within a tolerance of the one it stands for.

#include "core/geometry/polyline.h"

namespace haylane {

// Douglas and Peucker (1973): some of the line's own points, both ends among them, so that no point
// left out lies farther than `tolerance_m` from the segment that now passes it. Lines of fewer than
// three points come back as they are; with tolerance 0 only points on the straight way go. It may
// cross itself where the line did not. Cost: points x points kept at worst, points x log usually.
[[nodiscard]] Polyline simplified(const Polyline& line, double tolerance_m);

}  // namespace haylane
