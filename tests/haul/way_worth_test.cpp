// The way of least time, fuel or cost. Fuel by the newer D497 form with reduced throttle (Grisso,
// Kocher and Vaughan 2004) is written out here anew, on level ground with the mean of the loaded
// and the empty rig.
#include "core/haul/load_work.h"
#include "core/haul/travel_map.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kDirect_m = 2000.0;
constexpr double kLast_m = 50.0;
constexpr double kRigKg = 10000.0;
constexpr double kLoadedKg = 14000.0;
constexpr double kPtoW = 75000.0;

// From the yard to a gate by a two-track trail straight, or by a paved one that goes out by
// `out_m` and back, to the last of the straight one before the gate.
Ranch two_trails(double out_m) {
    Ranch ranch;
    Pasture p;
    p.name = "Field";
    p.shape = {Polygon{{{kDirect_m + kLast_m, -300.0},
                        {kDirect_m + 600.0, -300.0},
                        {kDirect_m + 600.0, 300.0},
                        {kDirect_m + kLast_m, 300.0}},
                       {}}};
    ranch.pastures = {p};
    Gate gate;
    gate.name = "Field gate";
    gate.at = {kDirect_m + kLast_m, 0.0};
    gate.open_s = 120.0;
    ranch.gates = {gate};
    ranch.yards = {{.name = "Home", .at = {0.0, 0.0}}};
    Trail direct;
    direct.name = "Direct";
    direct.path = {{{0.0, 0.0}, {kDirect_m + kLast_m, 0.0}}};
    direct.surface = Surface::two_track;
    Trail round;
    round.name = "Round";
    round.path = {{{0.0, 0.0}, {0.0, out_m}, {kDirect_m, out_m}, {kDirect_m, 0.0}}};
    round.surface = Surface::paved;
    ranch.trails = {direct, round};
    return ranch;
}

struct Metre {
    double s = 0.0;
    double l = 0.0;
};
Metre metre(const Settings& s, double resistance_ratio, double speed) {
    const double force = resistance_ratio * 0.5 * (kRigKg + kLoadedKg) * 9.80665;
    const double x = force * speed / s.axle_pto_ratio / kPtoW;
    const double cut = 100.0 * s.throttle_cut_ratio;
    const double throttle = 1.0 - (-0.0045 * x * cut + 0.00877 * cut);
    const double l_per_h = (0.22 * x + 0.096) * throttle * kPtoW / 1000.0;
    return {1.0 / speed, l_per_h / 3600.0 / speed};
}

std::string taken(const Ranch& ranch) {
    TravelConditions when;
    when.loaded_kg = kLoadedKg;
    when.rig_kg = kRigKg;
    when.pto_w = kPtoW;
    const TravelMap map(ranch, when);
    const auto route = map.route(YardId{0}, PastureId{0}, {kDirect_m + 2.0 * kLast_m, 0.0});
    EXPECT_TRUE(route.has_value());
    EXPECT_NEAR(map.time_s(YardId{0}, PastureId{0}, {kDirect_m + 2.0 * kLast_m, 0.0}),
                route->time_s(), 1e-6);
    return route->via.front();
}

// The round way turns from better to worse where its length times the paved metre is the direct
// way's: checked a hundredth to either side.
TEST(WayWorth, ChoosesByTheMetresOfEachSurface) {
    Ranch ranch = two_trails(0.0);
    Settings& s = ranch.settings;
    s.fuel_price_per_m3 = 1000.0;
    s.labor_per_s = 20.0 / 3600.0;
    const Metre direct = metre(s, s.resistance_two_track_ratio, s.speed_two_track_m_per_s);
    const Metre paved = metre(s, s.resistance_paved_ratio, s.speed_paved_m_per_s);
    const auto cost = [&](const Metre& m) { return m.l * 1.0 + m.s * 20.0 / 3600.0; };
    const std::pair<const char*, double> asked[] = {{"time", direct.s / paved.s},
                                                    {"fuel", direct.l / paved.l},
                                                    {"cost", cost(direct) / cost(paved)}};
    // They do not turn at the same length, or nothing would be shown.
    EXPECT_GT(asked[1].second / asked[0].second, 1.02);
    for (const auto& [by, times] : asked) {
        const double even_out_m = 0.5 * (kDirect_m * times - kDirect_m);
        for (const double share : {0.99, 1.01}) {
            Ranch tried = two_trails(even_out_m * share);
            tried.settings = s;
            tried.settings.ways_by = by;
            EXPECT_EQ(taken(tried), share < 1.0 ? "Round" : "Direct") << by << " " << share;
        }
    }
}

// Nothing to weigh by: least cost without prices, least fuel without a tractor, is least time.
TEST(WayWorth, IsTimeWhereNothingElseIsKnown) {
    Ranch ranch = two_trails(1000.0);
    const std::string quickest = taken(ranch);
    ranch.settings.ways_by = "cost";
    EXPECT_EQ(taken(ranch), quickest);
}

// The older form at part load: (2.64 X + 3.91 - 0.203 sqrt(738 X + 173)) L/kWh.
TEST(WayWorth, OlderFuelFormIsUsedWhereAsked) {
    StretchInput in{.length_m = 1000.0,
                    .resistance_ratio = 0.058,
                    .mass_kg = 12000.0,
                    .speed_m_per_s = 4.0,
                    .pto_w = kPtoW,
                    .throttle_cut_ratio = 0.3};
    const StretchEffort newer = stretch_effort(in);
    in.older_form = true;
    const StretchEffort older = stretch_effort(in);
    const double x = 0.058 * 12000.0 * 9.80665 * 4.0 / 0.96 / kPtoW;
    const double l_per_kwh = 2.64 * x + 3.91 - 0.203 * std::sqrt(738.0 * x + 173.0);
    EXPECT_NEAR(older.fuel_l, l_per_kwh * x * kPtoW / 1000.0 * (250.0 / 3600.0), 1e-9);
    EXPECT_EQ(older.time_s, newer.time_s);
    EXPECT_NE(older.fuel_l, newer.fuel_l);
}

}  // namespace
}  // namespace haylane
