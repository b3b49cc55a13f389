// Checks that nothing much is left to gain: by denser candidates on a small ranch, and, where feed
// covers the ground many times over, by any split of the feed among the same lines.
#include "core/plan/bound.h"
#include "core/plan/plan_days.h"
#include "tests/plan/choice_case.h"
#include "tests/support/small_ranch.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::Case;
using testing::feeding_on;
using testing::full_ground;
using testing::one_line;

Optimality planned(double heading_step_rad, double candidates) {
    CheckedRanch checked = testing::small_ranch();
    Ranch& ranch = checked.ranch;
    ranch.feedings.clear();  // J then is what the plan itself can change
    ranch.herds.resize(1);
    ranch.herds[0].pastures = {PastureId::at(0)};
    ranch.settings.heading_step_rad = heading_step_rad;
    ranch.settings.max_candidates = candidates;
    const auto result = plan_days(
        checked,
        {.from = testing::day("2026-01-10"), .days = 4, .threads = 1, .order = LineOrder::free});
    EXPECT_TRUE(result);
    return result ? result->plan.optimality : Optimality{};
}

// Lines are thinned evenly over offsets and starts: four times as many at twice the headings stand
// half as far apart.
TEST(SearchLimits, HalvingStepsLowersJByLessThanTwoPercent) {
    const double step = units::rad_from_deg(5.0);
    const Optimality coarse = planned(step, 400);
    const Optimality fine = planned(step / 2.0, 1600);
    ASSERT_GT(coarse.candidates, 200);  // some have no room to turn
    ASSERT_GT(fine.candidates, 3 * coarse.candidates);
    EXPECT_GT(fine.objective, 0.98 * coarse.objective);
}

// A square of 150 m, 60 feedings of 122 m lines along and across it.
std::unique_ptr<Case> covered_square(int feedings) {
    auto made = std::make_unique<Case>();
    made->grounds.push_back(
        std::make_unique<PastureGround>(full_ground(Grid{0.0, 0.0, 3.0, 50, 50})));
    auto set = std::make_unique<std::vector<Candidate>>();
    for (int k = 0; k < 24; ++k) {
        for (int start = 0; start < 3; ++start) {
            const double x = 6.0 + 6.0 * k;
            const double from = 5.0 + 10.0 * start;
            set->push_back(one_line({x, from}, {x, from + 122.0}));
            set->push_back(one_line({from, x}, {from + 122.0, x}));
        }
    }
    made->sets.push_back(std::move(set));
    made->input.grounds.push_back(
        {made->grounds[0].get(), Raster<double>(made->grounds[0]->mask.grid), 0});
    for (int f = 0; f < feedings; ++f)
        made->input.feedings.push_back(feeding_on(*made, 0, f, 120.0 / feedings));
    made->input.spacing_m = 0.0;
    made->input.threads = 1;
    return made;
}

// All mass stays on target ground and nothing lies there before, so J without way is CV squared.
// Relaxed, 60 equal feedings among the same lines are 6 of ten times the mass, which are quicker to
// solve nearly to the end.
TEST(SearchLimits, CoveredGroundEndsWithinFifteenPercentOfTheLeastUnevenness) {
    const LineChoice choice = choose_lines(covered_square(60)->input);
    const auto fewer = covered_square(6);
    const ChoiceModel model = choice_model(fewer->input);
    Allowed all(6);
    for (std::vector<std::size_t>& own : all)
        for (std::size_t c = 0; c < model.feedings[0].candidates(); ++c) own.push_back(c);
    const double relaxed =
        lower_bound(model, all, {.rounds = 2000, .start_theta = 1.0, .theta_step = 0.0});
    EXPECT_GT(relaxed, lower_bound(model, all, {.rounds = 0}));
    const double least_cv = std::sqrt(relaxed);
    RecordProperty("least_cv", std::to_string(least_cv));
    RecordProperty("cv", std::to_string(choice.optimality.cv));
    EXPECT_GT(least_cv, 0.0);
    EXPECT_GE(choice.optimality.cv, least_cv);
    EXPECT_LE(choice.optimality.cv, 1.15 * least_cv);
    ASSERT_TRUE(choice.optimality.cv_bound);
    RecordProperty("cv_bound", std::to_string(*choice.optimality.cv_bound));
    EXPECT_LE(*choice.optimality.cv_bound, choice.optimality.cv);
    // So few rounds leave some of it unproven.
    EXPECT_GE(*choice.optimality.cv_bound, choice.optimality.cv / 1.2);
    EXPECT_GE(choice.optimality.lower_bound, 0.0);  // a sum of squares
}

}  // namespace
}  // namespace haylane
