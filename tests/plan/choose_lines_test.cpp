// Checks the choice of lines against full computation of every plan on tiny ranches (all
// combinations), and its parts against their definitions. Candidates are made by hand.
#include "core/plan/choose_lines.h"

#include "core/deposit/cross_profile.h"
#include "core/plan/bound.h"
#include "core/plan/random_plans.h"
#include "tests/plan/choice_case.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::brute_force;
using testing::BruteForce;
using testing::Case;
using testing::day;
using testing::feeding_on;
using testing::ladder;
using testing::one_line;
using testing::random_case;

TEST(ChoiceModel, FirstOrderIsWhatDepositingTheCandidateChanges) {
    const auto made = random_case(1, 2, 12, 4);
    const ChoiceModel model = choice_model(made->input);
    for (std::size_t f = 0; f < 4; ++f) {
        const GroundModel& ground = model.grounds[model.feedings[f].ground];
        const ChoiceFields fields = fields_at(ground, ground.fixed_kg);
        for (std::size_t c = 0; c < 12; ++c) {
            const Band laid = laid_kg(model, f, c);
            const double direct = dot(laid, ground.fixed_kg, ground.ground->target) * ground.scale;
            EXPECT_NEAR(first_order(model, fields, f, c), direct, 1e-12 * (1.0 + std::abs(direct)));
            EXPECT_NEAR(
                own_energy(model, f, c),
                square_of(ground,
                          raster_of(laid, laid.rows.empty() ? Grid{} : ground.fixed_kg.grid)),
                1e-12);
        }
    }
}

// The same deposit by whole rasters and the plain definitions, without bands or adjoint fields.
TEST(ChoiceModel, ObjectiveIsThatOfTheDefinition) {
    const auto made = random_case(2, 2, 5, 4);
    const LineChoiceInput& input = made->input;
    const ChoiceModel model = choice_model(input);
    const std::vector<int> chosen{1, 0, 4, 3};
    double mass = 0.0;
    double area = 0.0;
    std::vector<Raster<double>> windowed;
    for (std::size_t g = 0; g < 2; ++g) {
        const PastureGround& ground = *made->grounds[g];
        const Spread line(ground.mask, 6.0);
        const Spread window(ground.mask, 10.0);
        Raster<double> near_line(ground.mask.grid);
        Raster<double> load = input.grounds[g].load_kg;
        const Raster<double> before = window.forward(load);
        for (std::size_t n = 0; n < load.values.size(); ++n) {
            mass += ground.target.values[n] != 0 ? before.values[n] : 0.0;
        }
        for (std::size_t f = g; f < 4; f += 2) {
            const ChoiceFeeding& feeding = input.feedings[f];
            const Polyline& path =
                (*feeding.candidates)[static_cast<std::size_t>(chosen[f])].lines[0].path;
            add_cells(residue_cells({path}, feeding.rig, feeding.wind_from_rad, ground),
                      feeding.mass.residue_kg, load);
            add_cells(cells_along(path, feeding.mass.line_kg / length_m(path), ground), 1.0,
                      near_line);
            for (std::size_t n = 0; n < load.values.size(); ++n) {
                load.values[n] += feeding.mass.elsewhere_kg.values[n];
            }
            mass += feeding.mass.residue_kg + feeding.mass.line_kg + 0.3;
        }
        const Raster<double> spread = line.forward(near_line);
        for (std::size_t n = 0; n < load.values.size(); ++n) load.values[n] += spread.values[n];
        windowed.push_back(window.forward(load));
        area += 9.0 * static_cast<double>(ground.target_cells);
    }
    const double level = mass / area * 9.0;
    double above = 0.0;
    double below = 0.0;
    for (std::size_t g = 0; g < 2; ++g) {
        for (std::size_t n = 0; n < windowed[g].values.size(); ++n) {
            if (made->grounds[g]->target.values[n] == 0) continue;
            above += std::pow(windowed[g].values[n] - level, 2);
            below += level * level;
        }
    }
    double money = 0.0;
    double least = 0.0;
    for (std::size_t f = 0; f < 4; ++f) {
        const std::vector<double>& own = input.feedings[f].money;
        money += own[static_cast<std::size_t>(chosen[f])];
        least += *std::min_element(own.begin(), own.end());
    }
    const double expected = above / below + input.cost_weight_ratio * money / least;
    EXPECT_NEAR(plan_objective(model, chosen), expected, 1e-10);
}

