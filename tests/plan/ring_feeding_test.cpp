// A herd fed in ring feeders: where its bales are set, what they leave, how they are hauled, in
// what order, and by hand. Distances are measured here, not asked of the code under test.
#include "core/plan/ring_feeding.h"

#include "core/haul/load_work.h"
#include "core/lines/ring_places.h"
#include "core/plan/check_plan.h"
#include "core/plan/plan_days.h"
#include "tests/support/line_rules.h"
#include "tests/support/small_ranch.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;
using testing::square;

const sys_days kFrom = day("2026-01-10");

CheckedRanch ring_ranch() {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds[0].fed_in = FedIn::ring;
    checked.ranch.off_limits.push_back({.name = "the pond",
                                        .kind = OffLimitsKind::water,
                                        .setback_m = 60.0,
                                        .area = square(300, 300, 400, 380)});
    checked.ranch.soft.push_back({.name = "the bog", .area = square(450, 0, 800, 300)});
    checked.ranch.weather.push_back(
        {.date = kFrom + std::chrono::days{2}, .low_c = -8.0, .thaw = true});
    return checked;
}

PlanResult planned(const CheckedRanch& checked, PlanRequest request = {}) {
    request.from = kFrom;
    request.days = 7;
    if (request.threads == 0) request.threads = 1;
    auto result = plan_days(checked, request);
    EXPECT_TRUE(result.has_value())
        << (result ? "" : result.error().what + " " + result.error().where);
    return result ? std::move(*result) : PlanResult{};
}

std::vector<Point> places_of(const PlannedFeeding& feeding) {
    std::vector<Point> all;
    for (const PlannedLine& row : feeding.lines)
        all.insert(all.end(), row.places.begin(), row.places.end());
    return all;
}

