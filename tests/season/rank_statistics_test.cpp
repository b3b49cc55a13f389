#include "core/season/rank_statistics.h"

#include <vector>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// The example in SciPy's documentation of spearmanr, a tie in y: 0.8207826816681233.
TEST(RankStatistics, CorrelatesAsSciPyDoes) {
    const std::vector<double> x{1, 2, 3, 4, 5};
    const std::vector<double> y{5, 6, 7, 8, 7};
    ASSERT_TRUE(rank_correlation(x, y));
    EXPECT_NEAR(*rank_correlation(x, y), 0.8207826816681233, 1e-15);
}

// Without ties: 1 - 6 sum d^2 / (n (n^2 - 1)), Spearman 1904. Ranks 1..5 and 2 1 4 3 5: d^2 = 4.
TEST(RankStatistics, FollowsSpearmansFormulaWithoutTies) {
    const std::vector<double> x{10, 20, 30, 40, 1000};
    const std::vector<double> y{-1, -2, 7, 3, 8};
    EXPECT_NEAR(*rank_correlation(x, y), 1.0 - 6.0 * 4.0 / (5.0 * 24.0), 1e-12);
}

TEST(RankStatistics, IsNothingWhereNothingCanBeSaid) {
    const std::vector<double> two{1, 2};
    const std::vector<double> same{3, 3, 3};
    const std::vector<double> rising{1, 2, 3};
    EXPECT_FALSE(rank_correlation(two, two));
    EXPECT_FALSE(rank_correlation(same, rising));
    EXPECT_FALSE(rank_correlation(rising, two));
    EXPECT_FALSE(median_slope(std::vector<double>{1.0}));
}

// One wild value does not move the median of the pairs' slopes (Sen 1968).
TEST(RankStatistics, SlopeHoldsUpToAnOddValue) {
    EXPECT_DOUBLE_EQ(*median_slope(std::vector<double>{0, 2, 4, 6, 8}), 2.0);
    EXPECT_DOUBLE_EQ(*median_slope(std::vector<double>{0, 2, 4, 100, 8, 10, 12}), 2.0);
}

TEST(RankStatistics, QuantilesLieBetweenNeighbours) {
    const std::vector<double> values{40, 10, 20, 30, 50};
    EXPECT_DOUBLE_EQ(quantile(values, 0.0), 10.0);
    EXPECT_DOUBLE_EQ(quantile(values, 0.5), 30.0);
    EXPECT_DOUBLE_EQ(quantile(values, 0.1), 14.0);
    EXPECT_DOUBLE_EQ(quantile(values, 1.0), 50.0);
}

}  // namespace
}  // namespace haylane
