// Costs of hauling on an invented ranch: against hand calculation, straight lines in distance,
// and what must hold of any ways. Fuel by the newer D497 form is written out here anew.
#include "core/base/units.h"
#include "core/haul/haul_account.h"
#include "core/haul/stack_places.h"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace haylane {
namespace {

using namespace std::chrono_literals;
using testing::HasSubstr;

constexpr YardId kHome{0};
constexpr YardId kFar{1};
constexpr RigId kRig{0};
constexpr RigId kSmall{1};
constexpr PastureId kWest{0};
constexpr PastureId kEast{1};

MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
    return {Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

// Two pastures along a gravel lane, a gate from the lane into each, a yard at each end.
Ranch lane_ranch() {
    Ranch ranch;
    for (const auto& [name, x] : {std::pair{"West", 0.0}, {"East", 1000.0}}) {
        Pasture p;
        p.name = name;
        p.shape = rectangle(x, 0.0, x + 800.0, 600.0);
        ranch.pastures.push_back(p);
        Gate gate;
        gate.name = std::string(name) + " gate";
        gate.at = {x + 400.0, 0.0};
        ranch.gates.push_back(gate);
    }
    Trail lane;
    lane.name = "Lane";
    lane.surface = Surface::gravel;
    lane.path = {{{-500.0, -5.0}, {2500.0, -5.0}}};
    ranch.trails.push_back(lane);
    ranch.yards = {{.name = "Home", .at = {-500.0, -5.0}}, {.name = "Far", .at = {2500.0, -5.0}}};
    Rig big;
    big.name = "Big";
    big.bales_per_trip = 4;
    big.mass_kg = 10000.0;
    big.pto_w = 80000.0;
    big.load_s_per_bale = 120.0;
    big.hookup_s = 300.0;
    Rig small = big;
    small.name = "Small";
    small.bales_per_trip = 2;
    small.mass_kg = 8000.0;
    small.hookup_s = 60.0;
    ranch.rigs = {big, small};
    HayLot lot;
    lot.name = "Grass";
    lot.yard = kHome;
    lot.bales = 500;
    lot.bale_kg = 600.0;
    lot.wrap = Wrap::none;
    lot.price_per_kg = 0.12;
    ranch.lots = {lot};
    Herd herd;
    herd.name = "Cows";
    herd.head = 100;
    herd.weight_kg = 600.0;
    herd.bales_per_day = 3.0;
    herd.pastures = {kWest, kEast};
    ranch.herds = {herd};
    ranch.settings.fuel_price_per_m3 = 1000.0;
    ranch.settings.labor_per_s = 0.006;
    return ranch;
}

HaulRequest request() { return {.day = {.date = sys_days(2027y / 1 / 11)}, .pastures = {kWest}}; }

class HaulWork : public testing::Test {
  protected:
    Ranch ranch_ = lane_ranch();
    Terrain flat_;
    [[nodiscard]] Result<HaulWays> ways(const HaulRequest& asked = request()) const {
        return HaulWays::find(ranch_, flat_, asked);
    }
};

// Half a mile and six miles from one yard over level gravel: cost a ton is a straight line in
// distance; what does not grow is warm-up, hook-up, loading and laying.
TEST_F(HaulWork, CostATonIsAStraightLineInDistance) {
    const Rig& rig = ranch_[kRig];
    const MeanHay hay = usual_hay(ranch_, kHome);
    const DistanceCost c =
        distance_cost(rig, hay, {}, Surface::gravel, request().day, ranch_.settings);
    ASSERT_TRUE(c.fixed_cost_per_kg && c.cost_per_kg_m);
    for (const double miles : {0.5, 6.0}) {
        const double length = miles * units::kMetersPerMile;
        Route out;
        const double speed = ranch_.settings.speed_gravel_m_per_s;
        out.parts.push_back({{{0, 0}, {length, 0}}, Surface::gravel, length, speed});
        const Route back = reversed(out);
        const LoadWork work =
            trip_work({.rig = &rig, .hay = hay, .bales = 4, .out = &out, .back = &back}, flat_,
                      ranch_.settings);
        const double line = *c.fixed_cost_per_kg + *c.cost_per_kg_m * length;
        EXPECT_NEAR(*work.cost / (4 * 600.0), line, 0.02 * line) << miles << " miles";
    }
    // By hand: standing and laying take the same time whatever the distance.
    const double laid_m = 4 * 600.0 / (0.5 * (rig.lay_kg_per_m_min + rig.lay_kg_per_m_max));
    const double fixed_s = 720.0 + 300.0 + 4 * 120.0 + laid_m / rig.feed_m_per_s;
    EXPECT_NEAR(c.fixed_s_per_kg * 4 * 600.0, fixed_s, 1e-6 * fixed_s);
    // By hand, fuel a metre out loaded and back empty (level gravel 0.02, throttled back 30 %).
    const double kw = 80.0;
    double liters_per_m = 0.0;
    for (const double kg : {10000.0 + 2400.0, 10000.0}) {
        const double v = ranch_.settings.speed_gravel_m_per_s;
        const double x = kg * 9.80665 * 0.02 * v / 0.96 / (kw * 1000.0);
        const double per_h = (0.22 * x + 0.096) * kw * (1.0 - (0.00877 * 30.0 - 0.0045 * x * 30.0));
        liters_per_m += per_h / 3600.0 / v;
    }
    EXPECT_NEAR(c.l_per_kg_m * 4 * 600.0, liters_per_m, 1e-6 * liters_per_m);
}

TEST_F(HaulWork, TwoRigsCostTheSameAtTheirBreakEven) {
    const MeanHay hay = usual_hay(ranch_, kHome);
    const auto cost = [&](RigId rig) {
        return distance_cost(ranch_[rig], hay, {}, Surface::gravel, request().day, ranch_.settings);
    };
    ranch_.rigs[kRig.index()].hookup_s = 7200.0;  // dear to start, cheap a mile
    const DistanceCost big = cost(kRig);
    const DistanceCost small = cost(kSmall);
    const auto even = break_even_m(big, small);
    ASSERT_TRUE(even);
    EXPECT_NEAR(*big.fixed_cost_per_kg + *even * *big.cost_per_kg_m,
                *small.fixed_cost_per_kg + *even * *small.cost_per_kg_m, 1e-12);
    EXPECT_FALSE(break_even_m(big, big));
}

TEST_F(HaulWork, MirroredRanchCostsTheSameFromEitherEnd) {
    ranch_.lots[0].yard = kFar;  // both yards then speak of the same hay
    const auto found = ways();
    ASSERT_TRUE(found) << found.error().what;
    const Route* a = found->route(kHome, kWest, kRig);
    const Route* b = found->route(kFar, kEast, kRig);
    const Route* across = found->route(kHome, kEast, kRig);
    const Route* back = found->route(kFar, kWest, kRig);
    ASSERT_TRUE(a && b && across && back);
    // The lane runs from 500 m west of West to 700 m east of East: 200 m longer at the far end.
    EXPECT_NEAR(b->length_m - a->length_m, 200.0, 0.5);
    EXPECT_NEAR(across->length_m - a->length_m, 1000.0, 0.5);
    EXPECT_NEAR(back->length_m - b->length_m, 1000.0, 0.5);
}

TEST_F(HaulWork, ShutGatesAreNamedAndNeverShortenAWay) {
    const auto open = ways();
    ASSERT_TRUE(open);
    HaulRequest shut = request();
    shut.blocked = {"West gate"};
    const auto blocked = ways(shut);
    ASSERT_TRUE(blocked);
    EXPECT_EQ(blocked->route(kHome, kWest, kRig), nullptr);
    EXPECT_THAT(blocked->why_not(kHome, kWest, kRig), HasSubstr("West gate"));
    EXPECT_EQ(haul_account(*blocked).day.low.herds_not_reached, 1);
    const double before = open->route(kHome, kWest, kRig)->time_s();
    for (int k = 1; k < 8; ++k) {  // one gate more, all along West's south and west fence
        Ranch more = ranch_;
        Gate gate;
        gate.name = "New";
        gate.at = {100.0 * k, 0.0};
        more.gates.push_back(gate);
        const auto wider = HaulWays::find(more, flat_, request());
        ASSERT_TRUE(wider);
        EXPECT_LE(wider->route(kHome, kWest, kRig)->time_s(), before + 1e-9) << k;
    }
    shut.blocked = {"Nowhere"};
    const auto unknown = ways(shut);
    ASSERT_FALSE(unknown);
    EXPECT_EQ(unknown.error().code, "unknown_way");
}

TEST_F(HaulWork, MoreDaysAtOnceMeanFewerLoadsAndMoreWaste) {
    HaulRequest asked = request();
    asked.habits.more_waste_ratio_per_day = 0.05;
    asked.habits.days_at_once = 1;
    const auto one = ways(asked);
    asked.habits.days_at_once = 2;
    const auto two = ways(asked);
    asked.habits.check_trip = false;
    const auto unseen = ways(asked);
    ASSERT_TRUE(one && two && unseen);
    const HaulRange a = day_work(*one, kRig);
    const HaulRange b = day_work(*two, kRig);
    const HaulRange c = day_work(*unseen, kRig);
    // Three bales a day of 600 kg, 12 % wasted; with 17 % the same cattle need 0.88 / 0.83 as many.
    EXPECT_NEAR(a.low.hay_kg, 1800.0, 1e-9);
    EXPECT_NEAR(b.low.hay_kg, 1800.0 * 0.88 / 0.83, 1e-6);
    EXPECT_NEAR(b.low.wasted_kg, 0.17 * b.low.hay_kg, 1e-6);
    EXPECT_NEAR(a.low.hay_kg - a.low.wasted_kg, b.low.hay_kg - b.low.wasted_kg, 1e-6);
    EXPECT_GT(b.low.fuel_l, c.low.fuel_l);  // the look at the cattle counts
    EXPECT_GT(a.low.time_s, c.low.time_s);
    EXPECT_GT(a.high.wasted_kg, a.low.wasted_kg);
}

TEST_F(HaulWork, MoneyIsBlankWithoutPrices) {
    ranch_.settings.fuel_price_per_m3.reset();
    ranch_.settings.labor_per_s.reset();
    const auto found = ways();
    ASSERT_TRUE(found);
    const HaulAccount account = haul_account(*found);
    EXPECT_FALSE(account.day.low.cost);
    EXPECT_FALSE(account.day.low.per_head());
    EXPECT_GT(account.day.low.fuel_l, 0.0);
    for (const HaulTrip& trip : account.trips) EXPECT_FALSE(trip.work.cost);
}

// All hay is cut beside Far and fed in the two pastures; the more places may be used, the less it
// costs.
TEST_F(HaulWork, StacksCostNoMoreThanTodaysYards) {
    ranch_.hay_fields = {{.name = "Bottom", .at = {2400.0, -200.0}, .hay_kg = 300000.0}};
    const auto found = ways();
    ASSERT_TRUE(found);
    const auto places = stack_places(*found, 1);
    ASSERT_TRUE(places) << places.error().what;
    ASSERT_EQ(places->names.size(), 4U);  // two yards, two pastures
    EXPECT_EQ(places->proven->best.used.size(), 1U);
    EXPECT_NEAR(places->hay_kg, 300000.0, 1e-6);
    ASSERT_TRUE(places->proven->runner_up && places->today);
    EXPECT_GE(places->proven->runner_up->cost, places->proven->best.cost - 1e-6);
    const auto two = stack_places(*found, 2);
    ASSERT_TRUE(two);
    EXPECT_LE(two->proven->best.cost, places->proven->best.cost + 1e-6);
    EXPECT_LE(two->proven->best.cost, two->today->cost + 1e-6);
}

}  // namespace
}  // namespace haylane
