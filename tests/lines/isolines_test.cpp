// Checks traced lines against surfaces whose lines of equal value are known: cones and planes.
#include "core/lines/isolines.h"

#include "core/base/units.h"
#include "core/geometry/polygon.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

template <class Height>
Raster<double> surface(int n, Height height) {
    Raster<double> raster(Grid{-10.0, -10.0, 2.0, n, n});
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i) raster(i, j) = height(raster.grid.center(i, j));
    return raster;
}

constexpr Point kTop{40.3, 39.1};

TEST(Isolines, AreCirclesOnACone) {
    const auto cone = surface(60, [](Point p) { return 100.0 - distance_m(p, kTop); });
    const auto lines = isolines(cone, {60.0, 10.0, 4});
    ASSERT_EQ(lines.size(), 4U);
    for (std::size_t k = 0; k < 4; ++k) {
        const double radius = 40.0 - 10.0 * static_cast<double>(k);
        ASSERT_EQ(lines[k].size(), 1U);
        const Polyline& ring = lines[k][0];
        EXPECT_EQ(ring.front(), ring.back());
        for (const Point p : ring) EXPECT_NEAR(distance_m(p, kTop), radius, 0.5 / radius);
        // The top lies to the left: counter-clockwise.
        const double area = ring_area_m2(Ring(ring.begin(), ring.end() - 1));
        EXPECT_NEAR(area, units::kPi * radius * radius, 0.03 * radius * radius);
    }
}

TEST(Isolines, AreStraightOnAPlaneAndExactThere) {
    const auto plane = surface(40, [](Point p) { return 0.05 * p.x + 0.02 * p.y; });
    const auto lines = isolines(plane, {-0.3, 0.25, 9});
    for (std::size_t k = 0; k < lines.size(); ++k) {
        ASSERT_EQ(lines[k].size(), 1U) << k;
        for (const Point p : lines[k][0])
            EXPECT_NEAR(0.05 * p.x + 0.02 * p.y, -0.3 + 0.25 * static_cast<double>(k), 1e-12);
        // Uphill is east: it lies to the left of a line that runs south.
        EXPECT_LT(lines[k][0].back().y, lines[k][0].front().y);
    }
}

TEST(Isolines, JoinTheHighCornersOfASaddleOnlyWhereItsMiddleIsHigh) {
    Raster<double> saddle(Grid{0.0, 0.0, 1.0, 2, 2});
    saddle(0, 0) = 1.0;
    saddle(1, 1) = 1.0;
    for (const double value : {0.4, 0.6}) {
        const auto lines = isolines(saddle, {value, 1.0, 1});
        ASSERT_EQ(lines[0].size(), 2U);
        for (const Polyline& line : lines[0]) {
            ASSERT_EQ(line.size(), 2U);
            const Point middle = lerp(line[0], line[1], 0.5);
            const double to_high =
                std::min(distance_m(middle, {0.5, 0.5}), distance_m(middle, {1.5, 1.5}));
            EXPECT_EQ(to_high<0.5, value> 0.5) << value;
        }
    }
}

TEST(Isolines, BreakAtMissingCellsAndNeedSomething) {
    auto cone = surface(60, [](Point p) { return 100.0 - distance_m(p, kTop); });
    cone(5, 25) = std::numeric_limits<double>::quiet_NaN();
    // The hole at (1, 41) cuts the ring of radius 40 and not the others.
    const auto lines = isolines(cone, {60.0, 10.0, 2});
    ASSERT_EQ(lines[0].size(), 1U);
    EXPECT_GT(distance_m(lines[0][0].front(), lines[0][0].back()), 3.0);
    EXPECT_EQ(lines[1][0].front(), lines[1][0].back());
    EXPECT_TRUE(isolines(cone, {500.0, 1.0, 3})[1].empty());
    EXPECT_TRUE(isolines(Raster<double>{}, {0.0, 1.0, 1})[0].empty());
    EXPECT_TRUE(isolines(cone, {0.0, 1.0, 0}).empty());
    const auto level = surface(9, [](Point) { return 3.0; });
    EXPECT_TRUE(isolines(level, {3.0, 1.0, 1})[0].empty());
}

}  // namespace
}  // namespace haylane