TEST(ChooseLines, BoundStaysBelowTheBestOfAllPlans) {
    for (std::uint64_t seed = 10; seed < 18; ++seed) {
        SCOPED_TRACE(seed);
        const auto made = random_case(seed, 1 + seed % 2, 7, 3);
        made->input.spacing_m = seed % 3 == 0 ? 4.0 : 0.0;
        const ChoiceModel model = choice_model(made->input);
        const BruteForce best =
            brute_force(model, LineRules(made->input), LoadLimits(made->input, model));
        ASSERT_GT(best.plans, 20);
        const LineChoice choice = choose_lines(made->input);
        const Optimality& o = choice.optimality;
        EXPECT_LE(o.lower_bound, best.objective + 1e-12);
        EXPECT_GE(o.objective, best.objective - 1e-12);
        EXPECT_LE(o.objective, 1.05 * best.objective);
        EXPECT_LT(o.gap, 0.35);
        ASSERT_TRUE(o.cv_bound.has_value());
        EXPECT_LE(*o.cv_bound, best.cv + 1e-12);
        EXPECT_GT(*o.cv_bound, 0.3 * best.cv);
        EXPECT_EQ(o.candidates, 7);  // mean of three feedings
        EXPECT_GT(o.j_ref, o.objective);
    }
}

TEST(Bound, IsValidForEachTheta) {
    const auto made = random_case(40, 1, 6, 4);
    const ChoiceModel model = choice_model(made->input);
    const BruteForce best =
        brute_force(model, LineRules(made->input), LoadLimits(made->input, model));
    const Allowed all(4, {0, 1, 2, 3, 4, 5});
    const double separate = lower_bound(model, all, {.rounds = 0});
    for (const double theta : {0.25, 0.5, 0.75, 1.0}) {
        const double bound =
            lower_bound(model, all, {.rounds = 30, .start_theta = theta, .theta_step = 0.0});
        EXPECT_LE(bound, best.objective + 1e-12);
        EXPECT_GE(bound, separate);
    }
}

// Where theta may differ from square to square, more is proven than by any one theta for all.
TEST(Bound, ThetaBySquareProvesMoreThanOneForAll) {
    int better = 0;
    for (std::uint64_t seed = 60; seed < 70; ++seed) {
        SCOPED_TRACE(seed);
        const auto made = random_case(seed, 1, 6, 4);
        made->input.spacing_m = 0.0;
        const ChoiceModel model = choice_model(made->input);
        const double best =
            brute_force(model, LineRules(made->input), LoadLimits(made->input, model)).objective;
        const Allowed all(4, {0, 1, 2, 3, 4, 5});
        double one_for_all = lower_bound(model, all, {.rounds = 0});
        for (const double theta : {0.25, 0.5, 0.75, 1.0})
            one_for_all = std::max(
                one_for_all,
                lower_bound(model, all, {.rounds = 40, .start_theta = theta, .theta_step = 0.0}));
        const double by_square = lower_bound(model, all, {.rounds = 40});
        EXPECT_LE(by_square, best + 1e-12);
        better += by_square > one_for_all ? 1 : 0;
    }
    EXPECT_GE(better, 8);
}

