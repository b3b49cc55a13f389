// Checks soil need against hand-worked numbers on published classes (SARE, Building Soils for
// Better Crops, table 21.2, for Bray P1; Minnesota and North Dakota classes for Olsen, from
// memory), and the choice of lines against the definition of J with weights that differ by cell.
#include "core/plan/soil_need.h"

#include "core/plan/bound.h"
#include "core/plan/plan_days.h"
#include "tests/plan/choice_case.h"
#include "tests/support/small_ranch.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::full_ground;
using testing::ladder;
using testing::random_case;
using testing::small_ranch;
using testing::square;

const sys_days kFrom = testing::day("2027-01-11");

SoilSample zone(const char* name, double p_ppm, const char* method, const MultiPolygon& area,
                std::optional<const char*> date = "2025-10-01") {
    SoilSample sample;
    sample.name = name;
    if (date) sample.date = testing::day(*date);
    sample.p_ppm = p_ppm;
    sample.method = method;
    sample.where_taken = area;
    return sample;
}

SoilSample point(const char* name, double p_ppm, const char* method, Point at,
                 const char* date = "2025-10-01") {
    SoilSample sample = zone(name, p_ppm, method, {}, date);
    sample.where_taken = at;
    return sample;
}

const Problem* problem_of(const SoilTests& tests, const std::string& code) {
    for (const Problem& problem : tests.problems)
        if (problem.code == code) return &problem;
    return nullptr;
}

double need_at(double ppm, const char* method, Measure measure = Measure::p2o5) {
    Ranch ranch = small_ranch().ranch;
    SoilSample sample = zone("z", ppm, method, square(0, 0, 800, 800));
    sample.k_ppm = ppm;
    ranch.soil = {sample};
    const SoilTests tests = soil_tests(ranch, measure, kFrom);
    EXPECT_EQ(tests.zones.size(), 1U) << method;
    return tests.zones.empty() ? -1.0 : tests.zones[0].need_ratio;
}

TEST(SoilNeed, FallsFromLowToVeryHighByTheMethodsOwnClasses) {
    EXPECT_EQ(need_at(6.0, "Bray-P1"), 1.0);            // low, 0 to 15
    EXPECT_EQ(need_at(15.0, "bray p1"), 1.0);           // where optimum starts
    EXPECT_NEAR(need_at(23.0, "BRAY P1"), 0.6, 1e-12);  // half way to 31: 1 - 0.8 / 2
    EXPECT_EQ(need_at(31.0, "Bray 1"), 0.2);            // very high
    EXPECT_EQ(need_at(6.0, "Olsen"), 1.0);              // low, 4 to 7
    EXPECT_NEAR(need_at(10.0, "olsen"), 0.8, 1e-12);    // a quarter of the way from 8 to 16
    EXPECT_EQ(need_at(40.0, "Olsen P"), 0.2);
    EXPECT_EQ(need_at(15.0, "Mehlich-3"), 1.0);
    EXPECT_EQ(need_at(36.0, "Mehlich III"), 0.2);
    EXPECT_NEAR(need_at(145.0, "Olsen", Measure::k2o), 0.6, 1e-12);  // half way from 120 to 170
    EXPECT_EQ(need_at(300.0, "Bray-P1", Measure::k2o), 0.2);
}

TEST(SoilNeed, IsTheNewestZonesAndOneOutside) {
    Ranch ranch = small_ranch().ranch;
    ranch.soil = {zone("new", 5.0, "Olsen", square(0, 0, 400, 300), "2026-09-01"),
                  zone("old", 20.0, "Olsen", square(0, 0, 800, 400), "2024-09-01"),
                  zone("undated", 12.0, "Olsen", square(0, 0, 800, 800), std::nullopt)};
    const SoilTests tests = soil_tests(ranch, Measure::p2o5, kFrom);
    EXPECT_EQ(tests.method, "Olsen");
    PastureGround ground = full_ground(Grid{0.0, 0.0, 10.0, 90, 90});
    ground.pasture = PastureId::at(0);
    const Raster<double> need = soil_need(tests, ground);
    ASSERT_EQ(need.values.size(), 8100U);
    EXPECT_EQ(need(10, 10), 1.0);           // in all three: the newest, low
    EXPECT_EQ(need(60, 10), 0.2);           // in the old and the undated one
    EXPECT_NEAR(need(60, 60), 0.6, 1e-12);  // the undated one alone: 12 of 8 to 16
    EXPECT_EQ(need(85, 85), 1.0);           // in none
    ground = full_ground(Grid{2000.0, 0.0, 10.0, 5, 5});
    EXPECT_TRUE(soil_need(tests, ground).values.empty());
}

