// Elevation around the ground is sampled on a grid and smoothed by a Gaussian about as wide as the
// least radius: a contour that crosses the bottom of a V-shaped draw at 45 degrees to either side
// then bends at 0.8 / sigma. Where nothing is known the mean goes over what is (normalised
// convolution: Knutsson and Westin 1993, CVPR). Contours are traced at an even step of elevation,
// half a spacing apart on a middling slope; where it is steeper they lie closer and lines take the
// first contour that is far enough. Summits, saddles and sharp draws still bend too much and are
// cut out.
#include "core/lines/contour_lines.h"

#include "core/base/parallel.h"
#include "core/lines/isolines.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace haylane {

namespace {

constexpr double kRadiusMargin = 1.1;
constexpr double kLeastCell_m = 2.0;
constexpr double kMostCells = 250000.0;
constexpr double kReach = 3.0;        // of the Gaussian, in sigmas
constexpr double kKnownShare = 0.5;   // of a cell's window
constexpr double kLevelRatio = 0.01;  // gentler ground has no contours worth following
constexpr double kMostContours = 400.0;
constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

struct Smoothing {
    double sigma_m = 0.0;
    double cell_m = 0.0;
};

Smoothing smoothing_for(const FeedableGround& ground, double radius_m) {
    const Box& box = ground.region.box();
    const double wanted = std::max(kRadiusMargin * radius_m, ground.terrain->own_cell_m());
    const Box around = box.grown_by(kReach * wanted);
    const double area = (around.max_x - around.min_x) * (around.max_y - around.min_y);
    const double cell = std::max({kLeastCell_m, wanted / 3.0, std::sqrt(area / kMostCells)});
    return {std::max(wanted, cell), cell};
}

// Elevation where it is known, and 1 there; 0 and 0 elsewhere.
struct Known {
    Raster<double> elevation_m;
    Raster<double> share;
};

// Rows are summed into rows, or columns into columns, by `along`.
Raster<double> blurred(const Raster<double>& from, const std::vector<double>& kernel, bool along) {
    Raster<double> to(from.grid);
    const int reach = static_cast<int>(kernel.size()) / 2;
    const double* const middle = kernel.data() + reach;
    const int n = along ? from.grid.nx : from.grid.ny;
    for (int j = 0; j < from.grid.ny; ++j) {
        for (int i = 0; i < from.grid.nx; ++i) {
            const int at = along ? i : j;
            double sum = 0.0;
            for (int k = std::max(-reach, -at); k <= std::min(reach, n - 1 - at); ++k)
                sum += middle[k] * (along ? from(i + k, j) : from(i, j + k));
            to(i, j) = sum;
        }
    }
    return to;
}

std::vector<double> gaussian(double sigma_cells) {
    const int reach = static_cast<int>(std::ceil(kReach * sigma_cells));
    std::vector<double> kernel;
    double sum = 0.0;
    for (int k = -reach; k <= reach; ++k) {
        kernel.push_back(std::exp(-k * k / (2.0 * sigma_cells * sigma_cells)));
        sum += kernel.back();
    }
    for (double& weight : kernel) weight /= sum;
    return kernel;
}

Known known_around(const FeedableGround& ground, const Smoothing& smoothing) {
    const Box around = ground.region.box().grown_by(kReach * smoothing.sigma_m);
    Known known{Raster<double>(grid_over(around, smoothing.cell_m)),
                Raster<double>(grid_over(around, smoothing.cell_m))};
    const Grid& grid = known.share.grid;
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const auto z = ground.terrain->elevation_m(grid.center(i, j));
            if (!z) continue;
            known.elevation_m(i, j) = *z;
            known.share(i, j) = 1.0;
        }
    }
    return known;
}

// Not finite where too little is known.
Raster<double> smoothed_terrain(const FeedableGround& ground, const Smoothing& smoothing) {
    const Known known = known_around(ground, smoothing);
    const std::vector<double> kernel = gaussian(smoothing.sigma_m / smoothing.cell_m);
    Raster<double> smooth = blurred(blurred(known.elevation_m, kernel, true), kernel, false);
    const Raster<double> share = blurred(blurred(known.share, kernel, true), kernel, false);
    for (std::size_t k = 0; k < smooth.values.size(); ++k)
        smooth.values[k] =
            share.values[k] < kKnownShare ? kMissing : smooth.values[k] / share.values[k];
    return smooth;
}

// Slope of an inner cell; not finite where a neighbour is not.
double slope_ratio_at(const Raster<double>& z, int i, int j) {
    const double run = 2.0 * z.grid.cell_m;
    return std::hypot((z(i + 1, j) - z(i - 1, j)) / run, (z(i, j + 1) - z(i, j - 1)) / run);
}

// The smoothed terrain where contours are worth following, and how to step through it.
struct Hills {
    Raster<double> elevation_m;
    Isovalues levels;
};

std::optional<Hills> hills_on(const FeedableGround& ground, const Smoothing& smoothing,
                              double spacing_m) {
    const Raster<double> z = smoothed_terrain(ground, smoothing);
    const Box box = ground.region.box().grown_by(2.0 * z.grid.cell_m);
    Hills hills{Raster<double>(z.grid, kMissing), {}};
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    double slopes = 0.0;
    int cells = 0;
    for (int j = 1; j + 1 < z.grid.ny; ++j) {
        for (int i = 1; i + 1 < z.grid.nx; ++i) {
            const double slope = slope_ratio_at(z, i, j);
            if (!(slope >= kLevelRatio) || !box.contains(z.grid.center(i, j))) continue;
            hills.elevation_m(i, j) = z(i, j);
            if (slope > ground.slope_limit_ratio) continue;
            low = std::min(low, z(i, j));
            high = std::max(high, z(i, j));
            slopes += slope;
            ++cells;
        }
    }
    if (cells == 0 || !(high > low)) return std::nullopt;
    const double step = std::max(slopes / cells * spacing_m / 2.0, (high - low) / kMostContours);
    hills.levels = {low + step / 2.0, step, static_cast<int>(std::ceil((high - low) / step))};
    return hills;
}

}  // namespace

CurveFamily contour_curves(const FeedableGround& ground, double line_radius_m, double spacing_m,
                           int threads) {
    CurveFamily contours{LineFamily::contour, {}, 2};
    if (ground.region.empty() || ground.terrain == nullptr || !ground.terrain->known())
        return contours;
    const Smoothing smoothing = smoothing_for(ground, line_radius_m);
    const auto hills = hills_on(ground, smoothing, std::max(spacing_m, 1.0));
    if (!hills) return contours;
    const RunRules rules{line_radius_m, std::max(2.0, smoothing.cell_m), spacing_m};
    const std::vector<MultiPolyline> traced = isolines(hills->elevation_m, hills->levels);
    contours.levels.resize(traced.size());
    parallel_for(traced.size(), threads,
                 [&](std::size_t k) { contours.levels[k] = runs_along(ground, traced[k], rules); });
    return contours;
}

}  // namespace haylane
