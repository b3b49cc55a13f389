// One load's minutes and litres against the end-to-end check (computed) and closed forms.
#include "core/haul/load_work.h"

#include "core/base/units.h"
#include "core/haul/fuel.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kKmh = units::kMetersPerSecondPerKmh;

Rig test_rig() {
    Rig rig;
    rig.mass_kg = 9000.0;
    rig.pto_w = 75000.0;
    rig.hookup_s = 300.0;
    return rig;
}

Route straight(std::optional<Surface> surface, double length, double speed) {
    Route route;
    route.parts.push_back({{{0.0, 0.0}, {length, 0.0}}, surface, length, speed});
    route.length_m = length;
    route.drive_s = length / speed;
    return route;
}

// A plane that rises to the east.
Terrain plane(double grade) {
    TerrainData data;
    data.own_cell_m = 5.0;
    data.elevation_m = Raster<float>(Grid{-100.0, -100.0, 5.0, 240, 40});
    for (int j = 0; j < 40; ++j)
        for (int i = 0; i < 240; ++i)
            data.elevation_m(i, j) =
                static_cast<float>(grade * data.elevation_m.grid.center(i, j).x);
    return Terrain(data);
}

LoadInput load_of(const Rig& rig) {
    LoadInput in;
    in.rig = &rig;
    in.hay_kg = 1200.0;
    in.bales = 2;
    return in;
}

// 800 m of gravel at 15 km/h with 10 200 kg: 192 s, 0.485880 L.
TEST(LoadWork, LegOnGravelMatchesEndToEndCheck) {
    const Rig rig = test_rig();
    const Route out = straight(Surface::gravel, 800.0, 15.0 * kKmh);
    LoadInput in = load_of(rig);
    in.out = &out;
    Settings settings;
    settings.throttle_cut_ratio = 0.0;
    const LoadWork work = load_work(in, Terrain(), settings);
    EXPECT_NEAR(work.out.time_s, 192.0, 1e-9);
    EXPECT_NEAR(work.out.fuel_l, 0.485880, 1e-6);
    EXPECT_NEAR(work.out.energy_j, 0.02 * 10200.0 * 9.80665 * 800.0, 1e-3);
    EXPECT_EQ(work.back.length_m, 0.0);
}

// 400 m of pasture (c .0581818), up 3 % throttled back: 0.401194 L; the empty way down at 8 %
// idles.
TEST(LoadWork, GradeComesFromTheTerrain) {
    const Rig rig = test_rig();
    Settings settings;
    settings.resistance_pasture_ratio = 0.0581818;
    const Route out = straight(std::nullopt, 400.0, 10.0 * kKmh);
    LoadInput in = load_of(rig);
    in.out = &out;
    EXPECT_NEAR(load_work(in, plane(0.03), settings).out.fuel_l, 0.401194, 2e-6);
    settings.throttle_cut_ratio = 0.0;
    EXPECT_NEAR(load_work(in, plane(0.03), settings).out.fuel_l, 0.512499, 2e-6);
    const LoadWork down = load_work(in, plane(-0.08), settings);
    EXPECT_NEAR(down.out.fuel_l, 0.288, 1e-6);
    EXPECT_EQ(down.out.energy_j, 0.0);
}

TEST(LoadWork, MinutesStanding) {
    const Rig rig = test_rig();
    const Settings settings;
    LoadInput in = load_of(rig);
    EXPECT_DOUBLE_EQ(load_work(in, Terrain(), settings).standing_s, 2 * (150.0 + 120.0));
    in.first_load = true;
    EXPECT_DOUBLE_EQ(load_work(in, Terrain(), settings).standing_s, 540.0 + 720.0 + 300.0);
    in.wrap = Wrap::twine;
    in.low_c = -5.0;
    EXPECT_DOUBLE_EQ(load_work(in, Terrain(), settings).standing_s,
                     2 * (150.0 + 180.0 + 120.0) + 720.0 + 300.0);
    in.low_c = -18.0;  // just below 0 F
    in.wrap = Wrap::none;
    const LoadWork cold = load_work(in, Terrain(), settings);
    EXPECT_DOUBLE_EQ(cold.standing_s, 300.0 + 1500.0 + 300.0);
    // 0.006 gal/h per hp
    const double hp = rig.pto_w / units::kWattsPerHorsepower;
    EXPECT_NEAR(cold.standing_fuel_l,
                0.006 * hp * units::kLitersPerGallon * cold.standing_s / 3600.0,
                0.002 * cold.standing_fuel_l);
}