TEST(SoilNeed, LonePointSpeaksForItsPastureWhereNoZoneReaches) {
    Ranch ranch = small_ranch().ranch;  // West 0 to 800, East 800 to 1600
    ranch.soil = {point("west core", 20.0, "Olsen", {400, 400})};
    const auto points = [&] { return soil_tests(ranch, Measure::p2o5, kFrom).points; };
    ASSERT_EQ(points().size(), 1U);
    EXPECT_EQ(points()[0].pasture, PastureId::at(0));
    PastureGround ground = full_ground(Grid{0.0, 0.0, 10.0, 20, 20});
    ground.pasture = PastureId::at(0);
    const Raster<double> need = soil_need(soil_tests(ranch, Measure::p2o5, kFrom), ground);
    ASSERT_EQ(need.values.size(), 400U);
    for (const double value : need.values) EXPECT_EQ(value, 0.2);
    ground.pasture = PastureId::at(1);
    EXPECT_TRUE(soil_need(soil_tests(ranch, Measure::p2o5, kFrom), ground).values.empty());

    ranch.soil.push_back(point("second", 3.0, "Olsen", {100, 700}));
    EXPECT_TRUE(points().empty());
    const SoilTests two = soil_tests(ranch, Measure::p2o5, kFrom);
    ASSERT_NE(problem_of(two, "soil_points_silent"), nullptr);
    EXPECT_NE(problem_of(two, "soil_points_silent")->text.find("west core, second"),
              std::string::npos);
    ranch.soil.back() = zone("corner", 3.0, "Olsen", square(0, 0, 50, 50));
    EXPECT_TRUE(points().empty());
    ranch.soil.back() = zone("elsewhere", 3.0, "Olsen", square(900, 0, 950, 50));
    EXPECT_EQ(points().size(), 1U);
    ranch.soil.back() = point("outside", 3.0, "Olsen", {-400, 700});
    EXPECT_EQ(points().size(), 1U);
}

TEST(SoilNeed, NeverMixesMethodsAndSaysWhichIsLeftOut) {
    Ranch ranch = small_ranch().ranch;
    ranch.soil = {zone("A", 5.0, "Bray-P1", square(0, 0, 100, 100), "2026-09-01"),
                  zone("B", 5.0, "Olsen", square(100, 0, 200, 100)),
                  zone("C", 5.0, "olsen", square(200, 0, 300, 100)),
                  zone("D", 5.0, "Lab's own", square(300, 0, 400, 100)),
                  point("E", 5.0, "Bray-P1", {900, 100}),
                  point("F", 5.0, "Bray-P1", {900, 200}),
                  zone("G", 5.0, "", square(400, 0, 500, 100))};
    const SoilTests tests = soil_tests(ranch, Measure::p2o5, kFrom);
    EXPECT_EQ(tests.method, "Olsen");  // two zones against one; E and F speak for nothing
    EXPECT_EQ(tests.zones.size(), 2U);
    ASSERT_NE(problem_of(tests, "soil_methods_differ"), nullptr);
    EXPECT_NE(problem_of(tests, "soil_methods_differ")->text.find("A, E, F"), std::string::npos);
    ASSERT_NE(problem_of(tests, "soil_method_unknown"), nullptr);
    EXPECT_NE(problem_of(tests, "soil_method_unknown")->text.find("D, G"), std::string::npos);
    ranch.soil[2].method = "Bray-P1";
    const SoilTests more = soil_tests(ranch, Measure::p2o5, kFrom);
    EXPECT_EQ(more.method, "Bray-P1");
    ranch.soil.resize(2);  // one of each: that of the newest test
    EXPECT_EQ(soil_tests(ranch, Measure::p2o5, kFrom).method, "Bray-P1");
    ranch.soil[1].date = testing::day("2026-10-01");
    EXPECT_EQ(soil_tests(ranch, Measure::p2o5, kFrom).method, "Olsen");
}

TEST(SoilNeed, FlagsTestsOverFourYearsOldAndUsesThem) {
    Ranch ranch = small_ranch().ranch;
    ranch.soil = {zone("young", 5.0, "Olsen", square(0, 0, 100, 100), "2023-01-12"),
                  zone("old", 5.0, "Olsen", square(100, 0, 200, 100), "2023-01-09")};
    const SoilTests tests = soil_tests(ranch, Measure::p2o5, kFrom);
    EXPECT_EQ(tests.zones.size(), 2U);
    ASSERT_NE(problem_of(tests, "soil_test_old"), nullptr);
    EXPECT_NE(problem_of(tests, "soil_test_old")->text.find(": old."), std::string::npos);
    EXPECT_TRUE(soil_tests(ranch, Measure::p2o5, testing::day("2025-01-01")).problems.empty());
}

