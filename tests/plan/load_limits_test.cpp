// Checks per-acre limits: on tiny choices against all plans, each judged by whole rasters from the
// definition; on a small ranch by the plan checker and by what the plan does when ground is full.
#include "core/deposit/cross_profile.h"
#include "core/plan/bound.h"
#include "core/plan/check_limits.h"
#include "core/plan/check_plan.h"
#include "core/plan/move_line.h"
#include "core/plan/neighbour_order.h"
#include "core/plan/plan_days.h"
#include "core/plan/random_plans.h"
#include "tests/plan/choice_case.h"
#include "tests/support/small_ranch.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::Case;
using testing::random_case;
using testing::small_ranch;

// Two limited nutrients on the first ground of a random choice, the second with masses of its own;
// room grows from 0.6 to 1.4 times `middle_kg` a cell from west to east.
void limit_ground(Case& made, double middle_kg) {
    LineChoiceInput& input = made.input;
    const PastureGround& ground = *made.grounds[0];
    Raster<double> room(ground.mask.grid, std::numeric_limits<double>::infinity());
    for (int j = 0; j < room.grid.ny; ++j) {
        for (int i = 0; i < room.grid.nx; ++i) {
            if (ground.target(i, j) != 0) room(i, j) = middle_kg * (0.6 + 0.8 * i / room.grid.nx);
        }
    }
    Raster<double> looser = room;
    for (double& value : looser.values) value *= 0.6;
    input.grounds[0].room_kg = {room, looser};
    for (ChoiceFeeding& feeding : input.feedings) {
        if (feeding.ground != 0) continue;
        feeding.limited = {{feeding.mass.residue_kg, feeding.mass.line_kg},
                           {0.1 * feeding.mass.residue_kg, 0.7 * feeding.mass.line_kg}};
    }
}

// By whole rasters and the plain definitions: whether a plan keeps every cell within its room.
bool keeps_limits(const Case& made, const std::vector<int>& chosen) {
    const LineChoiceInput& input = made.input;
    const PastureGround& ground = *made.grounds[0];
    const Spread line(ground.mask, input.sigma_line_m);
    const Spread window(ground.mask, input.window_m);
    for (std::size_t n = 0; n < input.grounds[0].room_kg.size(); ++n) {
        Raster<double> load(ground.mask.grid);
        Raster<double> near(ground.mask.grid);
        for (std::size_t f = 0; f < chosen.size(); ++f) {
            const ChoiceFeeding& feeding = input.feedings[f];
            if (feeding.ground != 0 || chosen[f] < 0) continue;
            const MultiPolyline paths =
                paths_of((*feeding.candidates)[static_cast<std::size_t>(chosen[f])]);
            add_cells(residue_cells(paths, feeding.rig, feeding.wind_from_rad, ground),
                      feeding.limited[n].residue_kg, load);
            add_cells(line_cells(paths, ground), feeding.limited[n].line_kg, near);
        }
        const Raster<double> spread = line.forward(near);
        for (std::size_t c = 0; c < load.values.size(); ++c) load.values[c] += spread.values[c];
        const Raster<double> seen = window.forward(load);
        for (std::size_t c = 0; c < seen.values.size(); ++c) {
            if (seen.values[c] > input.grounds[0].room_kg[n].values[c] + 1e-12) return false;
        }
    }
    return true;
}

TEST(LoadLimits, PlansAndBoundAgreeWithAllPlansTried) {
    int shut = 0;
    int tight = 0;
    for (std::uint64_t seed = 100; seed < 130; ++seed) {
        SCOPED_TRACE(seed);
        const auto made = random_case(seed, 1 + seed % 2, 8, 3);
        limit_ground(*made, 0.010 + 0.006 * static_cast<double>(seed % 5));
        const ChoiceModel model = choice_model(made->input);
        const LineRules rules(made->input);
        const LoadLimits limits(made->input, model);
        const testing::BruteForce best = testing::brute_force(model, rules, limits);
        const LineChoice choice = choose_lines(made->input);
        if (best.plans == 0) {
            EXPECT_NE(std::find(choice.chosen.begin(), choice.chosen.end(), -1),
                      choice.chosen.end());
            ++shut;
            continue;
        }
        EXPECT_TRUE(keeps_limits(*made, best.chosen));
        EXPECT_TRUE(keeps_limits(*made, choice.chosen));
        EXPECT_LE(choice.optimality.lower_bound, best.objective + 1e-12);
        if (std::find(choice.chosen.begin(), choice.chosen.end(), -1) != choice.chosen.end())
            continue;
        ++tight;
        EXPECT_GE(choice.optimality.objective, best.objective - 1e-12);
        EXPECT_LE(choice.optimality.objective, 1.05 * best.objective);
        for (std::uint64_t draw = 0; draw < 5; ++draw)
            EXPECT_TRUE(keeps_limits(*made, random_plan(model, rules, limits, draw)));
    }
    EXPECT_GE(tight, 10);
    EXPECT_GE(shut, 1);
}

