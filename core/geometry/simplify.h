#pragma once
// A line with fewer points that stands for the one it was made of: to measure by, within a
// tolerance of it; to look at, with its shapes.

#include "core/geometry/polyline.h"

#include <limits>

namespace haylane {

// Douglas and Peucker (1973): some of the line's own points, both ends among them, so that no point
// left out lies farther than `tolerance_m` from the segment that now passes it. Lines of fewer than
// three points come back as they are; with tolerance 0 only points on the straight way go. It may
// cross itself where the line did not. Cost: points x points kept at worst, points x log usually.
[[nodiscard]] Polyline simplified(const Polyline& line, double tolerance_m);

// Visvalingam and Whyatt (1993): takes out, one after the other, the point whose triangle with its
// neighbours is the least, as long as that is at most `area_m2`; the ends stay. The areas are those
// of the line as thinned so far. A narrow way there and back would go whole, however long; so a
// point where the line turns back (by 90 degrees or more) stays when it lies farther than `tip_m`
// from the segment that would pass it. No measure holds for the rest: not for measuring by. Cost:
// points x log points, always.
[[nodiscard]] Polyline simplified_by_area(const Polyline& line, double area_m2,
                                          double tip_m = std::numeric_limits<double>::infinity());

}  // namespace haylane
