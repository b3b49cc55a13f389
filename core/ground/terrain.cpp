// Horn 1981, Proc. IEEE 69(1):14-47: the third-order finite difference over a 3x3 window. Its
// weights (1 2 1) smooth what a coarse or noisy raster has, which suits range land. Gradients are
// worked out once for the whole raster; a cell whose window holds a missing value has none, so the
// raster's outermost cells never have one.
#include "core/ground/terrain.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

constexpr float kMissing = std::numeric_limits<float>::quiet_NaN();

// The 3x3 window around a cell, rows from north to south; NaN where missing.
struct Window {
    double value[9];
    bool whole = true;
};

Window window_at(const Raster<float>& elevation, int i, int j) {
    Window window{};
    std::size_t k = 0;
    for (int dj = 1; dj >= -1; --dj) {
        for (int di = -1; di <= 1; ++di, ++k) {
            const double z = static_cast<double>(elevation(i + di, j + dj));
            window.value[k] = z;
            window.whole = window.whole && std::isfinite(z);
        }
    }
    return window;
}

// The two columns (or rows) of centres around a place and the share of the second one.
struct Between {
    int low = 0;
    int high = 0;
    double share = 0.0;
};

Between between_centers(double along_cells, int count) {
    const double place = std::clamp(along_cells - 0.5, 0.0, static_cast<double>(count - 1));
    const int low = static_cast<int>(place);
    return {low, std::min(low + 1, count - 1), place - low};
}

}  // namespace

double Gradient::slope_ratio() const { return std::hypot(east, north); }

Gradient horn_gradient(const double (&window)[9], double cell_m) {
    const auto& w = window;
    const double east = (w[2] + 2.0 * w[5] + w[8]) - (w[0] + 2.0 * w[3] + w[6]);
    const double north = (w[0] + 2.0 * w[1] + w[2]) - (w[6] + 2.0 * w[7] + w[8]);
    return {east / (8.0 * cell_m), north / (8.0 * cell_m)};
}

double downslope_azimuth_rad(const Gradient& gradient) {
    if (gradient.east == 0.0 && gradient.north == 0.0) return 0.0;
    return azimuth_rad({0.0, 0.0}, {-gradient.east, -gradient.north});
}

double along_grade_ratio(const Gradient& gradient, double heading_rad) {
    return gradient.east * std::sin(heading_rad) + gradient.north * std::cos(heading_rad);
}

double cross_slope_ratio(const Gradient& gradient, double heading_rad) {
    return std::abs(gradient.east * std::cos(heading_rad) - gradient.north * std::sin(heading_rad));
}

Terrain::Terrain(const TerrainData& data)
    : elevation_(data.elevation_m),
      east_(data.elevation_m.grid, kMissing),
      north_(data.elevation_m.grid, kMissing),
      own_cell_m_(data.own_cell_m) {
    const Grid& grid = elevation_.grid;
    for (int j = 1; j + 1 < grid.ny; ++j) {
        for (int i = 1; i + 1 < grid.nx; ++i) {
            const Window window = window_at(elevation_, i, j);
            if (!window.whole) continue;
            const Gradient gradient = horn_gradient(window.value, grid.cell_m);
            east_(i, j) = static_cast<float>(gradient.east);
            north_(i, j) = static_cast<float>(gradient.north);
        }
    }
}

std::optional<double> Terrain::elevation_m(Point p) const {
    const Grid& grid = elevation_.grid;
    if (!known() || !grid.holds(grid.column(p.x), grid.row(p.y))) return std::nullopt;
    const Between x = between_centers((p.x - grid.x0) / grid.cell_m, grid.nx);
    const Between y = between_centers((p.y - grid.y0) / grid.cell_m, grid.ny);
    double sum = 0.0;
    const auto add = [&](int i, int j, double weight) {
        if (weight > 0.0) sum += weight * static_cast<double>(elevation_(i, j));
    };
    add(x.low, y.low, (1.0 - x.share) * (1.0 - y.share));
    add(x.high, y.low, x.share * (1.0 - y.share));
    add(x.low, y.high, (1.0 - x.share) * y.share);
    add(x.high, y.high, x.share * y.share);
    if (!std::isfinite(sum)) return std::nullopt;
    return sum;
}

std::optional<Gradient> Terrain::gradient(Point p) const {
    const Grid& grid = elevation_.grid;
    if (!known()) return std::nullopt;
    const int i = grid.column(p.x);
    const int j = grid.row(p.y);
    if (!grid.holds(i, j) || !std::isfinite(east_(i, j))) return std::nullopt;
    return Gradient{static_cast<double>(east_(i, j)), static_cast<double>(north_(i, j))};
}

}  // namespace haylane