TEST(LoadLimits, TheJudgementIsThatOfTheDefinition) {
    int kept = 0;
    int broken = 0;
    for (std::uint64_t seed = 200; seed < 204; ++seed) {
        const auto made = random_case(seed, 1, 8, 3);
        limit_ground(*made, 0.024);
        const ChoiceModel model = choice_model(made->input);
        const LoadLimits limits(made->input, model);
        Random random(seed);
        for (int trial = 0; trial < 40; ++trial) {
            std::vector<int> chosen;
            LoadRoom room(limits);
            bool holds = true;
            for (std::size_t f = 0; f < 3; ++f) {
                chosen.push_back(static_cast<int>(random.below(8)));
                holds = holds && room.holds(f, static_cast<std::size_t>(chosen[f]));
                room.add(f, static_cast<std::size_t>(chosen[f]), 1.0);
            }
            EXPECT_EQ(holds, keeps_limits(*made, chosen));
            (holds ? kept : broken) += 1;
        }
    }
    EXPECT_GE(kept, 10);
    EXPECT_GE(broken, 10);
}

TEST(LoadLimits, RoomComesBackWhenALineIsTakenOff) {
    const auto made = random_case(210, 1, 8, 3);
    limit_ground(*made, 0.020);
    const ChoiceModel model = choice_model(made->input);
    const LoadLimits limits(made->input, model);
    LoadRoom room(limits);
    for (int round = 0; round < 50; ++round) {
        room.add(0, 1, 1.0);
        room.add(1, 2, 1.0);
        room.add(0, 1, -1.0);
        room.add(1, 2, -1.0);
    }
    for (std::size_t c = 0; c < 8; ++c) EXPECT_EQ(room.holds(2, c), limits.fits_alone(2, c));
}

double lb_ac(double value) { return value * units::kKgPerPound / units::kM2PerAcre; }

bool has_problem(const PlanResult& result, const char* code) {
    return std::any_of(result.plan.problems.begin(), result.plan.problems.end(),
                       [&](const Problem& p) { return p.code == code; });
}

const PlanResult& planned(Result<PlanResult>& result) {
    EXPECT_TRUE(result) << result.error().what << " " << result.error().where;
    return *result;
}

class LimitedRanch : public ::testing::TestWithParam<LineOrder> {};

TEST_P(LimitedRanch, NoLineTakesGroundOverItsLimit) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    PlanRequest request{.from = testing::day("2026-01-10"), .order = GetParam()};
    auto free = plan_days(checked, request);
    checked.ranch.pastures[0].limit = {lb_ac(20.0), lb_ac(11.0), {}};
    // The plan made without limits breaks them, so that there is something to keep.
    ASSERT_FALSE(broken_limits(checked.ranch, planned(free).plan).empty());
    auto result = plan_days(checked, request);
    for (const BrokenRule& broken : check_plan(checked.ranch, planned(result).plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
    // 40 feedings of 6 bales lie on 300 m x 70 m.
    EXPECT_TRUE(has_problem(*result, "over_limit_already"));
    EXPECT_LE(result->plan.optimality.lower_bound, result->plan.optimality.objective);
}

TEST_P(LimitedRanch, AHerdGoesToAnotherPastureWhenItsOwnIsFull) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.pastures[0].limit.n_kg_per_m2 = lb_ac(2.0);
    PlanRequest request{.from = testing::day("2026-01-10"), .order = GetParam()};
    auto result = plan_days(checked, request);
    for (const PlannedFeeding& feeding : planned(result).plan.feedings)
        EXPECT_EQ(feeding.pasture, PastureId::at(1));
    EXPECT_TRUE(has_problem(*result, "moved_pasture"));
}

