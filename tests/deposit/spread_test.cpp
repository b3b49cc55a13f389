// Checks the separable, banded spread against a direct double sum over all pairs of cells on small
// random grids, its adjoint by the identity <Su, v> = <u, S'v>, and conservation of mass.
#include "core/deposit/spread.h"

#include "tests/deposit/made_ground.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// K as the models define it: a square cut at 3 sigma on each axis.
double kernel(int di, int dj, double cell_m, double sigma_m) {
    const double dx = std::abs(di) * cell_m;
    const double dy = std::abs(dj) * cell_m;
    if (dx > 3.0 * sigma_m || dy > 3.0 * sigma_m) return 0.0;
    return std::exp(-dx * dx / (2.0 * sigma_m * sigma_m)) *
           std::exp(-dy * dy / (2.0 * sigma_m * sigma_m));
}

// sum over y in the mask of K(x - y) values(y), for every x.
Raster<double> direct_sum(const Raster<std::uint8_t>& mask, const Raster<double>& values,
                          double sigma_m) {
    const Grid& g = mask.grid;
    Raster<double> result(g);
    for (int j = 0; j < g.ny; ++j) {
        for (int i = 0; i < g.nx; ++i) {
            for (int b = 0; b < g.ny; ++b) {
                for (int a = 0; a < g.nx; ++a) {
                    if (mask(a, b) == 0) continue;
                    result(i, j) += kernel(i - a, j - b, g.cell_m, sigma_m) * values(a, b);
                }
            }
        }
    }
    return result;
}

Raster<double> random_amounts(const Raster<std::uint8_t>& mask, Random& random) {
    Raster<double> amounts(mask.grid);
    for (std::size_t c = 0; c < amounts.values.size(); ++c) {
        if (mask.values[c] != 0 && random.uniform() < 0.5) amounts.values[c] = random.uniform();
    }
    return amounts;
}

struct Case {
    PastureGround ground;
    double sigma_m = 0.0;
};

Case random_case(Random& random) {
    const Grid grid{30.0, -60.0, 3.0, 5 + static_cast<int>(random.below(20)),
                    5 + static_cast<int>(random.below(20))};
    const double inside = 0.2 + 0.8 * random.uniform();
    return {testing::ragged_ground(grid, inside, random), 0.5 + 9.5 * random.uniform()};
}

TEST(Spread, EqualsTheDirectDoubleSum) {
    Random random(1);
    for (int trial = 0; trial < 25; ++trial) {
        SCOPED_TRACE(trial);
        const Case c = random_case(random);
        const Raster<std::uint8_t>& mask = c.ground.mask;
        const Raster<double> q = random_amounts(mask, random);
        Raster<double> ones(mask.grid, 1.0);
        const Raster<double> z = direct_sum(mask, ones, c.sigma_m);
        Raster<double> scaled = q;
        for (std::size_t n = 0; n < q.values.size(); ++n) scaled.values[n] /= z.values[n];
        Raster<double> expected = direct_sum(mask, scaled, c.sigma_m);
        const Spread spread(mask, c.sigma_m);
        const Raster<double> got = spread.forward(q);
        ASSERT_EQ(got.values.size(), expected.values.size());
        for (std::size_t n = 0; n < q.values.size(); ++n) {
            EXPECT_NEAR(got.values[n], mask.values[n] != 0 ? expected.values[n] : 0.0, 1e-12);
        }
    }
}

TEST(Spread, AdjointKeepsTheInnerProduct) {
    Random random(2);
    for (int trial = 0; trial < 50; ++trial) {
        SCOPED_TRACE(trial);
        const Case c = random_case(random);
        const Spread spread(c.ground.mask, c.sigma_m);
        const Raster<double> u = random_amounts(c.ground.mask, random);
        Raster<double> v(u.grid);
        for (double& value : v.values) value = random.uniform() - 0.5;
        const Raster<double> su = spread.forward(u);
        const Raster<double> sv = spread.adjoint(v);
        double left = 0.0;
        double right = 0.0;
        for (std::size_t n = 0; n < u.values.size(); ++n) {
            left += su.values[n] * v.values[n];
            right += u.values[n] * sv.values[n];
        }
        EXPECT_NEAR(left, right, 1e-10 * (1.0 + std::abs(left)));
    }
}

TEST(Spread, ConservesMassInsideTheFence) {
    Random random(3);
    for (int trial = 0; trial < 50; ++trial) {
        SCOPED_TRACE(trial);
        const Case c = random_case(random);
        const Raster<double> q = random_amounts(c.ground.mask, random);
        const Raster<double> spread = Spread(c.ground.mask, c.sigma_m).forward(q);
        EXPECT_NEAR(testing::total(spread), testing::total(q), 1e-9 * testing::total(q));
        EXPECT_TRUE(testing::nothing_outside(c.ground, spread));
        EXPECT_GE(testing::least(spread), 0.0);
    }
}

TEST(Spread, OfABandEqualsThatOfTheRaster) {
    Random random(4);
    const Case c = random_case(random);
    const Grid& grid = c.ground.mask.grid;
    const Spread spread(c.ground.mask, 4.0);
    std::vector<CellAmount> cells;
    Raster<double> raster(grid);
    for (int n = 0; n < 6; ++n) {
        const auto cell = static_cast<std::uint32_t>(random.below(grid.size()));
        if (c.ground.mask.values[cell] == 0) continue;
        cells.push_back({cell, 1.0 + n});
        raster.values[cell] += 1.0 + n;
    }
    ASSERT_FALSE(cells.empty());
    const Raster<double> by_band = raster_of(spread.forward(band_of(cells, grid)), grid);
    const Raster<double> by_raster = spread.forward(raster);
    for (std::size_t n = 0; n < grid.size(); ++n) {
        EXPECT_NEAR(by_band.values[n], by_raster.values[n], 1e-14);
    }
}

TEST(Spread, ReachesThreeSigma) {
    const PastureGround ground = testing::full_ground(Grid{0, 0, 3, 50, 50});
    EXPECT_EQ(Spread(ground.mask, 6.0).radius_cells(), 6);
    EXPECT_EQ(Spread(ground.mask, 10.0).radius_cells(), 10);
    EXPECT_EQ(Spread(ground.mask, 0.0).radius_cells(), 0);
}

TEST(Band, DotsCountWeightedCellsOnly) {
    Random random(6);
    const PastureGround ground = testing::ragged_ground(Grid{0, 0, 1, 9, 7}, 0.7, random);
    const Raster<double> a = random_amounts(ground.mask, random);
    const Raster<double> b = random_amounts(ground.mask, random);
    double expected = 0.0;
    for (std::size_t n = 0; n < a.values.size(); ++n) {
        if (ground.target.values[n] != 0) expected += a.values[n] * b.values[n];
    }
    EXPECT_NEAR(dot(band_of(a), band_of(b), ground.target), expected, 1e-14);
    EXPECT_NEAR(dot(band_of(a), b, ground.target), expected, 1e-14);
}

}  // namespace
}  // namespace haylane
