#pragma once
// Cuts an area along a line, as a cross fence does, and joins areas that touch. Cost: GEOS overlay.

#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"

#include <vector>

namespace haylane {

// The parts, the largest first; holes stay holes. `line` may reach beyond the area, or end within
// a metre of its fence. Errors:
// not_cut when it does not go from fence to fence, geometry_failed.
[[nodiscard]] Result<std::vector<MultiPolygon>> split_shape(const MultiPolygon& shape,
                                                            const Polyline& line);

// One area of them all. Errors: not_touching when they share no stretch of fence,
// geometry_failed.
[[nodiscard]] Result<MultiPolygon> join_shapes(const std::vector<MultiPolygon>& shapes);

}  // namespace haylane
