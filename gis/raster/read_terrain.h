#pragma once
// Elevation under a box of the ranch frame from any plain raster: bilinear between the file's cells
// at the file's own resolution, metres, row 0 south, NaN where unknown. Cells next to unknown ones
// are unknown: heights are never invented.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "core/ranch/ranch.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <string>

namespace haylane {

struct TerrainOptions {
    int most_cells_a_side = 8000;  // beyond that the terrain is made coarser, with a problem
};

struct TerrainRead {
    TerrainData data;
    double least_m = 0.0;
    double most_m = 0.0;
    std::string operation;  // of the coordinate system, for `assumptions`
    Problems problems;      // terrain_unit_assumed, terrain_coarser, terrain_impossible_heights
};

// Errors: those of load_terrain, and terrain_no_elevation when every cell is unknown.
// Cost: linear in cells, one projection call a 256 cells.
[[nodiscard]] Result<TerrainRead> read_terrain(const std::filesystem::path& file,
                                               const Frame& frame, const Box& box,
                                               const TerrainOptions& options = {});

}  // namespace haylane