// Where every feeding wants the same few lines, a minimum per feeding proves little; fractions
// prove much of what is left.
TEST(Bound, FractionsCloseMostOfTheGapWhereLinesOverlap) {
    const auto made = random_case(41, 1, 5, 6);
    made->input.spacing_m = 0.0;
    const ChoiceModel model = choice_model(made->input);
    const double best =
        brute_force(model, LineRules(made->input), LoadLimits(made->input, model)).objective;
    const Allowed all(6, {0, 1, 2, 3, 4});
    const double separate = lower_bound(model, all, {.rounds = 0});
    const double bound = lower_bound(model, all);
    EXPECT_LT(separate, best);
    EXPECT_LE(bound, best + 1e-12);
    EXPECT_GT(bound - separate, 0.5 * (best - separate));
    const double longer = lower_bound(model, all, {.rounds = 40});
    EXPECT_LE(longer, best + 1e-12);
    EXPECT_LT(longer - bound, 0.05 * (best - separate));
}

// Lines far apart do not overlap, so a minimum per feeding is the optimum: the bound is J itself.
TEST(Bound, IsTightWhereLinesDoNotOverlap) {
    Case made;
    made.grounds.push_back(
        std::make_unique<PastureGround>(testing::full_ground(Grid{0.0, 0.0, 3.0, 150, 60})));
    for (int side = 0; side < 2; ++side) {
        auto set = std::make_unique<std::vector<Candidate>>();
        for (int k = 0; k < 5; ++k) {
            const double x = 60.0 + 300.0 * side + 5.0 * k;
            set->push_back(one_line({x, 20.0 + 3.0 * k}, {x, 90.0}));
        }
        made.sets.push_back(std::move(set));
    }
    Raster<double> load(made.grounds[0]->mask.grid, 0.001);
    for (int j = 0; j < 60; ++j) load(20, j) = 0.02;
    made.input.grounds.push_back({made.grounds[0].get(), load, 0});
    for (std::size_t side = 0; side < 2; ++side) {
        ChoiceFeeding feeding = feeding_on(made, 0, static_cast<int>(side), 2.0);
        feeding.candidates = made.sets[side].get();
        made.input.feedings.push_back(feeding);
    }
    made.input.threads = 1;
    const Optimality o = choose_lines(made.input).optimality;
    EXPECT_NEAR(o.lower_bound, o.objective, 1e-10);
    EXPECT_NEAR(o.gap, 0.0, 1e-10);
    ASSERT_TRUE(o.gap_of_gain.has_value());
    EXPECT_NEAR(*o.gap_of_gain, 0.0, 1e-6);
}

// Every feeding has its line when time is up at once; only nothing is improved.
TEST(ChooseLines, CutShortStillLaysEveryFeeding) {
    const auto made = random_case(50, 2, 40, 8);
    made->input.spacing_m = 6.0;
    const LineChoice whole = choose_lines(made->input);
    EXPECT_FALSE(whole.cut_short);
    std::stop_source time;
    time.request_stop();
    made->input.enough = time.get_token();
    const LineChoice cut = choose_lines(made->input);
    EXPECT_TRUE(cut.cut_short);
    for (const int chosen : cut.chosen) EXPECT_GE(chosen, 0);
    EXPECT_GT(cut.optimality.objective, whole.optimality.objective);
}

TEST(ChooseLines, GivesTheSamePlanForOneAndTwoThreads) {
    const auto made = random_case(50, 2, 40, 8);
    made->input.spacing_m = 6.0;
    made->input.threads = 1;
    const LineChoice one = choose_lines(made->input);
    made->input.threads = 2;
    const LineChoice two = choose_lines(made->input);
    EXPECT_EQ(one.chosen, two.chosen);
    EXPECT_EQ(one.yielded, two.yielded);
    EXPECT_EQ(one.optimality.objective, two.optimality.objective);
    EXPECT_EQ(one.optimality.lower_bound, two.optimality.lower_bound);
    EXPECT_EQ(one.optimality.j_ref, two.optimality.j_ref);
    EXPECT_EQ(one.optimality.cv_bound, two.optimality.cv_bound);
    made->input.seed = 2;
    EXPECT_NE(choose_lines(made->input).optimality.j_ref, two.optimality.j_ref);
}

