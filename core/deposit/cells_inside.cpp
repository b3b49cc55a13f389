// Scan lines: each row's centre line is cut by every edge (half-open in y, so a vertex counts
// once), and the cells between pairs of cuts are filled.
#include "core/deposit/cells_inside.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace haylane {

namespace {

using RowCuts = std::vector<std::vector<double>>;

void cut_ring(const Ring& ring, const Grid& grid, RowCuts& cuts) {
    for (std::size_t v = 0; v < ring.size(); ++v) {
        Point a = ring[v];
        Point b = ring[(v + 1) % ring.size()];
        if (a.y == b.y) continue;
        if (a.y > b.y) std::swap(a, b);
        const int first = std::clamp(grid.row(a.y) - 1, 0, grid.ny);
        const int last = std::clamp(grid.row(b.y) + 1, -1, grid.ny - 1);
        for (int j = first; j <= last; ++j) {
            const double y = grid.center(0, j).y;
            if (y < a.y || y >= b.y) continue;
            cuts[static_cast<std::size_t>(j)].push_back(a.x +
                                                        (b.x - a.x) * (y - a.y) / (b.y - a.y));
        }
    }
}

}  // namespace

Raster<std::uint8_t> cells_inside(const MultiPolygon& shape, const Grid& grid) {
    RowCuts cuts(static_cast<std::size_t>(grid.ny));
    for (const Polygon& part : shape) {
        cut_ring(part.outer, grid, cuts);
        for (const Ring& hole : part.holes) cut_ring(hole, grid, cuts);
    }
    Raster<std::uint8_t> inside(grid);
    for (int j = 0; j < grid.ny; ++j) {
        std::vector<double>& row = cuts[static_cast<std::size_t>(j)];
        std::sort(row.begin(), row.end());
        for (std::size_t c = 0; c + 1 < row.size(); c += 2) {
            // Centres x0 + (i + 1/2) cell between the two cuts.
            const double lo = std::ceil((row[c] - grid.x0) / grid.cell_m - 0.5);
            const double hi = std::ceil((row[c + 1] - grid.x0) / grid.cell_m - 0.5);
            const int from = static_cast<int>(std::clamp(lo, 0.0, static_cast<double>(grid.nx)));
            const int to = static_cast<int>(std::clamp(hi, 0.0, static_cast<double>(grid.nx)));
            for (int i = from; i < to; ++i) inside(i, j) = 1;
        }
    }
    return inside;
}

}  // namespace haylane