TEST(SoilNeed, NitrateAndAnUnknownPotassiumScaleSetNothing) {
    Ranch ranch = small_ranch().ranch;
    SoilSample sample = zone("z", 5.0, "Mehlich-3", square(0, 0, 800, 800));
    sample.n_ppm = 2.0;
    sample.k_ppm = 50.0;
    ranch.soil = {sample};
    const SoilTests nitrogen = soil_tests(ranch, Measure::n, kFrom);
    EXPECT_TRUE(nitrogen.zones.empty());
    EXPECT_TRUE(nitrogen.problems.empty());
    const SoilTests potassium = soil_tests(ranch, Measure::k2o, kFrom);
    EXPECT_TRUE(potassium.zones.empty());
    EXPECT_NE(problem_of(potassium, "soil_method_unknown"), nullptr);
}

// tau spreads the mass by weight: 2 kg over 50 x 60 cells, half of them at need 0.2, is
// 2 / (1500 + 0.2 x 1500) a full cell and a fifth of it on the rest.
TEST(ChoiceModel, TargetFollowsTheNeed) {
    const auto made = ladder(20, 1);
    Raster<double> need(made->grounds[0]->mask.grid, 1.0);
    for (int j = 0; j < 50; ++j)
        for (int i = 0; i < 30; ++i) need(i, j) = 0.2;
    made->input.grounds[0].need_ratio = need;
    const ChoiceModel model = choice_model(made->input);
    EXPECT_NEAR(model.grounds[0].level_kg(40, 20), 2.0 / 1800.0, 1e-15);
    EXPECT_NEAR(model.grounds[0].level_kg(10, 20), 0.4 / 1800.0, 1e-15);
    // J of nothing laid is 1 by definition: the residual is the target itself.
    EXPECT_NEAR(square_of(model, residuals(model, std::vector<int>{-1})), 1.0, 1e-12);
    EXPECT_GT(choose_lines(made->input).chosen[0], 14);  // x > 90, where the need is
}

TEST(ChoiceModel, BoundHoldsWhereNeedDiffers) {
    for (std::uint64_t seed = 300; seed < 306; ++seed) {
        SCOPED_TRACE(seed);
        const auto made = random_case(seed, 1 + seed % 2, 7, 3);
        Random random(seed);
        for (ChoiceGround& ground : made->input.grounds) {
            ground.need_ratio = Raster<double>(ground.ground->mask.grid, 1.0);
            for (double& value : ground.need_ratio.values)
                value = random.uniform() < 0.5 ? 0.2 : 1.0;
        }
        const ChoiceModel model = choice_model(made->input);
        const testing::BruteForce best =
            testing::brute_force(model, LineRules(made->input), LoadLimits(made->input, model));
        ASSERT_GT(best.plans, 20);
        const Optimality o = choose_lines(made->input).optimality;
        EXPECT_LE(o.lower_bound, best.objective + 1e-12);
        EXPECT_GE(o.objective, best.objective - 1e-12);
        ASSERT_TRUE(o.cv_bound);
        EXPECT_LE(*o.cv_bound, best.cv + 1e-12);
    }
}

double mean_x_m(const Plan& plan, HerdId herd) {
    double sum = 0.0;
    int count = 0;
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (feeding.herd != herd) continue;
        for (const PlannedLine& line : feeding.lines) {
            sum += (line.path.front().x + line.path.back().x) / 2.0;
            ++count;
        }
    }
    EXPECT_GT(count, 0);
    return sum / count;
}

// West lies from x = 0 to 800; nothing is on record, so that only the soil speaks.
TEST(SoilNeed, PlanFeedsTheZoneThatIsShort) {
    CheckedRanch checked = small_ranch();
    Ranch& ranch = checked.ranch;
    ranch.feedings.clear();
    ranch.herds.resize(1);
    ranch.herds[0].pastures = {PastureId::at(0)};
    const auto planned = [&](double west_ppm, double east_ppm) {
        ranch.soil = {zone("west half", west_ppm, "Olsen", square(0, 0, 400, 800)),
                      zone("east half", east_ppm, "Olsen", square(400, 0, 800, 800), "2020-05-01")};
        const auto result =
            plan_days(checked, {.from = kFrom, .days = 3, .threads = 1, .order = LineOrder::free});
        EXPECT_TRUE(result) << result.error().what;
        return result->plan;
    };
    const Plan east_short = planned(30.0, 4.0);
    EXPECT_GT(mean_x_m(east_short, HerdId::at(0)), 400.0);
    EXPECT_LT(mean_x_m(planned(4.0, 30.0), HerdId::at(0)), 400.0);
    const auto old = std::find_if(east_short.problems.begin(), east_short.problems.end(),
                                  [](const Problem& p) { return p.code == "soil_test_old"; });
    ASSERT_NE(old, east_short.problems.end());
    EXPECT_NE(old->text.find("east half"), std::string::npos);
}

}  // namespace
}  // namespace haylane