TEST(ChooseLines, SwapsNeverRaiseTheObjective) {
    const auto made = random_case(60, 1, 60, 8);
    made->input.swap_rounds = 0;
    const double greedy = choose_lines(made->input).optimality.objective;
    made->input.swap_rounds = 6;
    const double swapped = choose_lines(made->input).optimality.objective;
    EXPECT_LE(swapped, greedy);
}

TEST(ChooseLines, KeepsSpacingAmongFeedingsAndFromRestingLines) {
    const auto made = ladder(27, 6);
    made->input.resting.push_back({0, {{84.0, 0.0}, {84.0, 150.0}}, day(-5)});
    const LineChoice choice = choose_lines(made->input);
    ASSERT_EQ(choice.chosen.size(), 6U);
    for (std::size_t f = 0; f < 6; ++f) {
        EXPECT_EQ(choice.yielded[f], Yielded::nothing);
        const double x = 6.0 + 6.0 * choice.chosen[f];
        EXPECT_GE(std::abs(x - 84.0), 12.0 - 1e-9);
        for (std::size_t g = 0; g < f; ++g) {
            EXPECT_GE(std::abs(choice.chosen[f] - choice.chosen[g]), 2);
        }
    }
}

TEST(ChooseLines, ReturnsToGroundThatHasRested) {
    const auto made = ladder(1, 2);
    made->input.resting.push_back({0, {{6.0, 0.0}, {6.0, 150.0}}, day(-9)});
    made->input.feedings[1].date = day(10);
    made->input.rest_days = 10;  // the old line ends its rest on day 1, the first one's on day 10
    const LineChoice choice = choose_lines(made->input);
    EXPECT_EQ(choice.chosen, (std::vector<int>{0, 0}));
    EXPECT_EQ(choice.yielded[0], Yielded::rest);
    EXPECT_EQ(choice.yielded[1], Yielded::nothing);
}

TEST(ChooseLines, RestNeverEndsForCowsThatCalve) {
    const auto made = ladder(1, 2);
    made->input.resting.push_back({0, {{6.0, 0.0}, {6.0, 150.0}}, day(-20)});
    made->input.feedings[1].date = day(10);
    made->input.rest_days = 5;  // the old line has rested, and so has the first one on day 10
    EXPECT_EQ(choose_lines(made->input).yielded[1], Yielded::nothing);
    made->input.feedings[1].rest_ends = false;
    const LineChoice choice = choose_lines(made->input);
    EXPECT_EQ(choice.yielded[0], Yielded::nothing);
    EXPECT_EQ(choice.yielded[1], Yielded::rest);
}

TEST(ChooseLines, YieldsSpacingBeforeRestAndNeverLeavesAHerdWithout) {
    const auto made = ladder(2, 2);  // 6 m apart: half the spacing
    const LineChoice choice = choose_lines(made->input);
    EXPECT_NE(choice.chosen[0], choice.chosen[1]);
    EXPECT_EQ(choice.yielded[0], Yielded::nothing);
    EXPECT_EQ(choice.yielded[1], Yielded::spacing);
    const auto tight = ladder(1, 2);
    const LineChoice again = choose_lines(tight->input);
    EXPECT_EQ(again.chosen, (std::vector<int>{0, 0}));
    EXPECT_EQ(again.yielded[1], Yielded::rest);
    EXPECT_LE(again.optimality.lower_bound, again.optimality.objective + 1e-12);
}

TEST(ChooseLines, SaysMinusOneWhereThereIsNoCandidate) {
    const auto made = ladder(0, 2);
    const LineChoice choice = choose_lines(made->input);
    EXPECT_EQ(choice.chosen, (std::vector<int>{-1, -1}));
    EXPECT_EQ(choice.nearest, choice.chosen);
    EXPECT_EQ(choice.optimality.candidates, 0);
    EXPECT_NEAR(choice.optimality.objective, choice.optimality.lower_bound, 1e-12);
}

