// Checks what is reported against targets by hand-worked mass balances.
#include "core/plan/target_loads.h"

#include "core/plan/plan_days.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;

// A fully feedable 300 m square and its neighbour, one feeding each season.
struct Made {
    Ranch ranch;
    std::vector<PastureLoad> loads;
};

Made two_pastures() {
    Made made;
    Ranch& r = made.ranch;
    r.pastures = {{.name = "One", .shape = testing::square(0, 0, 300, 300)},
                  {.name = "Two", .shape = testing::square(300, 0, 600, 300)}};
    const auto fed = [&](const char* when, std::size_t pasture) {
        FeedingRecord record;
        record.from = record.to = day(when);
        record.pasture = PastureId::at(pasture);
        record.bales = 10.0;
        record.bale_dm_kg = 500.0;
        record.quality = {0.10, 0.55, 0.002, 0.01, true};
        record.waste_ratio = 0.2;
        r.feedings.push_back(record);
    };
    fed("2026-03-01", 0);  // the season before
    fed("2026-12-01", 0);
    fed("2027-01-20", 0);  // after the plan's first day
    fed("2026-12-05", 1);
    for (std::size_t p = 0; p < 2; ++p) {
        PastureLoad load;
        FeedableGround dry;
        dry.region = Region(r.pastures[p].shape);
        load.ground = pasture_ground(r, PastureId::at(p), dry);
        load.before = empty_map(load.ground);
        made.loads.push_back(std::move(load));
    }
    return made;
}

// 5,000 kg DM of 0.2 % P: 10 kg P, of which 20 % is left as hay and 95 % of the rest is excreted,
// 9.6 kg = 21.997 kg P2O5 on 9 ha.
TEST(TargetLoads, CountsThisSeasonBeforeThePlanAndThePlan) {
    Made made = two_pastures();
    made.ranch.pastures[0].target.p2o5_kg_per_m2 = 0.005;
    const double expected = (0.2 * 10.0 + 0.8 * 0.95 * 10.0) * 2.2914 / 90000.0;
    auto found = target_loads(made.ranch, made.loads, day("2027-01-11"));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].pasture, PastureId::at(0));
    EXPECT_EQ(found[0].measure, "p2o5");
    EXPECT_EQ(found[0].wanted_kg_per_m2, 0.005);
    EXPECT_NEAR(found[0].before_kg_per_m2, expected, 1e-9);
    EXPECT_NEAR(found[0].after_kg_per_m2, expected, 1e-9);
    made.loads[0].with_plan = made.loads[0].before;
    for (double& value : made.loads[0].with_plan->p2o5_kg.values) value += 0.009;  // 0.001 kg a m2
    found = target_loads(made.ranch, made.loads, day("2027-01-11"));
    EXPECT_NEAR(found[0].after_kg_per_m2, expected + 0.001, 1e-9);
}

TEST(TargetLoads, PutsTheLeastReachedFirstAndSkipsPasturesWithoutTarget) {
    Made made = two_pastures();
    EXPECT_TRUE(target_loads(made.ranch, made.loads, day("2027-01-11")).empty());
    made.ranch.pastures[0].target.p2o5_kg_per_m2 = 0.001;
    made.ranch.pastures[0].target.n_kg_per_m2 = 1.0;
    made.ranch.pastures[1].target.p2o5_kg_per_m2 = 0.01;
    const auto found = target_loads(made.ranch, made.loads, day("2027-01-11"));
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].measure, "n");
    EXPECT_EQ(found[1].pasture, PastureId::at(1));
    EXPECT_EQ(found[2].pasture, PastureId::at(0));
}

TEST(TargetLoads, StandInThePlanWithWhatItAdds) {
    CheckedRanch checked = small_ranch();
    checked.ranch.pastures[0].target.p2o5_kg_per_m2 = 0.0045;
    const auto result = plan_days(checked, {.from = day("2027-01-11"), .days = 2, .threads = 1});
    ASSERT_TRUE(result) << result.error().what;
    ASSERT_EQ(result->plan.targets.size(), 1U);
    const TargetLoad& target = result->plan.targets[0];
    EXPECT_EQ(target.before_kg_per_m2, 0.0);  // what is on record was fed in another season
    double added_kg = 0.0;
    for (const PlannedFeeding& feeding : result->plan.feedings)
        if (feeding.pasture == PastureId::at(0)) added_kg += feeding.deposit.p2o5_kg;
    // Lines lie on feed ground and spread 6 m; the rest falls in the fence strip as well.
    ASSERT_GT(added_kg, 0.0);
    EXPECT_LT(target.after_kg_per_m2, added_kg / (780.0 * 780.0));
    EXPECT_GT(target.after_kg_per_m2, 0.9 * added_kg / (800.0 * 800.0));
}

}  // namespace
}  // namespace haylane
