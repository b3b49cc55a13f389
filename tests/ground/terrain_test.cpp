// Checks Horn slopes against published windows (a GIS vendor's worked slope page and a public
// worked aspect window), hand-worked grades, and slope and aspect rasters made by GDAL 3.6.2.
#include "core/ground/terrain.h"

#include "core/base/units.h"
#include "tests/support/ascii_grid.h"

#include <cmath>
#include <limits>
#include <string>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using units::deg_from_rad;
using units::rad_from_deg;

double slope_deg(const Gradient& gradient) {
    return deg_from_rad(std::atan(gradient.slope_ratio()));
}

Terrain plane(double east, double north, double cell_m, int n) {
    TerrainData data{Raster<float>(Grid{-20.0, 40.0, cell_m, n, n}), cell_m};
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            const Point p = data.elevation_m.grid.center(i, j);
            data.elevation_m(i, j) = static_cast<float>(1000.0 + east * p.x + north * p.y);
        }
    }
    return Terrain(data);
}

// A GIS vendor's worked page: dz/dx 0.05, dz/dy -3.8 (y down the rows), 75.25762 degrees.
TEST(HornGradient, MatchesAPublishedSlopeWindow) {
    const Gradient gradient = horn_gradient({50, 45, 50, 30, 30, 30, 8, 10, 10}, 5.0);
    EXPECT_NEAR(gradient.east, 0.05, 1e-12);
    EXPECT_NEAR(gradient.north, 3.8, 1e-12);
    EXPECT_NEAR(gradient.slope_ratio(), 3.80032, 1e-5);
    EXPECT_NEAR(slope_deg(gradient), 75.25762, 1e-4);
    EXPECT_NEAR(deg_from_rad(downslope_azimuth_rad(gradient)), 180.75385, 1e-4);  // GDAL 3.6.2
}

// A worked aspect window in public code: dz/dx -8.125, dz/dy -0.375, aspect 92.64.
TEST(HornGradient, MatchesAPublishedAspectWindow) {
    const Gradient gradient = horn_gradient({101, 92, 85, 101, 92, 85, 101, 91, 84}, 1.0);
    EXPECT_NEAR(gradient.east, -8.125, 1e-12);
    EXPECT_NEAR(gradient.north, 0.375, 1e-12);
    EXPECT_NEAR(slope_deg(gradient), 82.990885, 1e-5);
    EXPECT_NEAR(deg_from_rad(downslope_azimuth_rad(gradient)), 92.64, 0.005);
}

// Worked by hand from Horn's formula.
TEST(HornGradient, MatchesAHandWorkedWindow) {
    const Gradient gradient = horn_gradient({100, 102, 105, 98, 100, 103, 95, 98, 101}, 30.0);
    EXPECT_NEAR(gradient.east, 0.0875, 1e-6);
    EXPECT_NEAR(gradient.north, 0.070833, 1e-6);
    EXPECT_NEAR(slope_deg(gradient), 6.423151, 1e-5);
    EXPECT_NEAR(gradient.slope_ratio(), 0.112577, 1e-6);
    EXPECT_NEAR(deg_from_rad(downslope_azimuth_rad(gradient)), 231.0090, 1e-3);
}

// Geometry: 25 % falling to the south.
TEST(HornGradient, GivesGradeAlongAndAcrossAHeading) {
    const Gradient south{0.0, 0.25};
    EXPECT_NEAR(deg_from_rad(downslope_azimuth_rad(south)), 180.0, 1e-9);
    EXPECT_NEAR(along_grade_ratio(south, rad_from_deg(90)), 0.0, 1e-12);
    EXPECT_NEAR(cross_slope_ratio(south, rad_from_deg(90)), 0.25, 1e-12);
    EXPECT_NEAR(along_grade_ratio(south, rad_from_deg(135)), -0.176777, 1e-6);
    EXPECT_NEAR(cross_slope_ratio(south, rad_from_deg(135)), 0.176777, 1e-6);
    EXPECT_EQ(downslope_azimuth_rad(Gradient{}), 0.0);
}

