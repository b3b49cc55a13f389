// Checks ground in the lee by hand-worked walls, groves and ridges, and by looking up-wind from
// random places. Five to ten heights is common practice, no source.
#include "core/ground/sheltered_ground.h"

#include "core/base/random.h"
#include "core/base/units.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kFromWest = 1.5 * units::kPi;

MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
    return {{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

Ranch bare_ranch() {
    Ranch ranch;
    ranch.pastures.push_back({.name = "Flat", .shape = rectangle(0, 0, 800, 400)});
    return ranch;
}

Shelter wall(const char* name, double height_m, Polyline line) {
    return {
        .name = name, .area = {}, .lines = {std::move(line)}, .points = {}, .height_m = height_m};
}

ShelteredGround lee_of(const Ranch& ranch, double wind_from_rad, const Terrain& terrain = {}) {
    auto ground = sheltered_ground(ranch, PastureId::at(0), terrain, wind_from_rad);
    EXPECT_TRUE(ground.has_value());
    return ground ? *ground : ShelteredGround{};
}

TEST(ShelteredGround, BehindAWallTenMetresHighLiesFrom50To100MetresEast) {
    Ranch ranch = bare_ranch();
    ranch.shelter = {wall("the windbreak", 10.0, {{0, 100}, {0, 300}})};
    const ShelteredGround lee = lee_of(ranch, kFromWest);
    EXPECT_NEAR(area_m2(lee.area), 50.0 * 200.0, 1e-6);
    const Box box = box_of(lee.area);
    EXPECT_NEAR(box.min_x, 50.0, 1e-9);
    EXPECT_NEAR(box.max_x, 100.0, 1e-9);
    EXPECT_NEAR(box.min_y, 100.0, 1e-9);
    EXPECT_NEAR(box.max_y, 300.0, 1e-9);
    ASSERT_EQ(lee.parts.size(), 1U);
    EXPECT_EQ(lee.parts.front().of, "the windbreak");
    EXPECT_TRUE(lee_of(ranch, 0.5 * units::kPi).area.empty());  // from the east: lee is outside
    EXPECT_TRUE(lee_of(ranch, 0.0).area.empty());               // along the wall
}

TEST(ShelteredGround, BehindAGroveIsMeasuredFromItsDownWindEdge) {
    Ranch ranch = bare_ranch();
    ranch.shelter = {{.name = "grove",
                      .area = rectangle(100, 100, 150, 300),
                      .lines = {},
                      .points = {},
                      .height_m = 4.0}};
    const Box box = box_of(lee_of(ranch, kFromWest).area);
    EXPECT_NEAR(box.min_x, 170.0, 1e-9);
    EXPECT_NEAR(box.max_x, 190.0, 1e-9);
}

TEST(ShelteredGround, APointIsAsWideAsItIsHighAndAnUnknownHeightIsThreeMetres) {
    Ranch ranch = bare_ranch();
    ranch.shelter = {
        {.name = "stack", .area = {}, .lines = {}, .points = {{100, 200}}, .height_m = {}}};
    const Box box = box_of(lee_of(ranch, kFromWest).area);
    EXPECT_NEAR(box.min_x, 115.0, 1e-9);
    EXPECT_NEAR(box.max_x, 130.0, 1e-9);
    EXPECT_NEAR(box.max_y - box.min_y, 3.0, 1e-9);
}

TEST(ShelteredGround, DriftBehindOneShelterIsNotTheLeeOfAnother) {
    Ranch ranch = bare_ranch();
    ranch.shelter = {wall("tall", 10.0, {{0, 100}, {0, 300}}),
                     wall("low", 3.0, {{60, 100}, {60, 300}})};
    const ShelteredGround lee = lee_of(ranch, kFromWest);
    EXPECT_TRUE(contains(lee.area, {55, 200}));
    EXPECT_FALSE(contains(lee.area, {70, 200}));  // 60 to 75 is drift behind the low one
    EXPECT_TRUE(contains(lee.area, {80, 200}));
    EXPECT_NEAR(area_m2(lee.area), (50.0 - 15.0) * 200.0, 1e-6);
}

// Distance up-wind from p to the nearest wall, and its height; worked by solving p + t u = a + s v.
struct Sight {
    double away_m = std::numeric_limits<double>::infinity();
    double height_m = 0.0;
};
std::vector<Sight> walls_up_wind(const Ranch& ranch, Point p, double wind_from_rad) {
    const double ux = std::sin(wind_from_rad);
    const double uy = std::cos(wind_from_rad);
    std::vector<Sight> seen;
    for (const Shelter& shelter : ranch.shelter) {
        for (const Polyline& line : shelter.lines) {
            for (std::size_t i = 0; i + 1 < line.size(); ++i) {
                const double vx = line[i + 1].x - line[i].x;
                const double vy = line[i + 1].y - line[i].y;
                const double det = vx * uy - ux * vy;
                const double dx = line[i].x - p.x;
                const double dy = line[i].y - p.y;
                const double t = (vx * dy - vy * dx) / det;
                const double s = (ux * dy - uy * dx) / det;
                if (s >= 0.0 && s <= 1.0 && t >= 0.0) seen.push_back({t, *shelter.height_m});
            }
        }
    }
    return seen;
}

TEST(ShelteredGround, AgreesWithLookingUpWindFromRandomPlaces) {
    Random random(3);
    int inside = 0;
    for (int trial = 0; trial < 20; ++trial) {
        Ranch ranch = bare_ranch();
        for (int w = 0; w < 3; ++w) {
            Polyline line;
            for (int k = 0; k < 4; ++k)
                line.push_back({800.0 * random.uniform(), 400.0 * random.uniform()});
            ranch.shelter.push_back(wall("w", 2.0 + 10.0 * random.uniform(), line));
        }
        const double from = 2.0 * units::kPi * random.uniform();
        const ShelteredGround lee = lee_of(ranch, from);
        for (int k = 0; k < 500; ++k) {
            const Point p{800.0 * random.uniform(), 400.0 * random.uniform()};
            bool in_lee = false;
            bool in_drift = false;
            bool at_edge = false;
            for (const Sight& sight : walls_up_wind(ranch, p, from)) {
                const double heights = sight.away_m / sight.height_m;
                at_edge =
                    at_edge || std::abs(heights - 5.0) < 1e-6 || std::abs(heights - 10.0) < 1e-6;
                in_drift = in_drift || heights < 5.0;
                in_lee = in_lee || (heights >= 5.0 && heights <= 10.0);
            }
            if (at_edge) continue;
            EXPECT_EQ(contains(lee.area, p), in_lee && !in_drift) << trial << ' ' << k;
            inside += in_lee && !in_drift ? 1 : 0;
        }
    }
    EXPECT_GT(inside, 300);
}

// A bench 20 m high that ends in a wall at x = 200.
Terrain bench() {
    TerrainData data{Raster<float>(Grid{-300.0, -20.0, 5.0, 240, 90}), 5.0};
    for (int j = 0; j < data.elevation_m.grid.ny; ++j)
        for (int i = 0; i < data.elevation_m.grid.nx; ++i)
            data.elevation_m(i, j) = data.elevation_m.grid.center(i, j).x < 200.0 ? 20.0F : 0.0F;
    return Terrain(data);
}

// 20 m seen at 1 in 5 to 1 in 10 is 100 to 200 m away.
TEST(ShelteredGround, UnderABenchLiesFrom5To10TimesItsHeight) {
    const Terrain terrain = bench();
    for (double x = 210.0; x < 790.0; x += 5.0) {
        if (std::abs(x - 300.0) < 8.0 || std::abs(x - 400.0) < 8.0) continue;  // cells blur it
        EXPECT_EQ(is_under_high_ground(terrain, {x, 200.0}, kFromWest, 5.0, 10.0),
                  x > 300.0 && x < 400.0)
            << x;
        EXPECT_FALSE(is_under_high_ground(terrain, {x, 200.0}, 0.5 * units::kPi, 5.0, 10.0));
    }
    EXPECT_FALSE(is_under_high_ground(terrain, {100.0, 200.0}, kFromWest, 5.0, 10.0));
    const ShelteredGround lee = lee_of(bare_ranch(), kFromWest, terrain);
    EXPECT_NEAR(area_m2(lee.area), 100.0 * 400.0, 0.1 * 100.0 * 400.0);
    ASSERT_EQ(lee.parts.size(), 1U);
    EXPECT_EQ(lee.parts.front().of, "");
}

TEST(ShelteredGround, ALowRiseAndUnknownGroundShelterNothing) {
    TerrainData data{Raster<float>(Grid{-300.0, -20.0, 5.0, 240, 90}), 5.0};
    for (int j = 0; j < data.elevation_m.grid.ny; ++j)
        for (int i = 0; i < data.elevation_m.grid.nx; ++i)
            data.elevation_m(i, j) = data.elevation_m.grid.center(i, j).x < 200.0 ? 2.5F : 0.0F;
    EXPECT_TRUE(lee_of(bare_ranch(), kFromWest, Terrain(data)).area.empty());
    EXPECT_TRUE(lee_of(bare_ranch(), kFromWest).area.empty());
    EXPECT_FALSE(is_under_high_ground(Terrain(), {0, 0}, kFromWest, 5.0, 10.0));
}

}  // namespace
}  // namespace haylane