double away_m(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

int bales_of(const PlannedFeeding& feeding) {
    int bales = 0;
    for (const BaleDraw& draw : feeding.bales) bales += draw.count;
    return bales;
}

bool says(const PlannedFeeding& feeding, const std::string& code) {
    return std::any_of(feeding.cautions.begin(), feeding.cautions.end(),
                       [&](const Caution& caution) { return caution.code == code; });
}

std::vector<const PlannedFeeding*> ring_feedings(const Plan& plan) {
    std::vector<const PlannedFeeding*> all;
    for (const PlannedFeeding& feeding : plan.feedings)
        if (feeding.in_rings) all.push_back(&feeding);
    return all;
}

class RingOrders : public ::testing::TestWithParam<LineOrder> {};
INSTANTIATE_TEST_SUITE_P(Orders, RingOrders,
                         ::testing::Values(LineOrder::neighbour, LineOrder::free));

TEST_P(RingOrders, EveryBaleHasAPlaceOnGroundThatMayBeFedOn) {
    const CheckedRanch checked = ring_ranch();
    const Ranch& r = checked.ranch;
    const PlanResult result = planned(checked, {.order = GetParam()});
    ASSERT_EQ(ring_feedings(result.plan).size(), 7U);
    for (const PlannedFeeding* feeding : ring_feedings(result.plan)) {
        SCOPED_TRACE(format_day(feeding->date));
        const std::vector<Point> places = places_of(*feeding);
        EXPECT_EQ(places.size(), static_cast<std::size_t>(bales_of(*feeding)));
        const MultiPolygon& fence = r[feeding->pasture].shape;
        for (const Point p : places) {
            EXPECT_TRUE(test::brute_inside(test::rings_of(fence), p));
            EXPECT_GE(test::brute_distance(p, fence[0].outer, true),
                      r.settings.fence_clearance_m - 1e-6);
            EXPECT_GE(test::brute_distance(p, r.off_limits[0].area[0].outer, true), 60.0 - 1e-6);
            EXPECT_FALSE(feeding->date == kFrom + std::chrono::days{2} && p.x > 450 && p.y < 300 &&
                         p.x < 800);
            for (const Gate& gate : r.gates) EXPECT_GE(away_m(p, gate.at), 60.0 - 1e-6);
        }
    }
    for (const BrokenRule& broken : check_plan(r, result.plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

TEST_P(RingOrders, RingsStandASpacingFromEachOtherAndFromLines) {
    const CheckedRanch checked = ring_ranch();
    const double spacing = checked.ranch.settings.spacing_m - 1e-6;
    const PlanResult result = planned(checked, {.order = GetParam()});
    std::vector<Point> all;
    for (const PlannedFeeding* feeding : ring_feedings(result.plan)) {
        for (const Point p : places_of(*feeding)) {
            for (const Point q : all) EXPECT_GE(away_m(p, q), spacing);
            for (const PlannedFeeding& other : result.plan.feedings) {
                if (other.in_rings) continue;
                for (const PlannedLine& line : other.lines)
                    EXPECT_GE(test::brute_distance(p, line.path, false), spacing);
            }
            for (const FeedingRecord& old : checked.ranch.feedings)
                for (const Polyline& line : std::get<MultiPolyline>(old.shape))
                    EXPECT_GE(test::brute_distance(p, line, false), spacing);
            all.push_back(p);
        }
    }
}

// Need by hand: 150 head x 590 kg x 2.0 % = 1770 kg eaten a day; 6.1 % is left in and round rings
// (Buskirk and others 2003).
TEST(RingFeeding, HayOfferedRunsAheadOfNeedByLessThanABale) {
    const CheckedRanch checked = ring_ranch();
    double offered = 0.0;
    double needed = 0.0;
    std::vector<int> drawn(checked.ranch.lots.size());
    const PlanResult result = planned(checked);
    for (const PlannedFeeding* feeding : ring_feedings(result.plan)) {
        needed += 150 * 590.0 * 0.020 / (1.0 - 0.061);
        double heaviest = 0.0;
        for (const BaleDraw& draw : feeding->bales) {
            const HayLot& lot = checked.ranch[draw.lot];
            offered += draw.count * lot.bale_kg * lot.dm_ratio;
            heaviest = std::max(heaviest, lot.bale_kg * lot.dm_ratio);
        }
        EXPECT_GE(offered - needed, -1e-6);
        EXPECT_LT(offered - needed, heaviest);
    }
    for (const PlannedFeeding& feeding : result.plan.feedings)
        for (const BaleDraw& draw : feeding.bales) drawn[draw.lot.index()] += draw.count;
    for (const HayLeft& left : result.plan.hay_left)
        EXPECT_EQ(left.count, checked.ranch[left.lot].bales - drawn[left.lot.index()]);
}

// N in the hay = on the ground + lost + retained; hay left over lies within 2 m of a ring, and a
// cell's half diagonal.
TEST(RingFeeding, MassIsKeptAndHayLeftOverLiesRoundTheRings) {
    CheckedRanch checked = ring_ranch();
    checked.ranch.herds.resize(1);
    const PlanResult result = planned(checked);
    double hay_n_kg = 0.0;
    double balance_n_kg = 0.0;
    double residue_kg = 0.0;
    double n_kg = 0.0;
    double bales = 0.0;
    std::vector<Point> places;
    for (const PlannedFeeding& feeding : result.plan.feedings) {
        double n_in = 0.0;
        for (const BaleDraw& draw : feeding.bales) {
            const HayLot& lot = checked.ranch[draw.lot];
            n_in += draw.count * lot.bale_dm_kg() * lot.quality.cp_ratio / 6.25;
            residue_kg += draw.count * lot.bale_dm_kg() * 0.061;
            bales += draw.count;
        }
        hay_n_kg += n_in;
        n_kg += feeding.deposit.n_kg;
        balance_n_kg += feeding.deposit.n_kg + feeding.deposit.n_lost_gas_kg +
                        n_in * (1.0 - 0.061) * checked.ranch.settings.retained_n_ratio;
        for (const Point p : places_of(feeding)) places.push_back(p);
    }
    EXPECT_NEAR(balance_n_kg / hay_n_kg, 1.0, 1e-9);
    double map_n_kg = 0.0;
    double map_residue_kg = 0.0;
    double map_bales = 0.0;
    double far_kg = 0.0;
    for (const PastureLoad& load : result.loads) {
        const Grid& grid = load.ground.mask.grid;
        for (int j = 0; j < grid.ny; ++j) {
            for (int i = 0; i < grid.nx; ++i) {
                const double left =
                    load.after().residue_dm_kg(i, j) - load.before.residue_dm_kg(i, j);
                map_residue_kg += left;
                map_n_kg += load.after().n_kg(i, j) - load.before.n_kg(i, j);
                map_bales += load.after().bales(i, j) - load.before.bales(i, j);
                const Point at{grid.x0 + (i + 0.5) * grid.cell_m,
                               grid.y0 + (j + 0.5) * grid.cell_m};
                const bool near = std::any_of(places.begin(), places.end(), [&](Point p) {
                    return away_m(p, at) <= 2.0 + 0.7072 * grid.cell_m;
                });
                if (!near) far_kg += std::abs(left);
            }
        }
    }
    EXPECT_NEAR(map_residue_kg / residue_kg, 1.0, 1e-9);
    EXPECT_NEAR(map_n_kg / n_kg, 1.0, 1e-9);
    EXPECT_NEAR(map_bales / bales, 1.0, 1e-9);
    EXPECT_LT(far_kg, 1e-9 * residue_kg);
}

TEST(RingFeeding, NoLineIsLaidAndTheWayPassesEveryPlace) {
    const PlanResult result = planned(ring_ranch());
    for (const PlannedFeeding* feeding : ring_feedings(result.plan)) {
        EXPECT_EQ(feeding->line_length_m, 0.0);
        EXPECT_EQ(feeding->lay_kg_per_m, 0.0);
        EXPECT_EQ(feeding->line_m_per_head, 0.0);
        EXPECT_TRUE(says(*feeding, "ring_ground"));
        EXPECT_TRUE(says(*feeding, "bale_may_roll"));
        EXPECT_FALSE(says(*feeding, "crowded"));
        std::size_t next = 0;
        const std::vector<Point> places = places_of(*feeding);
        EXPECT_NEAR(feeding->start.distance_m,
                    away_m(places.front(),
                           feeding->start.from == "South gate" ? Point{200, 0} : Point{800, 400}),
                    feeding->start.from.find("gate") != std::string::npos ? 1e-6 : 1e9);
        for (const PlannedLoad& load : feeding->loads) {
            EXPECT_TRUE(load.line_ids.empty());
            ASSERT_EQ(load.legs.size(), 3U);
            for (int b = 0; b < load.bale_count; ++b)
                EXPECT_LT(test::brute_distance(places.at(next++), load.legs[1].path, false), 0.02);
        }
        EXPECT_EQ(next, places.size());
    }
}

// Bales stand as far apart as 4 bales an acre (dose_bales_ac) has them in a square: sqrt(4046.86 m2
// / 4) = 31.8 m. In order the next day's stand as far from the day before's.
TEST(RingFeeding, DayAfterDayRingsMoveBesideTheLastOnes) {
    const PlanResult result = planned(ring_ranch());
    const double apart = std::sqrt(4046.8564 / 4.0);
    int beside = 0;
    const auto feedings = ring_feedings(result.plan);
    ASSERT_EQ(feedings.size(), 7U);
    for (std::size_t f = 0; f < feedings.size(); ++f) {
        for (const PlannedLine& row : feedings[f]->lines)
            for (std::size_t k = 1; k < row.places.size(); ++k)
                EXPECT_GE(away_m(row.places[k - 1], row.places[k]), apart - 0.01);
        if (f == 0) continue;
        double least = 1e9;
        for (const Point p : places_of(*feedings[f]))
            for (const Point q : places_of(*feedings[f - 1])) least = std::min(least, away_m(p, q));
        if (least < 1.5 * apart) ++beside;
    }
    EXPECT_GE(beside, 4);
    EXPECT_NE(feedings[1]->why.find("They stand beside the herd's last ones."), std::string::npos)
        << feedings[1]->why;
}

TEST(RingFeeding, NextWeekGoesOnFromThePlacesOnRecord) {
    CheckedRanch checked = ring_ranch();
    const PlanResult first = planned(checked);
    std::vector<Point> old;
    for (const PlannedFeeding* feeding : ring_feedings(first.plan)) {
        const sys_days date = feeding->date - std::chrono::days{7};
        checked.ranch.feedings.push_back({.from = date,
                                          .to = date,
                                          .herd = HerdId::at(0),
                                          .pasture = feeding->pasture,
                                          .bales = 4.0,
                                          .bale_dm_kg = 500.0,
                                          .shape = places_of(*feeding),
                                          .where = "ring"});
        for (const Point p : places_of(*feeding)) old.push_back(p);
    }
    const PlanResult second = planned(checked);
    double least = 1e9;
    for (const PlannedFeeding* feeding : ring_feedings(second.plan)) {
        for (const Point p : places_of(*feeding)) {
            for (const Point q : old) {
                EXPECT_GE(away_m(p, q), checked.ranch.settings.spacing_m - 1e-6);
                least = std::min(least, away_m(p, q));
            }
        }
    }
    EXPECT_LT(least, 100.0);
    EXPECT_TRUE(check_plan(checked.ranch, second.plan).empty());
    // A plan that puts a bale on one of them is found out.
    Plan wrong = second.plan;
    for (PlannedFeeding& feeding : wrong.feedings)
        if (feeding.in_rings) feeding.lines[0].places[0] = old.front();
    EXPECT_FALSE(check_plan(checked.ranch, wrong).empty());
}

TEST_P(RingOrders, TheSameForOneAndTwoThreads) {
    const CheckedRanch checked = ring_ranch();
    const PlanResult one = planned(checked, {.threads = 1, .order = GetParam()});
    const PlanResult two = planned(checked, {.threads = 2, .order = GetParam()});
    ASSERT_EQ(one.plan.feedings.size(), two.plan.feedings.size());
    for (std::size_t f = 0; f < one.plan.feedings.size(); ++f)
        EXPECT_EQ(places_of(one.plan.feedings[f]), places_of(two.plan.feedings[f]));
    EXPECT_EQ(one.plan.optimality.objective, two.plan.optimality.objective);
    EXPECT_LE(one.plan.optimality.lower_bound, one.plan.optimality.objective + 1e-12);
}

// A shredder is not made to set bales down whole (common practice, no source).
TEST(RingFeeding, TheRigThatSetsBalesDownWholeIsTaken) {
    CheckedRanch checked = ring_ranch();
    std::swap(checked.ranch.rigs[0], checked.ranch.rigs[1]);
    const PlanResult both = planned(checked);
    for (const PlannedFeeding* feeding : ring_feedings(both.plan)) {
        EXPECT_EQ(feeding->rig, RigId::at(1));
        EXPECT_FALSE(says(*feeding, "ring_rig"));
    }
    checked.ranch.rigs.resize(1);
    const PlanResult shredder = planned(checked);
    ASSERT_EQ(ring_feedings(shredder.plan).size(), 7U);
    for (const PlannedFeeding* feeding : ring_feedings(shredder.plan))
        EXPECT_TRUE(says(*feeding, "ring_rig"));
}

// 12 to 15 cows eat at a ring at one time (Missouri extension): 150 head at four rings are crowded,
// with five days' feed set out at once they are not.
TEST(RingFeeding, CrowdedRingsAreSaid) {
    CheckedRanch checked = ring_ranch();
    const PlanResult daily = planned(checked);
    for (const PlannedFeeding* feeding : ring_feedings(daily.plan))
        EXPECT_TRUE(says(*feeding, "crowded_rings"));
    checked.ranch.herds[0].feed_every_days = 5;
    const PlanResult result = planned(checked);
    ASSERT_FALSE(ring_feedings(result.plan).empty());
    EXPECT_FALSE(says(*ring_feedings(result.plan).front(), "crowded_rings"));
    for (const BrokenRule& broken : check_plan(checked.ranch, result.plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

// Limits of a pasture hold for what rings leave, judged by another way than the planner's.
TEST(RingFeeding, LimitsOfAPastureHold) {
    CheckedRanch checked = ring_ranch();
    checked.ranch.pastures[0].limit.p2o5_kg_per_m2 = 0.0030;
    const PlanResult result = planned(checked);
    EXPECT_EQ(ring_feedings(result.plan).size(), 7U);
    for (const BrokenRule& broken : check_plan(checked.ranch, result.plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

TEST(RingFeeding, HeldRowsStayAndTooShortOnesAreRefused) {
    const CheckedRanch checked = ring_ranch();
    const PlanResult first = planned(checked);
    const PlannedFeeding& second_day = *ring_feedings(first.plan)[1];
    HeldFeeding held{.herd = HerdId::at(0), .date = second_day.date};
    for (const PlannedLine& row : second_day.lines) held.lines.push_back(row.path);
    PlanRequest request;
    request.hand.held = {held};
    const PlanResult again = planned(checked, request);
    ASSERT_EQ(ring_feedings(again.plan).size(), 7U);
    const PlannedFeeding& kept = *ring_feedings(again.plan)[1];
    EXPECT_EQ(kept.by_hand, ByHand::held);
    ASSERT_EQ(places_of(kept).size(), places_of(second_day).size());
    for (std::size_t k = 0; k < places_of(kept).size(); ++k)
        EXPECT_LT(away_m(places_of(kept)[k], places_of(second_day)[k]), 0.01);
    for (Polyline& row : request.hand.held[0].lines) row = {row.front(), lerp(row[0], row[1], 0.2)};
    request.from = kFrom;
    const auto refused = plan_days(checked, request);
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, "held_line_broken");
    EXPECT_NE(refused.error().what.find("in rings"), std::string::npos) << refused.error().what;
}

TEST(RingFeeding, NoRoomNamesWhatLeavesNone) {
    CheckedRanch checked = ring_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.herds[0].pastures = {PastureId::at(0)};
    checked.ranch.settings.gate_keep_m = 1200.0;
    PlanRequest request;
    request.from = kFrom;
    const auto none = plan_days(checked, request);
    ASSERT_FALSE(none.has_value());
    EXPECT_EQ(none.error().code, "no_line");
    EXPECT_NE(none.error().what.find("gates"), std::string::npos) << none.error().what;
}

TEST(RingPlaces, StandInTheMiddleOfEqualParts) {
    const std::vector<Point> places = ring_places(Polyline{{0.0, 0.0}, {30.0, 0.0}}, 3);
    EXPECT_EQ(places, (std::vector<Point>{{5.0, 0.0}, {15.0, 0.0}, {25.0, 0.0}}));
}

// By hand: 60 m at the rig's pace on grass, and every bale picked up and set down, 2.5 min each.
TEST(RingLoad, TimeIsTheDriveAndEachBaleTwice) {
    const Ranch ranch = small_ranch().ranch;
    LoadInput input{.rig = &ranch.rigs[0], .hay_kg = 1200.0, .bales = 2, .wrap = Wrap::none};
    input.in_rings = true;
    input.lines = {{{0.0, 0.0}, {60.0, 0.0}}};
    input.joins = {{}};
    const LoadWork work = load_work(input, Terrain(), ranch.settings);
    const double pace = ranch.settings.speed_pasture_m_per_s;
    EXPECT_NEAR(work.lay.time_s, 60.0 / pace + 2 * 150.0, 1e-9);
    EXPECT_NEAR(work.time_s, 60.0 / pace + 4 * 150.0, 1e-9);
    EXPECT_GT(work.fuel_l, 0.0);
    EXPECT_LT(work.fuel_l, 5.0);
}

}  // namespace
}  // namespace haylane
