#pragma once
// Elevation and slope of the ground from a raster: Horn (1981) at the terrain's own resolution,
// then sampled. Slopes are ratios (rise over run). NaN/nullopt where the terrain is unknown.

#include "core/geometry/raster.h"
#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// Horn gradient of a 3x3 window, rows from north to south, a b c / d e f / g h i.
struct Gradient {
    double east = 0.0;   // dz/dx, positive uphill to the east
    double north = 0.0;  // dz/dy, positive uphill to the north
    [[nodiscard]] double slope_ratio() const;
};
[[nodiscard]] Gradient horn_gradient(const double (&window)[9], double cell_m);
// Azimuth (clockwise from north) of steepest descent; 0 when flat.
[[nodiscard]] double downslope_azimuth_rad(const Gradient& gradient);
// Grade along a heading (uphill positive) and across it (absolute).
[[nodiscard]] double along_grade_ratio(const Gradient& gradient, double heading_rad);
[[nodiscard]] double cross_slope_ratio(const Gradient& gradient, double heading_rad);

class Terrain {
  public:
    Terrain() = default;  // knows nothing
    explicit Terrain(const TerrainData& data);

    [[nodiscard]] bool known() const { return elevation_.grid.size() > 0; }
    [[nodiscard]] double own_cell_m() const { return own_cell_m_; }
    [[nodiscard]] std::optional<double> elevation_m(Point p) const;  // bilinear
    [[nodiscard]] std::optional<Gradient> gradient(Point p) const;   // of the nearest cell
    [[nodiscard]] const Raster<float>& elevation() const { return elevation_; }

  private:
    Raster<float> elevation_;
    Raster<float> east_;
    Raster<float> north_;
    double own_cell_m_ = 0.0;
};

}  // namespace haylane
