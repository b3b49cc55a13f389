#pragma once
// The exact length of a line in each cell it passes. Pieces outside the mask go to the nearest
// cell inside (by centres; ties to the lowest row, then column), so no mass is lost at the fence.
// Ranch frame, metres. A ground without cells gives nothing.

#include "core/deposit/band.h"
#include "core/deposit/pasture_ground.h"
#include "core/geometry/polyline.h"

#include <vector>

namespace haylane {

// Place in the raster of the mask cell that holds p, or of the nearest one. The mask must have a
// cell. Cost: squared distance in cells for points outside.
[[nodiscard]] std::uint32_t nearest_cell(Point p, const PastureGround& ground);

// Cells in the order walked, amount = length x kg_per_m; a cell may come up again.
[[nodiscard]] std::vector<CellAmount> cells_along(const Polyline& line, double kg_per_m,
                                                  const PastureGround& ground);
// One entry a cell, by cell; amounts add up in the order given.
[[nodiscard]] std::vector<CellAmount> merged(std::vector<CellAmount> cells);
// into += factor x cells.
void add_cells(const std::vector<CellAmount>& cells, double factor, Raster<double>& into);

}  // namespace haylane
