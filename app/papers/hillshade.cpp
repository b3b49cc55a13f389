// Slope by central differences, shaded by the cosine of the angle to a light from the northwest, 45
// degrees high (Lambert). Tones run from warm grey to paper white.

#include "app/papers/map_painter.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

constexpr double kExaggeration = 3.0;
const double kLightX = -0.5;
const double kLightY = 0.5;
const double kLightZ = std::sqrt(0.5);

double elevation_at(const Raster<float>& raster, int i, int j) {
    const Grid& grid = raster.grid;
    return static_cast<double>(
        raster(std::clamp(i, 0, grid.nx - 1), std::clamp(j, 0, grid.ny - 1)));
}

// Cosine to the light, or NaN where the elevation is unknown.
double light_at(const Raster<float>& raster, int i, int j, int step) {
    const double run = 2.0 * step * raster.grid.cell_m;
    const double east =
        (elevation_at(raster, i + step, j) - elevation_at(raster, i - step, j)) / run;
    const double north =
        (elevation_at(raster, i, j + step) - elevation_at(raster, i, j - step)) / run;
    const double x = -kExaggeration * east;
    const double y = -kExaggeration * north;
    return (x * kLightX + y * kLightY + kLightZ) / std::sqrt(x * x + y * y + 1.0);
}

QRgb tone(double light) {
    const double share = std::clamp(light, 0.0, 1.0);
    const auto mix = [&](int dark, int pale) {
        return static_cast<int>(std::lround(dark + (pale - dark) * share));
    };
    return qRgb(mix(0xa4, 0xff), mix(0x96, 0xfb), mix(0x7e, 0xf2));
}

}  // namespace

QImage hillshade(const TerrainData& terrain) {
    const Raster<float>& raster = terrain.elevation_m;
    const Grid& grid = raster.grid;
    if (grid.nx < 3 || grid.ny < 3) return {};
    const int step = std::max(1, std::max(grid.nx, grid.ny) / 1200);
    QImage image((grid.nx + step - 1) / step, (grid.ny + step - 1) / step, QImage::Format_ARGB32);
    image.fill(Qt::transparent);
    for (int row = 0; row < image.height(); ++row) {
        for (int column = 0; column < image.width(); ++column) {
            const int j = grid.ny - 1 - std::min(grid.ny - 1, row * step);
            const double light = light_at(raster, column * step, j, step);
            if (std::isfinite(light)) image.setPixel(column, row, tone(light));
        }
    }
    return image;
}

}  // namespace haylane
