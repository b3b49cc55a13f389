#pragma once
// Which cells of a grid have their centre inside a shape (even-odd; a centre on an edge may go
// either way). An empty shape gives no cells. Cost: rows x edges.

#include "core/geometry/polygon.h"
#include "core/geometry/raster.h"

#include <cstdint>

namespace haylane {

// 1 where the centre lies inside, else 0.
[[nodiscard]] Raster<std::uint8_t> cells_inside(const MultiPolygon& shape, const Grid& grid);

}  // namespace haylane
