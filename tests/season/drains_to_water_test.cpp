// Ways down a known surface, and water by the distance from its edge.
#include "core/season/drains_to_water.h"

#include "core/base/random.h"
#include "core/season/water_exposure.h"
#include "tests/deposit/made_ground.h"
#include "tests/support/small_ranch.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr Grid kGrid{0.0, 0.0, 10.0, 30, 20};

template <class Height>
Raster<float> surface(Height height) {
    Raster<float> raster(kGrid);
    for (int j = 0; j < kGrid.ny; ++j) {
        for (int i = 0; i < kGrid.nx; ++i)
            raster(i, j) = static_cast<float>(height(kGrid.center(i, j)));
    }
    return raster;
}

Raster<std::uint8_t> column_of_water(int i) {
    Raster<std::uint8_t> water(kGrid);
    for (int j = 0; j < kGrid.ny; ++j) water(i, j) = 1;
    return water;
}

// On a plane that falls to the west, water at column 5: every cell east of it drains straight west,
// ten metres a cell; what lies west of it runs off the edge.
TEST(DrainsToWater, GoesStraightDownAPlane) {
    const auto flow =
        flow_to_water_m(surface([](Point p) { return 0.05 * p.x; }), column_of_water(5));
    for (int j = 1; j + 1 < kGrid.ny; ++j) {
        for (int i = 5; i + 1 < kGrid.nx; ++i) EXPECT_NEAR(flow(i, j), 10.0 * (i - 5), 1e-9);
        for (int i = 1; i < 5; ++i) EXPECT_TRUE(std::isinf(flow(i, j)));
    }
}

// A plane that falls to the southwest along the diagonal: steps of 10 sqrt 2.
TEST(DrainsToWater, GoesDiagonallyWhereThatIsSteepest) {
    Raster<std::uint8_t> water(kGrid);
    water(4, 3) = 1;
    const auto flow = flow_to_water_m(surface([](Point p) { return 0.05 * (p.x + p.y); }), water);
    for (int k = 1; k < 10; ++k) EXPECT_NEAR(flow(4 + k, 3 + k), k * 10.0 * std::sqrt(2.0), 1e-6);
    EXPECT_TRUE(std::isinf(flow(4, 8)));
}

// A hollow in the slope is filled and runs over its lowest lip on to the water.
TEST(DrainsToWater, FillsHollows) {
    const auto with_hollow = surface([](Point p) {
        const double away = std::hypot(p.x - 155.0, p.y - 105.0);
        return 0.05 * p.x - (away < 25.0 ? 5.0 : 0.0);
    });
    const auto flow = flow_to_water_m(with_hollow, column_of_water(5));
    for (int j = 1; j + 1 < kGrid.ny; ++j) {
        for (int i = 6; i + 1 < kGrid.nx; ++i) {
            EXPECT_GE(flow(i, j), 10.0 * (i - 5) - 1e-9);
            EXPECT_LT(flow(i, j), 10.0 * (i - 5) + 150.0);
        }
    }
}

// Twin by hand on rough ground without hollows: follow the steepest way down cell by cell.
TEST(DrainsToWater, EqualsWalkingDownhill) {
    Random random(3);
    auto rough = surface([&](Point p) { return 2.0 * p.x + 0.5 * p.y + 4.0 * random.uniform(); });
    const auto water = column_of_water(8);
    const auto flow = flow_to_water_m(rough, water);
    for (int trial = 0; trial < 200; ++trial) {
        int i = 9 + static_cast<int>(random.below(20));
        int j = 1 + static_cast<int>(random.below(18));
        const int start_i = i;
        const int start_j = j;
        double walked = 0.0;
        bool reached = false;
        while (!reached && i > 0 && j > 0 && i + 1 < kGrid.nx && j + 1 < kGrid.ny) {
            double steepest = 0.0;
            int best_i = i;
            int best_j = j;
            for (const auto& [di, dj] :
                 {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}) {
                const double step = 10.0 * std::hypot(di, dj);
                const double fall = static_cast<double>(rough(i, j) - rough(i + di, j + dj)) / step;
                if (fall > steepest) {
                    steepest = fall;
                    best_i = i + di;
                    best_j = j + dj;
                }
            }
            ASSERT_GT(steepest, 0.0);
            walked += 10.0 * std::hypot(best_i - i, best_j - j);
            i = best_i;
            j = best_j;
            reached = water(i, j) != 0;
        }
        if (start_i + 1 >= kGrid.nx) continue;  // the edge drains off the raster
        if (reached)
            EXPECT_NEAR(flow(start_i, start_j), walked, 1e-9);
        else
            EXPECT_TRUE(std::isinf(flow(start_i, start_j)));
    }
}

TEST(DrainsToWater, KnowsNothingOfUnknownGround) {
    auto ground = surface([](Point p) { return 0.05 * p.x; });
    for (int j = 0; j < kGrid.ny; ++j) ground(15, j) = std::numeric_limits<float>::quiet_NaN();
    const auto flow = flow_to_water_m(ground, column_of_water(5));
    EXPECT_TRUE(std::isinf(flow(20, 10)));
    EXPECT_TRUE(std::isinf(flow(15, 10)));
    EXPECT_TRUE(std::isfinite(flow(12, 10)));
}

// A stream along x = 0 and a well: mass within 100 and 300 ft counted by cell centres.
TEST(WaterExposure, CountsByDistanceFromTheEdge) {
    Ranch ranch;
    ranch.pastures.push_back({.name = "One", .shape = testing::square(0, 0, 300, 300)});
    ranch.off_limits.push_back(
        {.name = "creek", .kind = OffLimitsKind::water, .lines = {{{0, -50}, {0, 350}}}});
    ranch.off_limits.push_back(
        {.name = "well", .kind = OffLimitsKind::well, .points = {{290, 150}}});
    const PastureGround ground = testing::full_ground(Grid{0.0, 0.0, 3.0, 100, 100});
    DepositMap map = empty_map(ground);
    for (double& value : map.p2o5_kg.values) value = 1.0;
    const WaterGround water = water_ground(ranch, ground, Terrain());
    const WaterExposure exposure = water_exposure(water, map);
    EXPECT_FALSE(exposure.terrain_known);
    EXPECT_DOUBLE_EQ(exposure.water_in_100.p2o5_kg, 10.0 * 100.0);      // centres 1.5 to 28.5 m
    EXPECT_DOUBLE_EQ(exposure.water_in_caution.p2o5_kg, 30.0 * 100.0);  // to 88.5 m
    int near_well = 0;
    for (int j = 0; j < 100; ++j) {
        for (int i = 0; i < 100; ++i) {
            if (distance_m(ground.mask.grid.center(i, j), {290, 150}) <= 30.48) ++near_well;
        }
    }
    EXPECT_DOUBLE_EQ(exposure.well_in_100.p2o5_kg, near_well);
    EXPECT_EQ(exposure.drains_in_caution.p2o5_kg, 0.0);
}

}  // namespace
}  // namespace haylane
