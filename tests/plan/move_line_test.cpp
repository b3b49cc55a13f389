// Figures of a moved line against a whole plan in which every feeding is held, the moved one at its
// new place: the same J, minutes, miles, fuel and money, worked out by the other way.
#include "core/plan/move_line.h"

#include "core/plan/hand_lines.h"
#include "tests/support/small_ranch.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;

struct Kept {
    CheckedRanch checked = small_ranch();
    PlanRequest request{.from = day("2026-01-10"), .days = 2, .seed = 3, .threads = 1};
    std::optional<KeptPlan> plan;

    Kept() {
        checked.ranch.settings.fuel_price_per_m3 = 1100.0;
        checked.ranch.settings.max_candidates = 120;
        checked.ranch.settings.labor_per_s = 20.0 / 3600.0;
        auto made = keep_plan(checked, request);
        if (made) plan = std::move(*made);
    }
    [[nodiscard]] const Plan& as_planned() const { return plan->result.plan; }
};

MultiPolyline lines_of(const PlannedFeeding& feeding) {
    MultiPolyline lines;
    for (const PlannedLine& line : feeding.lines) lines.push_back(line.path);
    return lines;
}

MultiPolyline shifted(MultiPolyline lines, Point by) {
    for (Polyline& line : lines)
        for (Point& p : line) p = p + by;
    return lines;
}

// Every feeding held as planned, but one with other lines.
PlanResult held_plan(const Kept& kept, std::size_t moved, const MultiPolyline& lines) {
    PlanRequest request = kept.request;
    for (std::size_t f = 0; f < kept.as_planned().feedings.size(); ++f) {
        const PlannedFeeding& feeding = kept.as_planned().feedings[f];
        request.hand.held.push_back({feeding.herd, feeding.date,
                                     f == moved ? lines : lines_of(feeding), feeding.bales,
                                     feeding.rig});
    }
    auto plan = plan_days(kept.checked, request);
    EXPECT_TRUE(plan) << (plan ? "" : plan.error().what);
    return plan ? std::move(*plan) : PlanResult{};
}

// Unevenness of a plan with nothing left to choose: its way is the least there is, so the way's
// part of J is its weight.
double uneven(const Kept& kept, const Plan& plan) {
    return plan.optimality.objective - kept.checked.ranch.settings.cost_weight_ratio;
}

// Time on the way of a feeding with these lines.
double way_of(Kept& kept, std::size_t f, const MultiPolyline& lines) {
    const ScheduledFeeding& feeding = kept.plan->schedule.feedings[f];
    const auto hand = hand_lines(*kept.plan->context, feeding, lines);
    return hand ? hand->way_s : 0.0;
}

struct Work {
    double time_s = 0.0;
    double fuel_l = 0.0;
};
Work work_of(const PlannedFeeding& feeding) {
    Work work;
    for (const PlannedLoad& load : feeding.loads) {
        work.time_s += load.time_s;
        work.fuel_l += load.fuel_l;
    }
    return work;
}

void expect_figures(Kept& kept, std::size_t f, const MultiPolyline& lines,
                    const MovedLines& moved) {
    const MultiPolyline old = lines_of(kept.as_planned().feedings[f]);
    const Plan plan = held_plan(kept, f, lines).plan;
    const Plan before = held_plan(kept, f, old).plan;
    ASSERT_EQ(plan.feedings.size(), kept.as_planned().feedings.size());
    const double way = way_of(kept, f, lines) - way_of(kept, f, old);
    EXPECT_NEAR(moved.objective - kept.plan->placement.model.cost_per_money * way,
                uneven(kept, plan) - uneven(kept, before), 1e-9);
    const Work now = work_of(plan.feedings[f]);
    const Work then = work_of(kept.as_planned().feedings[f]);
    EXPECT_NEAR(moved.time_s, now.time_s - then.time_s, 1e-6);
    EXPECT_NEAR(moved.fuel_l, now.fuel_l - then.fuel_l, 1e-6);
    EXPECT_NEAR(moved.distance_m, plan.totals.distance_m - kept.as_planned().totals.distance_m,
                1e-6);
    ASSERT_TRUE(moved.cost && plan.totals.cost && kept.as_planned().totals.cost);
    EXPECT_NEAR(*moved.cost, *plan.totals.cost - *kept.as_planned().totals.cost, 1e-6);
    EXPECT_EQ(lines_of(moved.feeding), lines_of(plan.feedings[f]));
    EXPECT_EQ(moved.feeding.ground_so_far_bales_per_m2,
              plan.feedings[f].ground_so_far_bales_per_m2);
    EXPECT_EQ(moved.feeding.why, plan.feedings[f].why);
}

