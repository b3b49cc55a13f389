// Forty lines piled up in one corner, laid anew.
#include "core/season/backcast.h"

#include "core/ground/feedable_ground.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(Backcast, LaysTheSameBalesMoreEvenly) {
    Ranch ranch = testing::small_ranch().ranch;
    ranch.feedings.resize(12);
    ranch.settings.cell_m = 6.0;  // for speed
    for (FeedingRecord& feeding : ranch.feedings) feeding.rig = RigId::at(0);
    ranch.feedings[3].shape = std::monostate{};
    AccountRequest request;
    request.span = *season_named(ranch, "2025-26");
    request.uncertainty.draws = 0;
    const AccountContext context(ranch, request);
    const auto laid = backcast(context, {.max_candidates = 100, .threads = 1});
    ASSERT_TRUE(laid) << laid.error().what;
    EXPECT_EQ(laid->moved, 11);
    EXPECT_EQ(laid->kept, 1);
    Ranch other = ranch;
    other.feedings = laid->feedings;
    const auto dry = feedable_ground(ranch, PastureId::at(0), context.terrain, {});
    for (std::size_t f = 0; f < other.feedings.size(); ++f) {
        EXPECT_EQ(other.feedings[f].bales, ranch.feedings[f].bales);
        EXPECT_EQ(other.feedings[f].from, ranch.feedings[f].from);
        const auto* lines = std::get_if<MultiPolyline>(&other.feedings[f].shape);
        ASSERT_EQ(lines != nullptr, f != 3);
        double length = 0.0;
        for (const Polyline& line : lines != nullptr ? *lines : MultiPolyline{}) {
            length += length_m(line);
            EXPECT_TRUE(dry->allows_line(line));
        }
        if (lines == nullptr) continue;
        EXPECT_NEAR(length, 300.0, 10.0);  // as recorded
    }
    const auto before = account_pasture(context, PastureId::at(0));
    const AccountContext after_context(other, request);
    const auto after = account_pasture(after_context, PastureId::at(0));
    const LoadFigures& was = before->account[SeasonMeasure::p2o5];
    const LoadFigures& would_be = after->account[SeasonMeasure::p2o5];
    EXPECT_NEAR(was.total, would_be.total, 1e-9 * was.total);
    EXPECT_LT(would_be.even->cv_ratio, 0.7 * was.even->cv_ratio);
    EXPECT_LT(would_be.max_per_m2, was.max_per_m2);
    // The same for two threads.
    const auto again = backcast(context, {.max_candidates = 100, .threads = 2});
    for (std::size_t f = 0; f < other.feedings.size(); ++f) {
        const auto* one = std::get_if<MultiPolyline>(&laid->feedings[f].shape);
        const auto* two = std::get_if<MultiPolyline>(&again->feedings[f].shape);
        ASSERT_EQ(one == nullptr, two == nullptr);
        EXPECT_TRUE(one == nullptr || *one == *two);
    }
}

}  // namespace
}  // namespace haylane
