#include "core/plan/ground_so_far.h"

#include <algorithm>

namespace haylane {

GroundSoFar ground_so_far(const PastureGround& ground, const Raster<double>& seen,
                          const std::vector<PlannedLine>& lines) {
    GroundSoFar so_far;
    const Grid& grid = seen.grid;
    double samples = 0.0;
    for (const PlannedLine& line : lines) {
        for (const Point p : densified(line.path, grid.cell_m)) {
            const int i = grid.column(p.x);
            const int j = grid.row(p.y);
            if (!grid.holds(i, j)) continue;
            so_far.here_per_m2 += seen(i, j);
            samples += 1.0;
        }
    }
    if (samples > 0.0) so_far.here_per_m2 /= samples * grid.cell_area_m2();
    for (std::size_t c = 0; c < seen.values.size(); ++c) {
        if (ground.mask.values[c] == 0) continue;
        so_far.mean_per_m2 += seen.values[c];
        so_far.heaviest_per_m2 = std::max(so_far.heaviest_per_m2, seen.values[c]);
    }
    so_far.mean_per_m2 /=
        std::max<double>(1.0, static_cast<double>(ground.cells)) * grid.cell_area_m2();
    so_far.heaviest_per_m2 /= grid.cell_area_m2();
    return so_far;
}

}  // namespace haylane