TEST(ChooseLines, GoesWhereTheGroundIsThin) {
    const auto made = ladder(20, 1);
    Raster<double>& load = made->input.grounds[0].load_kg;
    for (int j = 0; j < 50; ++j) {
        for (int i = 0; i < 30; ++i) load(i, j) = 0.01;  // x < 90 is loaded
    }
    EXPECT_GT(6.0 + 6.0 * choose_lines(made->input).chosen[0], 95.0);
}

TEST(ChooseLines, TakesTheCheaperOfEqualPlaces) {
    const auto made = ladder(20, 1);
    made->input.feedings[0].money.assign(20, 10.0);
    made->input.feedings[0].money[13] = 1.0;
    made->input.cost_weight_ratio = 100.0;
    EXPECT_EQ(choose_lines(made->input).chosen[0], 13);
}

// A line that lies beside a resting or an earlier one does not count as near.
TEST(ChooseLines, NearestIsTheCheapestThatTheRulesLeave) {
    const auto made = ladder(20, 2);
    std::vector<double> money(20, 10.0);
    money[3] = 1.0;   // beside the resting line
    money[15] = 2.0;  // where the first feeding goes
    money[16] = 3.0;  // 6 m from that
    money[9] = 4.0;
    for (ChoiceFeeding& feeding : made->input.feedings) feeding.money = money;
    made->input.resting.push_back({0, {{24.0, 0.0}, {24.0, 150.0}}, day(-5)});
    made->input.cost_weight_ratio = 0.0;
    const LineChoice even = choose_lines(made->input);
    EXPECT_EQ(even.nearest[0], 15);
    const int first = even.chosen[0];
    EXPECT_EQ(even.nearest[1], std::abs(first - 15) >= 2 ? 15 : std::abs(first - 16) >= 2 ? 16 : 9);
    made->input.cost_weight_ratio = 100.0;
    const LineChoice cheap = choose_lines(made->input);
    EXPECT_EQ(cheap.chosen, (std::vector<int>{15, 9}));
    EXPECT_EQ(cheap.nearest, cheap.chosen);
}

TEST(LineRules, MeasureTrueDistances) {
    const Polyline a{{0.0, 0.0}, {10.0, 0.0}};
    EXPECT_EQ(clearance(a, {{5.0, -5.0}, {5.0, 5.0}}, 12.0), Clearance::touching);  // cross
    EXPECT_EQ(clearance(a, {{13.0, 4.0}, {30.0, 4.0}}, 10.0), Clearance::near);     // 5 m off
    EXPECT_EQ(clearance(a, {{13.0, 4.0}, {30.0, 4.0}}, 5.0), Clearance::clear);
    Random random(70);
    for (int trial = 0; trial < 200; ++trial) {
        Polyline b;
        Polyline c;
        for (int v = 0; v < 4; ++v) {
            b.push_back({60.0 * random.uniform(), 60.0 * random.uniform()});
            c.push_back({40.0 + 60.0 * random.uniform(), 60.0 * random.uniform()});
        }
        EXPECT_NEAR(distance_m(b, c, 20.0), std::min(20.0, distance_m(b, c)), 1e-9);
    }
}

TEST(RandomPlans, KeepEveryRule) {
    const auto made = ladder(27, 6);
    made->input.resting.push_back({0, {{84.0, 0.0}, {84.0, 150.0}}, day(-5)});
    const ChoiceModel model = choice_model(made->input);
    const LineRules rules(made->input);
    const LoadLimits limits(made->input, model);
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
        const std::vector<int> plan = random_plan(model, rules, limits, seed);
        ASSERT_EQ(plan.size(), 6U);
        for (std::size_t f = 0; f < 6; ++f) {
            EXPECT_EQ(rules.of(f, static_cast<std::size_t>(plan[f]), plan, f), Clearance::clear);
        }
    }
}

}  // namespace
}  // namespace haylane