TEST(Terrain, ReadsAPlaneExactlyAndStopsAtItsEdge) {
    const Terrain terrain = plane(0.03, -0.04, 5.0, 9);
    const auto inside = terrain.gradient({0.0, 60.0});
    ASSERT_TRUE(inside);
    EXPECT_NEAR(inside->east, 0.03, 1e-5);
    EXPECT_NEAR(inside->north, -0.04, 1e-5);
    const auto height = terrain.elevation_m({1.3, 58.7});
    ASSERT_TRUE(height);
    EXPECT_NEAR(*height, 1000.0 + 0.03 * 1.3 - 0.04 * 58.7, 1e-3);
    EXPECT_FALSE(terrain.gradient({-18.0, 60.0}));  // an edge cell
    EXPECT_TRUE(terrain.elevation_m({-18.0, 60.0}));
    EXPECT_FALSE(terrain.elevation_m({-21.0, 60.0}));
    EXPECT_FALSE(terrain.gradient({500.0, 60.0}));
}

TEST(Terrain, HasNoSlopeBesideAMissingCell) {
    TerrainData data{Raster<float>(Grid{0.0, 0.0, 10.0, 7, 7}, 5.0F), 10.0};
    data.elevation_m(3, 3) = std::numeric_limits<float>::quiet_NaN();
    const Terrain terrain(data);
    int known = 0;
    for (int j = 0; j < 7; ++j) {
        for (int i = 0; i < 7; ++i)
            known += terrain.gradient(data.elevation_m.grid.center(i, j)) ? 1 : 0;
    }
    EXPECT_EQ(known, 25 - 9);
    EXPECT_FALSE(terrain.elevation_m({33.0, 36.0}));
    EXPECT_FALSE(Terrain().gradient({0.0, 0.0}));
    EXPECT_FALSE(Terrain().known());
}

struct Oracle {
    const char* dem;
    const char* name;
    double scale;
};

class TerrainOracle : public testing::TestWithParam<Oracle> {};

// GDAL 3.6.2 gdaldem, Horn, edges left empty.
TEST_P(TerrainOracle, SlopeAndAspectEqualGdal) {
    const std::string data = HAYLANE_SHARED_DATA;
    const Oracle oracle = GetParam();
    const auto dem = test::read_ascii_grid(data + "/terrain/" + oracle.dem, oracle.scale);
    const std::string made = data + "/oracles/" + oracle.name;
    const auto slope = test::read_ascii_grid(made + "-slope-pct-horn.asc", oracle.scale);
    const auto aspect = test::read_ascii_grid(made + "-aspect-deg-horn.asc", oracle.scale);
    if (!dem || !slope || !aspect) GTEST_SKIP() << "shared data absent";
    const Terrain terrain(*dem);
    const Grid& grid = dem->elevation_m.grid;
    ASSERT_EQ(slope->elevation_m.grid, grid);
    int compared = 0;
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const auto gradient = terrain.gradient(grid.center(i, j));
            const auto percent = static_cast<double>(slope->elevation_m(i, j));
            ASSERT_EQ(gradient.has_value(), std::isfinite(percent)) << i << " " << j;
            if (!gradient) continue;
            ++compared;
            EXPECT_NEAR(100.0 * gradient->slope_ratio(), percent, 1e-4) << i << " " << j;
            const auto azimuth = static_cast<double>(aspect->elevation_m(i, j));
            if (!std::isfinite(azimuth)) continue;  // flat
            const double off = deg_from_rad(downslope_azimuth_rad(*gradient)) - azimuth;
            EXPECT_NEAR(std::remainder(off, 360.0), 0.0, 1e-3) << i << " " << j;
        }
    }
    EXPECT_EQ(compared, (grid.nx - 2) * (grid.ny - 2));
}

INSTANTIATE_TEST_SUITE_P(Gdal, TerrainOracle,
                         testing::Values(Oracle{"volcano-10m.asc", "volcano", 1.0},
                                         Oracle{"colorado-escarpment-1arcsec.asc",
                                                "escarpment-scale111120", 111120.0}));

}  // namespace
}  // namespace haylane
