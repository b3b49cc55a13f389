#pragma once
// How far water from each cell runs over the ground before it reaches off-limits water or wetland:
// the length of its steepest way down, from cell to cell (D8: O'Callaghan and Mark 1984), hollows
// filled first (priority flood: Barnes, Lehman and Mulla 2014). Ranch frame, metres.

#include "core/geometry/raster.h"
#include "core/ranch/ranch.h"

#include <cstdint>

namespace haylane {

// Cells that hold off-limits water or wetland: their areas, and what their lines and points touch.
[[nodiscard]] Raster<std::uint8_t> water_cells(const Ranch& ranch, const Grid& grid);
// Metres of flow from each cell's centre to a water cell; 0 in water, infinity where the flow ends
// at the raster's edge or at unknown ground, or the ground is unknown (NaN). `water` stands on the
// same grid. Flow beyond the raster is not known: take it larger than the ground asked about by
// what counts as near. Cost: n log n.
[[nodiscard]] Raster<double> flow_to_water_m(const Raster<float>& elevation_m,
                                             const Raster<std::uint8_t>& water);
// The part of a raster that covers a box, on its own cells.
[[nodiscard]] Raster<float> cut_out(const Raster<float>& raster, const Box& box);

}  // namespace haylane
