#include "core/season/ledger.h"

#include "core/base/random.h"
#include "core/season/days_fed.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;

TEST(Span, SeasonsRunFromStartToStart) {
    const Ranch ranch = testing::small_ranch().ranch;  // 2025-09-01 to 2025-12-27
    const auto seasons = seasons_on_record(ranch);
    ASSERT_EQ(seasons.size(), 1U);
    EXPECT_EQ(seasons[0].name, "2025-26");
    EXPECT_EQ(seasons[0].from, day("2025-07-01"));
    EXPECT_EQ(seasons[0].to, day("2026-06-30"));
    EXPECT_EQ(season_named(ranch, "2025-26")->from, day("2025-07-01"));
    for (const char* wrong : {"2025", "2025-27", "25-26", "", "winter!", "abcd-26"})
        EXPECT_FALSE(season_named(ranch, wrong)) << wrong;
    EXPECT_EQ(all_on_record(ranch)->to, day("2025-12-27"));
    EXPECT_TRUE(seasons_on_record(Ranch{}).empty());
    EXPECT_FALSE(all_on_record(Ranch{}));
}

TEST(Span, SharesOfAFeedingAddUpOverSeasons) {
    FeedingRecord feeding{.from = day("2025-06-20"), .to = day("2025-07-09"), .bales = 10.0};
    const Span before = span_between(day("2024-07-01"), day("2025-06-30"));
    const Span after = span_between(day("2025-07-01"), day("2026-06-30"));
    EXPECT_DOUBLE_EQ(share_in(feeding, before), 11.0 / 20.0);
    EXPECT_DOUBLE_EQ(share_in(feeding, before) + share_in(feeding, after), 1.0);
    EXPECT_EQ(share_in(feeding, span_between(day("2026-07-01"), day("2027-06-30"))), 0.0);
}

// The hay's own balance, and animal-days from what is eaten.
TEST(Ledger, BalancesAndCountsAnimalDays) {
    const Ranch ranch = testing::small_ranch().ranch;
    const auto feedings = feedings_by_pasture(ranch);
    const Ledger all = ledger(ranch, feedings[0], *all_on_record(ranch));
    EXPECT_EQ(all.feedings, 40);
    EXPECT_DOUBLE_EQ(all.bales, 240.0);
    EXPECT_NEAR(all.on_ground.n_kg + all.retained.n_kg + all.n_lost_gas_kg, all.in_hay.n_kg,
                1e-9 * all.in_hay.n_kg);
    EXPECT_NEAR(all.on_ground.k2o_kg + all.retained.k2o_kg, all.in_hay.k2o_kg,
                1e-9 * all.in_hay.k2o_kg);
    EXPECT_NEAR(all.animal_days, 240.0 * 510.0 * (1.0 - 0.12) / 11.0, 1e-6);
    EXPECT_EQ(ledger(ranch, feedings[1], *all_on_record(ranch)).feedings, 0);
}

TEST(Ledger, IsTheSameInAnyOrderOfTheRecords) {
    Ranch ranch = testing::small_ranch().ranch;
    Random random(5);
    for (FeedingRecord& feeding : ranch.feedings) feeding.bales = 10.0 * random.uniform();
    const Ledger first = ledger(ranch, feedings_by_pasture(ranch)[0], *all_on_record(ranch));
    for (std::size_t i = ranch.feedings.size(); i > 1; --i)
        std::swap(ranch.feedings[i - 1], ranch.feedings[random.below(i)]);
    const Ledger again = ledger(ranch, feedings_by_pasture(ranch)[0], *all_on_record(ranch));
    EXPECT_EQ(first.on_ground.n_kg, again.on_ground.n_kg);
    EXPECT_EQ(first.animal_days, again.animal_days);
    EXPECT_EQ(first.bales, again.bales);
}

TEST(Provenance, ShowsClassesOverAQuarterUnsure) {
    Provenance records{.gps_bales = 30.0, .entered_bales = 45.0, .recalled_bales = 25.0};
    EXPECT_DOUBLE_EQ(records.unsure_ratio(), 0.25);
    EXPECT_TRUE(records.shows_numbers());
    records.assumed_bales = 1.0;
    EXPECT_FALSE(records.shows_numbers());
    EXPECT_EQ(Provenance{}.unsure_ratio(), 0.0);
}

TEST(DaysFed, CountsDaysOnceAndOnlyOfTheLastYear) {
    const Ranch ranch = testing::small_ranch().ranch;  // every third day
    Feedings feedings = feedings_by_pasture(ranch)[0];
    EXPECT_EQ(days_fed(ranch, feedings, day("2025-12-27")), 40);
    feedings.insert(feedings.end(), feedings.begin(), feedings.end());
    EXPECT_EQ(days_fed(ranch, feedings, day("2025-12-27")), 40);
    EXPECT_EQ(days_fed(ranch, feedings, day("2026-09-01")), 39);  // 1 September 2025 has gone
    FeedingRecord other_days = *feedings.front();
    other_days.herd = HerdId::at(1);  // fed every two days
    EXPECT_EQ(days_fed(ranch, {&other_days}, day("2025-12-27")), 2);
}

}  // namespace
}  // namespace haylane
