#pragma once
// Where hay that cattle pull out of a ring feeder comes to lie.

#include "core/geometry/polyline.h"

#include <vector>

namespace haylane {

// A closed line round each place, 2 m from it: a ring of 8 ft and what cattle drop just outside it
// (common practice, no source). Hay left over and dung lie as if walked along it, so no mass is
// lost.
[[nodiscard]] MultiPolyline around_rings(const std::vector<Point>& places);

}  // namespace haylane
