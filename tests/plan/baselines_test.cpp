// Sets plans against two ways of feeding that need none, on three invented ranches and over a long
// winter: with the same feedings, bales, roads and evaluation the plan must have the lower J.
#include "tests/support/baselines.h"

#include "core/plan/plan_objective.h"
#include "tests/support/baseline_ranches.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

void expect_plan_to_win(CheckedRanch ranch, int days, double candidates = 200.0) {
    ranch.ranch.settings.max_candidates = candidates;  // for speed
    auto kept = keep_plan(ranch, {.from = testing::baseline_day(), .days = days, .threads = 0});
    ASSERT_TRUE(kept) << kept.error().what << kept.error().where;
    const auto plan = testing::evaluated(*kept, testing::planned_lines(*kept));
    const auto gate = testing::evaluated(*kept, testing::gate_lines(*kept));
    const testing::StripLines strips = testing::strip_lines(*kept);
    const auto strip = testing::evaluated(*kept, strips.lines);
    // The evaluation is the planner's own.
    EXPECT_NEAR(plan.objective, kept->result.plan.optimality.objective, 1e-9);
    EXPECT_NEAR(plan.distance_m, kept->result.plan.totals.distance_m, 1e-6);
    EXPECT_LT(plan.objective, gate.objective);
    EXPECT_LT(plan.objective, strip.objective);
    EXPECT_LT(plan.cv, gate.cv);
    EXPECT_GT(plan.cu, gate.cu);
    EXPECT_LE(gate.distance_m, plan.distance_m);  // evenness costs miles
    EXPECT_EQ(strips.skipped, 0);                 // each day finds one
    ASSERT_TRUE(plan.cost && gate.cost && strip.cost);
}

TEST(Baselines, LoseOnASquareQuarterSection) { expect_plan_to_win(testing::quarter_section(), 14); }

TEST(Baselines, LoseOnAnLWithACreek) { expect_plan_to_win(testing::creek_ell(), 14); }

TEST(Baselines, LoseOnSteepHills) { expect_plan_to_win(testing::steep_hills(), 14); }

TEST(Baselines, LoseOverSixWeeksOfRotatingSites) {
    expect_plan_to_win(testing::quarter_section(), 42, 100.0);
}

}  // namespace
}  // namespace haylane
