#pragma once
// A pasture as cells: which cells are its own, which of them are target ground, and how much weight
// each has. Cells are aligned to multiples of cell_m in the ranch frame and belong to the first
// pasture in file order that holds their centre.

#include "core/geometry/raster.h"
#include "core/ground/feedable_ground.h"
#include "core/ranch/ranch.h"

#include <cstdint>
#include <vector>

namespace haylane {

struct PastureGround {
    PastureId pasture;
    Raster<std::uint8_t> mask;    // 1 in the pasture
    Raster<std::uint8_t> target;  // 1 on feedable ground in dry weather with weight > 0
    double weight_ratio = 1.0;    // native ground last: 0.2
    std::size_t cells = 0;
    std::size_t target_cells = 0;
};

// Cells that an earlier pasture in file order holds are not in the mask. A pasture with feed = no
// has no target cells; one too small to hold a cell centre has no cells, and nothing is laid on it.
// Cost: rows x edges, and one question to the feedable ground a cell.
[[nodiscard]] PastureGround pasture_ground(const Ranch& ranch, PastureId pasture,
                                           const FeedableGround& dry_ground);

}  // namespace haylane
