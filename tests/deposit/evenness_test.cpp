// Checks against Christiansen's list (1942, California AES Bulletin 670) with its published CU, and
// figures computed from the definitions for the same list and a second one.
#include "core/deposit/evenness.h"

#include "core/base/random.h"
#include "core/deposit/deposit_map.h"
#include "tests/deposit/made_ground.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(Evenness, MatchesChristiansensList) {
    const std::vector<double> x{47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12};
    const auto e = evenness(x);
    ASSERT_TRUE(e.has_value());
    EXPECT_NEAR(e->cu_ratio * 100.0, 69.13955, 5e-6);
    EXPECT_NEAR(e->mean, 30.733333, 5e-7);
    EXPECT_NEAR(e->cv_sample_ratio * 100.0, 38.626248, 5e-7);
    EXPECT_NEAR(e->cv_ratio * 100.0, 37.316501, 5e-7);
    EXPECT_NEAR(e->gini_ratio, 0.210846, 5e-7);
    EXPECT_NEAR(e->low_quarter_ratio * 100.0, 47.722343, 5e-7);  // lowest 3.75 values
    EXPECT_EQ(e->max, 47.0);
    EXPECT_NEAR(e->high_tenth, (47.0 + 0.5 * 45.0) / 1.5, 1e-12);
}

TEST(Evenness, MatchesTheSecondList) {
    const std::vector<double> x{2.1, 1.9, 2.4, 2.0, 1.6, 2.2, 1.8, 2.0,
                                2.5, 1.7, 2.0, 2.3, 1.5, 2.1, 1.9, 2.0};
    const auto e = evenness(x);
    ASSERT_TRUE(e.has_value());
    EXPECT_NEAR(e->mean, 2.0, 1e-12);
    EXPECT_NEAR(e->cv_sample_ratio * 100.0, 13.662601, 5e-7);
    EXPECT_NEAR(e->cv_ratio * 100.0, 13.228757, 5e-7);
    EXPECT_NEAR(e->cu_ratio * 100.0, 90.0, 1e-9);
    EXPECT_NEAR(e->low_quarter_ratio * 100.0, 82.5, 1e-9);
    EXPECT_NEAR(e->gini_ratio, 0.07421875, 1e-12);
}

TEST(Evenness, IsNothingWithoutValuesOrDeposit) {
    EXPECT_FALSE(evenness({}).has_value());
    const std::vector<double> bare{0.0, 0.0};
    EXPECT_FALSE(evenness(bare).has_value());
}

TEST(Evenness, CountsUntouchedGroundAndSharesOverALimit) {
    const std::vector<double> x{0.0, 0.04, 0.06, 3.9};  // mean 1, 5 % of it is 0.05
    EXPECT_DOUBLE_EQ(evenness(x)->untouched_ratio, 0.5);
    EXPECT_DOUBLE_EQ(share_over(x, 0.05), 0.5);
    EXPECT_DOUBLE_EQ(share_over({}, 0.05), 0.0);
}

// Gini = 1 - 2 x area under the curve, exact by trapezoids when steps = n.
TEST(Evenness, CurveAgreesWithGini) {
    Random random(5);
    std::vector<double> x(40);
    for (double& value : x) value = random.uniform();
    const auto curve = deposit_curve(x, 40);
    ASSERT_EQ(curve.size(), 41U);
    double area = 0.0;
    for (std::size_t s = 1; s < curve.size(); ++s) area += (curve[s] + curve[s - 1]) / 2.0 / 40.0;
    EXPECT_NEAR(evenness(x)->gini_ratio, 1.0 - 2.0 * area, 1e-12);
}

TEST(Evenness, JudgesTargetCellsOnlyThroughTheWindow) {
    Random random(9);
    const PastureGround ground = testing::ragged_ground(Grid{0, 0, 3, 20, 15}, 0.8, random);
    Raster<double> load(ground.mask.grid);
    for (std::size_t c = 0; c < load.values.size(); ++c) load.values[c] = ground.mask.values[c];
    const auto values = target_values(ground, through_window(ground, load, 10.0));
    EXPECT_EQ(values.size(), ground.target_cells);
    EXPECT_NEAR(testing::total(through_window(ground, load, 10.0)), testing::total(load), 1e-9);
}

}  // namespace
}  // namespace haylane
