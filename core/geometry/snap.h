#pragma once
// Where a pointer is meant to be: on a corner nearby, else on a fence nearby, else where it is.

#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"

namespace haylane {

// `lines`: closed rings repeat their first point (see boundary_lines). Cost: one look at every
// piece.
[[nodiscard]] Point snapped(Point p, const MultiPolyline& lines, double within_m);

}  // namespace haylane