TEST_P(LimitedRanch, NowhereToGoIsAnErrorThatNamesHerdDayAndLimit) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.herds[0].pastures = {PastureId::at(0)};
    checked.ranch.pastures[0].limit.n_kg_per_m2 = lb_ac(2.0);
    const auto result =
        plan_days(checked, {.from = testing::day("2026-01-10"), .order = GetParam()});
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, "no_line");
    EXPECT_NE(result.error().where.find("Cows, 2026-01-10"), std::string::npos);
    EXPECT_NE(result.error().what.find("limit"), std::string::npos);
}

INSTANTIATE_TEST_SUITE_P(Orders, LimitedRanch,
                         ::testing::Values(LineOrder::free, LineOrder::neighbour));

// Where only a thinner line keeps the limit, the rig's least rate is laid before the herd moves.
TEST(LoadLimits, LaysThinnerBeforeItMovesTheHerd) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.herds[0].pastures = {PastureId::at(0)};
    checked.ranch.settings.head_space_m = 0.1;  // so that lines are laid thick
    checked.ranch.feedings.clear();
    checked.ranch.herds[0].head = 50;      // one load
    Settings& s = checked.ranch.settings;  // nothing falls but near the line
    s.share_water_ratio = s.share_shelter_ratio = s.share_rest_ratio = 0.0;
    PlanRequest request{.from = testing::day("2026-01-10"), .days = 1};
    auto thick = plan_days(checked, request);
    ASSERT_GT(planned(thick).plan.feedings[0].lay_kg_per_m, 3.0);
    const PastureLoad& load = thick->loads[0];
    const Raster<double> seen =
        through_window(load.ground, load.after().p2o5_kg, checked.ranch.settings.window_m);
    double most = 0.0;
    for (std::size_t c = 0; c < seen.values.size(); ++c) {
        if (load.ground.target.values[c] != 0) most = std::max(most, seen.values[c]);
    }
    checked.ranch.pastures[0].limit.p2o5_kg_per_m2 = 0.8 * most / seen.grid.cell_area_m2();
    auto thin = plan_days(checked, request);
    EXPECT_TRUE(has_problem(planned(thin), "laid_thinner"));
    EXPECT_NEAR(thin->plan.feedings[0].lay_kg_per_m, 2.1, 1e-9);
    EXPECT_TRUE(broken_limits(checked.ranch, thin->plan).empty());
}

// A held or moved line is refused by the same rule.
TEST(LoadLimits, AHandMayNotPassThemEither) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.herds[0].head = 60;  // one load
    PlanRequest request{.from = testing::day("2026-01-10"), .days = 1};
    request.hand.held.push_back(
        {HerdId::at(0), request.from, {{{100.0, 300.0}, {500.0, 300.0}}}, {}, {}});
    const auto free = plan_days(checked, request);
    ASSERT_TRUE(free) << free.error().what;
    checked.ranch.pastures[0].limit.n_kg_per_m2 = lb_ac(5.0);
    const auto held = plan_days(checked, request);
    ASSERT_FALSE(held.has_value());
    EXPECT_EQ(held.error().code, "held_line_broken");
    EXPECT_NE(held.error().what.find("limit"), std::string::npos);
    // Room for the plan's own line, none over the old ones.
    checked.ranch.pastures[0].limit.n_kg_per_m2 = lb_ac(60.0);
    auto kept = keep_plan(checked, {.from = request.from, .days = 1});
    ASSERT_TRUE(kept);
    LineMover mover(*kept);
    MultiPolyline own;
    for (const PlannedLine& line : kept->result.plan.feedings[0].lines) own.push_back(line.path);
    EXPECT_TRUE(mover.move(0, own)->broken.empty());
    MultiPolyline over;
    for (std::size_t l = 0; l < own.size(); ++l)
        over.push_back({{100.0, 60.0 + 12.0 * static_cast<double>(l)},
                        {100.0 + length_m(own[l]), 60.0 + 12.0 * static_cast<double>(l)}});
    const auto moved = mover.move(0, over);
    ASSERT_TRUE(moved);
    EXPECT_NE(std::find(moved->broken.begin(), moved->broken.end(),
                        "It takes the ground over the pasture's limit."),
              moved->broken.end());
}

}  // namespace
}  // namespace haylane
