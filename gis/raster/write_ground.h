#pragma once
// The ground map as a GeoTIFF in the ranch frame: Float32 bands N, P2O5, K2O in kg/ha, nodata -9999
// outside pastures, tiled, DEFLATE, with overviews. The file is made beside its name and renamed.
// Each band's sum times the cell area is the mass of the maps to 1e-6.

#include "core/base/result.h"
#include "core/deposit/deposit_map.h"
#include "core/deposit/pasture_ground.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <span>

namespace haylane {

// One pasture's map; both on the same grid, not null.
struct GroundLayer {
    const PastureGround* ground = nullptr;
    const DepositMap* map = nullptr;
};

// All grids must have the same cell and be aligned to its multiples. Errors: nothing_to_write,
// file_not_written. Same input, same bytes.
[[nodiscard]] Result<void> write_ground_tif(const std::filesystem::path& file,
                                            std::span<const GroundLayer> layers,
                                            const Frame& frame);

}  // namespace haylane