TEST(LoadWork, GatesStandInTheLegs) {
    const Rig rig = test_rig();
    const Settings settings;
    Route out = straight(Surface::gravel, 800.0, 5.0);
    LoadInput in = load_of(rig);
    in.out = &out;
    const LoadWork open = load_work(in, Terrain(), settings);
    out.gate_s = 180.0;
    const LoadWork gated = load_work(in, Terrain(), settings);
    EXPECT_NEAR(gated.out.time_s - open.out.time_s, 180.0, 1e-9);
    EXPECT_NEAR(gated.out.fuel_l - open.out.fuel_l,
                settings.idle_m3_per_j * rig.pto_w * 1000.0 * 180.0, 1e-12);
}

// On the level at full throttle fuel is linear in weight, so laying burns as much as with the mean
// weight throughout.
TEST(LoadWork, WeightFallsWhileLaying) {
    const Rig rig = test_rig();
    Settings settings;
    settings.throttle_cut_ratio = 0.0;
    LoadInput in = load_of(rig);
    in.lines = {{{0.0, 0.0}, {400.0, 0.0}}};
    const LoadWork work = load_work(in, Terrain(), settings);
    EXPECT_NEAR(work.lay.time_s, 400.0 / rig.feed_m_per_s, 1e-6);
    const double force = 0.058 * (9000.0 + 600.0) * 9.80665;
    const double ratio = (force * rig.feed_m_per_s / 0.96 + settings.unroll_feed_w) / rig.pto_w;
    EXPECT_NEAR(work.lay.fuel_l, fuel_rate_l_per_s(ratio, rig.pto_w, 0.0) * work.lay.time_s, 1e-6);
    EXPECT_NEAR(work.lay.energy_j, force * 400.0, 1.0);
}

TEST(LoadWork, JoinsAreDrivenAtPastureSpeed) {
    const Rig rig = test_rig();
    const Settings settings;
    LoadInput in = load_of(rig);
    in.lines = {{{0.0, 0.0}, {200.0, 0.0}}, {{200.0, 100.0}, {0.0, 100.0}}};
    in.joins = {{}, {{200.0, 0.0}, {200.0, 100.0}}};
    const LoadWork work = load_work(in, Terrain(), settings);
    EXPECT_NEAR(work.lay.length_m, 500.0, 1e-9);
    EXPECT_NEAR(work.lay.time_s, 400.0 / rig.feed_m_per_s + 100.0 / settings.speed_pasture_m_per_s,
                1e-6);
    EXPECT_DOUBLE_EQ(work.loaded_distance_m, work.lay.length_m);
}

// Shredding turns the PTO at rated speed: 13 kWh a tonne of hay laid, no throttling back.
TEST(LoadWork, ShreddingTakesItsPower) {
    Rig rig = test_rig();
    rig.method = Method::shred;
    const Settings settings;
    LoadInput in = load_of(rig);
    in.lines = {{{0.0, 0.0}, {800.0, 0.0}}};
    const LoadWork work = load_work(in, Terrain(), settings);
    const double force = 0.058 * 9600.0 * 9.80665;
    const double feed_w = 13.0 * 3.6e6 / 1000.0 * (1200.0 / 800.0) * rig.feed_m_per_s;
    const double ratio = (force * rig.feed_m_per_s / 0.96 + feed_w) / rig.pto_w;
    ASSERT_LT(ratio, 1.0);
    EXPECT_NEAR(work.lay.fuel_l, fuel_rate_l_per_s(ratio, rig.pto_w, 0.0) * work.lay.time_s, 1e-6);
    rig.feed_w = 1000.0;
    EXPECT_LT(load_work(in, Terrain(), settings).lay.fuel_l, work.lay.fuel_l);
}

