// Heaviest and lightest acre: hand-worked squares, and a brute-force twin on a ragged shape.

#include "app/papers/acre_loads.h"

#include "core/base/units.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

struct Field {
    PastureGround ground;
    DepositMap map;
};

Field field(int nx, int ny, double cell_m) {
    Field made;
    const Grid grid{0.0, 0.0, cell_m, nx, ny};
    made.ground.mask = Raster<std::uint8_t>(grid, 1);
    made.ground.target = made.ground.mask;
    made.ground.cells = grid.size();
    made.ground.target_cells = grid.size();
    made.map.bales = Raster<double>(grid, 0.0);
    return made;
}

TEST(AcreLoads, EvenGroundIsAsHeavyEverywhere) {
    Field even = field(40, 30, 6.0);
    for (double& bales : even.map.bales.values) bales = 2.0 * 36.0 / units::kM2PerAcre;
    const auto loads = acre_loads(even.ground, even.map);
    ASSERT_TRUE(loads);
    EXPECT_NEAR(loads->lightest_bales_per_m2 * units::kM2PerAcre, 2.0, 1e-9);
    EXPECT_NEAR(loads->heaviest_bales_per_m2 * units::kM2PerAcre, 2.0, 1e-9);
}

TEST(AcreLoads, AgreesWithCountingEveryWindow) {
    Field ragged = field(25, 22, 12.0);
    for (int j = 0; j < 22; ++j) {
        for (int i = 0; i < 25; ++i) {
            ragged.ground.target(i, j) = (i + 2 * j) % 7 == 0 || i < j / 2 ? 0 : 1;
            ragged.map.bales(i, j) = std::fmod(i * 1.7 + j * j * 0.31, 3.0);
        }
    }
    const int side = 5;  // an acre is 63.6 m on a side: 5 cells of 12 m
    double lightest = 1e9;
    double heaviest = -1.0;
    int windows = 0;
    for (int j = 0; j + side <= 22; ++j) {
        for (int i = 0; i + side <= 25; ++i) {
            double bales = 0.0;
            int cells = 0;
            for (int b = j; b < j + side; ++b) {
                for (int a = i; a < i + side; ++a) {
                    if (ragged.ground.target(a, b) == 0) continue;
                    ++cells;
                    bales += ragged.map.bales(a, b);
                }
            }
            if (2 * cells < side * side) continue;
            ++windows;
            lightest = std::min(lightest, bales / (cells * 144.0));
            heaviest = std::max(heaviest, bales / (cells * 144.0));
        }
    }
    ASSERT_GT(windows, 50);
    const auto loads = acre_loads(ragged.ground, ragged.map);
    ASSERT_TRUE(loads);
    EXPECT_NEAR(loads->lightest_bales_per_m2, lightest, 1e-12);
    EXPECT_NEAR(loads->heaviest_bales_per_m2, heaviest, 1e-12);
}

TEST(AcreLoads, NothingWithoutCells) { EXPECT_FALSE(acre_loads(PastureGround{}, DepositMap{})); }

}  // namespace
}  // namespace haylane
