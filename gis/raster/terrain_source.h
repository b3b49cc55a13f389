#pragma once
// The part of an elevation raster that lies under a box of the ranch frame, as loaded: the file's
// own cells (or coarser where there are too many), impossible heights made NaN and counted.

#include "core/base/result.h"
#include "core/geometry/point.h"
#include "gis/crs/to_lonlat.h"

#include <array>
#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct TerrainSource {
    ToLonLat door;                     // of the file's coordinate system
    std::array<double, 6> to_cells{};  // file x, y -> column, row of `height` (cell centres at .5)
    int nx = 0;
    int ny = 0;
    std::vector<float> height;  // row 0 north as stored; NaN unknown; unit of the file
    double cell_x = 0.0;        // one loaded cell in the file's units
    double cell_y = 0.0;
    int coarser_by = 1;          // 1 = the file's own cells
    std::string unit;            // as tagged; empty = none
    std::size_t impossible = 0;  // heights like -9999 or 3e38 without a nodata mark
    std::size_t unknown = 0;     // nodata cells
};

// Error codes: file_missing, file_unreadable, terrain_no_georeference, terrain_no_crs,
// terrain_no_overlap, terrain_no_cells, terrain_damaged.
[[nodiscard]] Result<TerrainSource> load_terrain(const std::filesystem::path& file,
                                                 const Frame& frame, const Box& box,
                                                 int most_cells_a_side);

}  // namespace haylane