TEST(LoadWork, SumsAddUpAndCostNeedsAPrice) {
    const Rig rig = test_rig();
    Settings settings;
    const Route out = straight(Surface::dirt, 500.0, 3.0);
    const Route back = reversed(out);
    LoadInput in = load_of(rig);
    in.out = &out;
    in.back = &back;
    in.lines = {{{500.0, 0.0}, {900.0, 0.0}}};
    const LoadWork work = load_work(in, Terrain(), settings);
    EXPECT_FALSE(work.cost.has_value());
    EXPECT_NEAR(work.time_s, work.out.time_s + work.lay.time_s + work.back.time_s + work.standing_s,
                1e-9);
    EXPECT_LT(work.back.fuel_l, work.out.fuel_l);
    EXPECT_DOUBLE_EQ(work.distance_m, 1400.0);
    EXPECT_DOUBLE_EQ(work.loaded_distance_m, 900.0);
    settings.machine_per_s = 10.0 / 3600.0;
    EXPECT_NEAR(load_work(in, Terrain(), settings).cost.value(), work.time_s / 3600.0 * 10.0, 1e-9);
    settings.labor_per_s = 20.0 / 3600.0;
    settings.fuel_price_per_m3 = 1000.0;
    const auto cost = load_work(in, Terrain(), settings).cost;
    ASSERT_TRUE(cost.has_value());
    EXPECT_NEAR(*cost, work.time_s / 3600.0 * 30.0 + work.fuel_l, 1e-9);
}

// What was measured stands in for the model, and for nothing else: 2 bales of 200 s and 0.6 L, 90 s
// of hooking up, gravel at 4 m/s (x 0.7 in snow); joins and dirt stay as they were.
TEST(LoadWork, OwnFiguresStandInForTheModel) {
    const Settings settings;
    const double gravel = settings.speed_gravel_m_per_s;
    const double dirt = settings.speed_dirt_m_per_s;
    Route out = straight(Surface::gravel, 800.0, gravel);
    out.parts.push_back({{{800.0, 0.0}, {1000.0, 0.0}}, Surface::dirt, 200.0, dirt});
    Rig rig = test_rig();
    LoadInput in = load_of(rig);
    in.out = &out;
    in.first_load = true;
    in.lines = {{{1000.0, 0.0}, {1400.0, 0.0}}, {{1500.0, 0.0}, {1700.0, 0.0}}};
    in.joins = {{}, {{1400.0, 0.0}, {1500.0, 0.0}}};
    const LoadWork model = load_work(in, Terrain(), settings);
    const double join_s = 100.0 / settings.speed_pasture_m_per_s;
    EXPECT_NEAR(model.lay.time_s, 600.0 / rig.feed_m_per_s + join_s, 1e-9);
    rig.own.feed_s_per_bale = 200.0;
    rig.own.feed_l_per_bale = 0.6;
    rig.own.hookup_s = 90.0;
    rig.own.haul_m_per_s[static_cast<std::size_t>(Surface::gravel)] = 4.0;
    const LoadWork own = load_work(in, Terrain(), settings);
    EXPECT_NEAR(own.lay.time_s, 400.0 + join_s, 1e-9);
    EXPECT_DOUBLE_EQ(own.lay.length_m, model.lay.length_m);
    EXPECT_NEAR(own.standing_s, model.standing_s - 300.0 + 90.0, 1e-9);
    EXPECT_NEAR(own.out.time_s, 800.0 / 4.0 + 200.0 / dirt, 1e-9);
    // The join's fuel is all that is left beside 1.2 L of laying.
    LoadInput joined = in;
    joined.lines = {in.lines[0]};
    joined.joins = {};
    const double join_l = own.lay.fuel_l - 1.2;
    EXPECT_GT(join_l, 0.0);
    EXPECT_LT(join_l, model.lay.fuel_l);
    EXPECT_NEAR(load_work(joined, Terrain(), settings).lay.fuel_l, 1.2, 1e-9);
    in.snow = true;
    for (RoutePart& part : out.parts) part.speed_m_per_s *= settings.snow_speed_ratio;
    EXPECT_NEAR(load_work(in, Terrain(), settings).out.time_s,
                own.out.time_s / settings.snow_speed_ratio, 1e-9);
    // A speed that a trail has of its own stands.
    in.snow = false;
    out.parts = {{{{0.0, 0.0}, {800.0, 0.0}}, Surface::gravel, 800.0, 2.0}};
    EXPECT_NEAR(load_work(in, Terrain(), settings).out.time_s, 400.0, 1e-9);
}

// A way that nobody checked is longer than its drawn line.
TEST(LoadWork, UncheckedWaysCountTheirLength) {
    const Rig rig = test_rig();
    Route out = straight(std::nullopt, 100.0, 2.0);
    out.parts[0].length_m = 130.0;
    LoadInput in = load_of(rig);
    in.out = &out;
    const LoadWork work = load_work(in, Terrain(), Settings());
    EXPECT_NEAR(work.out.length_m, 130.0, 1e-9);
    EXPECT_NEAR(work.out.time_s, 65.0, 1e-9);
}

}  // namespace
}  // namespace haylane
