#include "core/season/pasture_account.h"

#include "core/season/ground_advice.h"
#include "tests/deposit/made_ground.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;

// The small ranch with a second winter: 10 feedings farther north.
Ranch two_winters() {
    Ranch ranch = testing::small_ranch().ranch;
    for (int i = 0; i < 10; ++i) {
        FeedingRecord later = ranch.feedings[static_cast<std::size_t>(i)];
        later.from += std::chrono::days{365};
        later.to = later.from;
        later.shape = MultiPolyline{{{400, 500.0 + 12.0 * i}, {700, 500.0 + 12.0 * i}}};
        ranch.feedings.push_back(later);
    }
    return ranch;
}

AccountRequest request_for(const Ranch& ranch, const char* season) {
    AccountRequest request;
    request.span = *season_named(ranch, season);
    request.uncertainty.draws = 0;
    return request;
}

TEST(PastureAccount, SetsSeasonsSideBySide) {
    const Ranch ranch = two_winters();
    const AccountContext context(ranch, request_for(ranch, "2026-27"));
    const auto done = account_pasture(context, PastureId::at(0));
    ASSERT_TRUE(done);
    const PastureAccount& account = done->account;
    ASSERT_EQ(account.seasons.size(), 2U);
    EXPECT_EQ(account.ledger.bales, 60.0);
    EXPECT_EQ(account.all_ledger.bales, 300.0);
    EXPECT_NEAR(account.seasons[0].shown_per_m2 + account.seasons[1].shown_per_m2,
                account.all_figures[1].mean_per_m2, 1e-12);
    EXPECT_NEAR(*account.trend_per_m2,
                account.seasons[1].shown_per_m2 - account.seasons[0].shown_per_m2, 1e-15);
    EXPECT_NEAR(account[SeasonMeasure::n].total, account.ledger.on_ground.n_kg,
                1e-9 * account.ledger.on_ground.n_kg);
    // The change map holds this season's mass less the last one's.
    EXPECT_NEAR(testing::total(done->maps.change_seen),
                account.ledger.on_ground.p2o5_kg -
                    (account.all_ledger.on_ground.p2o5_kg - account.ledger.on_ground.p2o5_kg),
                1e-7);
    // Two winters feed the next summer's N; one alone gives less.
    Ranch last_only = ranch;
    last_only.feedings.erase(last_only.feedings.begin(), last_only.feedings.begin() + 40);
    const AccountContext alone(last_only, request_for(last_only, "2026-27"));
    const auto one = account_pasture(alone, PastureId::at(0));
    EXPECT_GT(account.available_n_kg[0], one->account.available_n_kg[0]);
    EXPECT_EQ(context.up_to, day("2026-09-28"));
    EXPECT_EQ(account.days_fed, 40 + 10 - 10);  // 9 days of autumn 2025 and 28 September have gone
}

// Only a span that starts where a season on record ended has a season before it.
TEST(PastureAccount, ComparesWithTheSeasonBeforeAndNothingElse) {
    const Ranch ranch = two_winters();
    EXPECT_FALSE(AccountContext(ranch, request_for(ranch, "2025-26")).season_before);
    EXPECT_EQ(AccountContext(ranch, request_for(ranch, "2026-27")).season_before->name, "2025-26");
    AccountRequest all = request_for(ranch, "2025-26");
    all.span = *all_on_record(ranch);
    const AccountContext context(ranch, all);
    EXPECT_FALSE(context.season_before);
    const auto done = account_pasture(context, PastureId::at(0));
    ASSERT_TRUE(done);
    EXPECT_TRUE(done->maps.change_seen.values.empty());
    EXPECT_EQ(done->account.ledger.bales, done->account.all_ledger.bales);
}

TEST(PastureAccount, OfAnEmptyPastureIsNothingAndDoesNotFail) {
    const Ranch ranch = two_winters();
    const AccountContext context(ranch, request_for(ranch, "2025-26"));
    const auto done = account_pasture(context, PastureId::at(1));
    ASSERT_TRUE(done);
    EXPECT_EQ(done->account.ledger.bales, 0.0);
    EXPECT_FALSE(done->account[SeasonMeasure::n].even);
    EXPECT_FALSE(done->account.bands);
    EXPECT_EQ(done->account.days_fed, 0);
}

TEST(PastureAccount, LinesSoilTestsUpWithWhatHadBeenFedByThen) {
    Ranch ranch = two_winters();
    ranch.soil.push_back({.name = "early",
                          .date = day("2025-08-01"),
                          .p_ppm = 8.0,
                          .method = "Olsen",
                          .where_taken = Point{250, 60}});
    ranch.soil.push_back({.name = "late",
                          .date = day("2026-05-01"),
                          .p_ppm = 30.0,
                          .method = "Olsen",
                          .where_taken = Point{250, 60}});
    ranch.soil.push_back({.name = "zone",
                          .date = day("2026-05-01"),
                          .p_ppm = 9.0,
                          .method = "Olsen",
                          .where_taken = testing::square(500, 600, 700, 700)});
    ranch.soil.push_back({.name = "other side", .where_taken = Point{1200, 60}});
    const AccountContext context(ranch, request_for(ranch, "2026-27"));
    const auto done = account_pasture(context, PastureId::at(0));
    ASSERT_TRUE(done);
    const auto& soil = done->account.soil;
    ASSERT_EQ(soil.size(), 3U);
    EXPECT_EQ(soil[0].sample, 0U);
    EXPECT_FALSE(soil[0].fed_before);
    EXPECT_EQ(soil[0].p2o5_per_m2, 0.0);
    EXPECT_GT(soil[1].p2o5_per_m2, 10.0 * soil[2].p2o5_per_m2);
    const auto relations = soil_relations(ranch, soil);
    ASSERT_EQ(relations.size(), 1U);
    EXPECT_EQ(relations[0].samples, 2);
    EXPECT_FALSE(relations[0].p_rank);  // two are too few
}

TEST(GroundAdvice, RestsWhatIsOverItsLimitAndFeedsWhatIsShort) {
    Ranch ranch = two_winters();
    ranch.pastures[0].limit.p2o5_kg_per_m2 = 0.001;
    ranch.pastures[1].target.n_kg_per_m2 = 0.005;
    const AccountContext context(ranch, request_for(ranch, "2026-27"));
    std::vector<PastureAccount> accounts;
    for (const int p : {0, 1}) accounts.push_back(account_pasture(context, PastureId{p})->account);
    const auto advice = ground_advice(ranch, accounts);
    ASSERT_EQ(advice.size(), 2U);
    EXPECT_EQ(advice[0].pasture, PastureId::at(1));
    EXPECT_EQ(advice[0].kind, AdviceKind::feed_next);
    EXPECT_EQ(advice[0].nutrient, "N");
    EXPECT_NEAR(advice[0].per_m2, 0.005, 1e-12);
    EXPECT_EQ(advice[1].kind, AdviceKind::rest);
    EXPECT_EQ(advice[1].nutrient, "P2O5");
    for (const Advice& one : advice) {
        EXPECT_FALSE(one.reasons.empty());
        EXPECT_EQ(one.rank, 1);
    }
    // 45 days in twelve months is said beside the test, and who decides.
    accounts[0].days_fed = 45;
    const auto fed_long = ground_advice(ranch, accounts);
    bool told = false;
    for (const std::string& caution : fed_long[1].cautions)
        told = told || (caution.find("45 of the last 365") != std::string::npos &&
                        caution.find("ask the state") != std::string::npos);
    EXPECT_TRUE(told);
}

}  // namespace
}  // namespace haylane
