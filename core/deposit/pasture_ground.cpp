// The mask by scan lines; cells that an earlier pasture already holds are taken out, as overlaps go
// to the first in file order. Target cells are asked of the feedable ground one by one.
#include "core/deposit/pasture_ground.h"

#include "core/deposit/cells_inside.h"

#include <algorithm>

namespace haylane {

namespace {

std::size_t count_set(const Raster<std::uint8_t>& cells) {
    return static_cast<std::size_t>(
        std::count_if(cells.values.begin(), cells.values.end(), [](auto v) { return v != 0; }));
}

void remove_earlier(const Ranch& ranch, PastureId pasture, Raster<std::uint8_t>& mask) {
    const Box box = box_of(ranch[pasture].shape);
    for (std::size_t other = 0; other < pasture.index(); ++other) {
        const MultiPolygon& shape = ranch.pastures[other].shape;
        if (shape.empty() || !box.meets(box_of(shape))) continue;
        const Raster<std::uint8_t> taken = cells_inside(shape, mask.grid);
        for (std::size_t c = 0; c < mask.values.size(); ++c) {
            if (taken.values[c] != 0) mask.values[c] = 0;
        }
    }
}

}  // namespace

PastureGround pasture_ground(const Ranch& ranch, PastureId pasture,
                             const FeedableGround& dry_ground) {
    const Pasture& own = ranch[pasture];
    const Grid grid = grid_over(box_of(own.shape), ranch.settings.cell_m);
    PastureGround ground;
    ground.pasture = pasture;
    ground.mask = cells_inside(own.shape, grid);
    remove_earlier(ranch, pasture, ground.mask);
    ground.target = Raster<std::uint8_t>(grid);
    ground.weight_ratio = own.ground == Ground::native ? ranch.settings.native_weight_ratio : 1.0;
    if (own.feed && ground.weight_ratio > 0.0) {
        for (int j = 0; j < grid.ny; ++j) {
            for (int i = 0; i < grid.nx; ++i) {
                if (ground.mask(i, j) == 0) continue;
                ground.target(i, j) = dry_ground.allows(grid.center(i, j)) ? 1 : 0;
            }
        }
    }
    ground.cells = count_set(ground.mask);
    ground.target_cells = count_set(ground.target);
    return ground;
}

}  // namespace haylane