TEST(MoveLine, FiguresAreThoseOfAPlanWithTheLineThere) {
    Kept kept;
    ASSERT_TRUE(kept.plan);
    LineMover mover(*kept.plan);
    int legal = 0;
    for (std::size_t f = 0; f < kept.as_planned().feedings.size(); ++f) {
        for (const Point by : {Point{0, 40}, Point{-70, 10}, Point{60, -30}, Point{0, 20}}) {
            const MultiPolyline lines = shifted(lines_of(kept.as_planned().feedings[f]), by);
            const auto moved = mover.move(f, lines);
            ASSERT_TRUE(moved);
            if (!moved->broken.empty()) continue;
            ++legal;
            expect_figures(kept, f, lines, *moved);
        }
    }
    EXPECT_GT(legal, 4);
}

TEST(MoveLine, NotMovedIsNoChange) {
    Kept kept;
    ASSERT_TRUE(kept.plan);
    LineMover mover(*kept.plan);
    for (std::size_t f = 0; f < kept.as_planned().feedings.size(); ++f) {
        const auto moved = mover.move(f, lines_of(kept.as_planned().feedings[f]));
        ASSERT_TRUE(moved);
        EXPECT_TRUE(moved->broken.empty());
        EXPECT_TRUE(moved->yielded.empty()) << moved->yielded.front();
        EXPECT_NEAR(moved->objective, 0.0, 1e-12);
        EXPECT_NEAR(moved->time_s, 0.0, 1e-6);
        EXPECT_NE(moved->evenness.find("about as even"), std::string::npos);
    }
}

TEST(MoveLine, TellsRulesAndNeighboursInPlainWords) {
    Kept kept;
    ASSERT_TRUE(kept.plan);
    LineMover mover(*kept.plan);
    const PlannedFeeding& feeding = kept.as_planned().feedings.front();
    const auto out = mover.move(0, shifted(lines_of(feeding), {0, -2000}));
    ASSERT_TRUE(out);
    ASSERT_FALSE(out->broken.empty());
    EXPECT_NE(out->broken.front().find("leaves West"), std::string::npos) << out->broken.front();
    // Onto the same herd's next day.
    std::size_t next = 1;
    while (kept.as_planned().feedings[next].herd != feeding.herd) ++next;
    const auto on = mover.move(0, lines_of(kept.as_planned().feedings[next]));
    ASSERT_TRUE(on);
    ASSERT_FALSE(on->yielded.empty());
    EXPECT_NE(on->yielded.front().find("2026-01-11"), std::string::npos) << on->yielded.front();
    EXPECT_FALSE(mover.move(0, {})->broken.empty());
    EXPECT_FALSE(mover.move(0, {{{1, 1}, {1, 1}}})->broken.empty());
}

// The heaviest place with the line there: brute force over the deposit map of a plan that holds it.
TEST(MoveLine, HeaviestPlaceIsThatOfTheGroundAfterwards) {
    Kept kept;
    ASSERT_TRUE(kept.plan);
    LineMover mover(*kept.plan);
    const MultiPolyline lines = shifted(lines_of(kept.as_planned().feedings.front()), {0, 40});
    const auto moved = mover.move(0, lines);
    ASSERT_TRUE(moved);
    ASSERT_TRUE(moved->broken.empty()) << moved->broken.front();
    const PlanResult plan = held_plan(kept, 0, lines);
    ASSERT_FALSE(plan.loads.empty());
    const PastureLoad& load = plan.loads[moved->feeding.pasture.index()];
    const Raster<double> seen =
        through_window(load.ground, load.after().bales, kept.checked.ranch.settings.window_m);
    const double heaviest = *std::max_element(seen.values.begin(), seen.values.end());
    EXPECT_NEAR(moved->heaviest_bales_per_m2, heaviest / seen.grid.cell_area_m2(), 1e-9);
}

}  // namespace
}  // namespace haylane
