// Checks what wind takes from a shredding rig's lines: the formula by hand, what it is worth, and
// that the plan's mass still balances. The form of the loss is an assumption.
#include "core/plan/laying_wind.h"

#include "core/base/units.h"
#include "core/lines/discharge.h"
#include "core/plan/lost_hay.h"
#include "core/plan/plan_days.h"
#include "core/plan/rank_rigs.h"
#include "tests/support/small_ranch.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;

const sys_days kDay = day("2026-01-10");
const Polyline kNorth{{100, 100}, {100, 300}};
const Polyline kEast{{100, 100}, {300, 100}};

// The small ranch in a west wind of 5 m/s, losing 1 % and 1 % more for each m/s across.
CheckedRanch windy_ranch() {
    CheckedRanch checked = small_ranch();
    checked.ranch.settings.fines_still_ratio = 0.01;
    checked.ranch.settings.fines_per_wind_s_per_m = 0.01;
    for (int d = 0; d < 3; ++d)
        checked.ranch.weather.push_back({.date = kDay + std::chrono::days{d},
                                         .wind_from_rad = units::rad_from_deg(270.0),
                                         .wind_m_per_s = 5.0});
    return checked;
}

TEST(Fines, GrowWithWindAcrossTheLine) {
    CheckedRanch checked = windy_ranch();
    Ranch& ranch = checked.ranch;
    const Rig& shred = ranch.rigs[1];
    EXPECT_NEAR(fines_ratio(ranch, shred, kDay, {kNorth}), 0.06, 1e-12);
    EXPECT_NEAR(fines_ratio(ranch, shred, kDay, {kEast}), 0.01, 1e-12);
    EXPECT_NEAR(fines_ratio(ranch, shred, kDay, {{{0, 0}, {100, 100}}}),
                0.01 + 0.05 * std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(fines_ratio(ranch, shred, kDay, {kNorth, {{0, 0}, {100, 0}}}),
                0.01 + 0.05 * 2.0 / 3.0, 1e-12);                        // 200 m across, 100 m along
    EXPECT_EQ(fines_ratio(ranch, ranch.rigs[0], kDay, {kNorth}), 0.0);  // unrolls
    EXPECT_EQ(laying_wind_from_rad(ranch, ranch.rigs[0], kDay), std::nullopt);
    EXPECT_EQ(laying_wind_from_rad(ranch, shred, kDay), units::rad_from_deg(270.0));
    ranch.weather[0].wind_m_per_s = 100.0;
    EXPECT_EQ(fines_ratio(ranch, shred, kDay, {kNorth}), 0.5);
    ranch.weather[0].wind_m_per_s = 2.0;  // under 5 mph
    EXPECT_EQ(laying_wind_from_rad(ranch, shred, kDay), std::nullopt);
    ranch.weather[0].wind_from_rad.reset();
    EXPECT_EQ(fines_ratio(ranch, shred, kDay, {kNorth}), 0.01);
    EXPECT_EQ(fines_ratio(ranch, shred, kDay - std::chrono::days{1}, {kNorth}), 0.01);
}

TEST(Fines, AreWorthTheLotsPriceOrTheHaulAgain) {
    CheckedRanch checked = windy_ranch();
    Ranch& ranch = checked.ranch;
    ScheduledFeeding feeding;
    feeding.date = kDay;
    feeding.rig = RigId::at(1);
    feeding.lots.picks = {{LotId::at(0), 2}, {LotId::at(1), 3}};
    Candidate lines;
    lines.lines = {{.path = kNorth, .bales = 5}};
    const double worth = 2 * 590.0 * 0.17 + 3 * 560.0 * 0.11;
    EXPECT_NEAR(lost_hay_s(ranch, feeding, lines, 900.0),
                0.06 * worth / driving_cost_per_s(ranch.settings, ranch.rigs[1]), 1e-9);
    ranch.lots[1].price_per_kg.reset();
    EXPECT_NEAR(lost_hay_s(ranch, feeding, lines, 900.0), 0.06 * 900.0, 1e-9);
    ranch.settings = Settings{};
    EXPECT_EQ(lost_hay_s(ranch, feeding, lines, 900.0), 0.0);
}

// West-southwest wind, so that neither fences nor the compass grid run along it.
TEST(Fines, TurnLinesAlongTheWindAndHayIsThrownDownWind) {
    CheckedRanch checked = windy_ranch();
    Ranch& ranch = checked.ranch;
    ranch.rigs.erase(ranch.rigs.begin());
    ranch.rigs[0].discharge = Discharge::right;
    ranch.herds.resize(1);
    ranch.settings.fines_per_wind_s_per_m = 0.02;
    const double wind = units::rad_from_deg(252.0);
    for (WeatherDay& weather : ranch.weather) weather.wind_from_rad = wind;
    for (const LineOrder order : {LineOrder::neighbour, LineOrder::free}) {
        const auto result =
            plan_days(checked, {.from = kDay, .days = 2, .seed = 3, .threads = 1, .order = order});
        ASSERT_TRUE(result.has_value());
        for (const PlannedFeeding& feeding : result->plan.feedings) {
            bool into = false;
            for (const PlannedLine& line : feeding.lines) {
                EXPECT_LT(std::abs(std::sin(line.heading_rad - wind)), std::sin(0.1));
                into = into || throws_into_wind(line.path, Discharge::right, wind);
            }
            EXPECT_FALSE(into);
            EXPECT_NE(feeding.why.find("It runs along the wind"), std::string::npos);
        }
    }
}

TEST(Fines, AreLeftOnTheGroundAndNotEaten) {
    CheckedRanch checked = windy_ranch();
    Ranch& ranch = checked.ranch;
    ranch.rigs.erase(ranch.rigs.begin());  // only the shredder
    ranch.settings.fines_per_wind_s_per_m = 0.0;
    ranch.settings.fines_still_ratio = 0.10;
    const auto result = plan_days(checked, {.from = kDay, .days = 2, .seed = 3, .threads = 1});
    ASSERT_TRUE(result.has_value());
    double residue_kg = 0.0;
    for (const PlannedFeeding& feeding : result->plan.feedings) {
        const double waste = 0.10 + 0.90 * 0.19;
        double n_kg = 0.0;
        for (const BaleDraw& draw : feeding.bales)
            n_kg +=
                draw.count * ranch[draw.lot].bale_dm_kg() * ranch[draw.lot].quality.cp_ratio / 6.25;
        const double retained = n_kg * (1.0 - waste) * ranch.settings.retained_n_ratio;
        EXPECT_NEAR(feeding.deposit.n_kg + feeding.deposit.n_lost_gas_kg + retained, n_kg,
                    1e-9 * n_kg);
        EXPECT_NEAR(feeding.deposit.residue_dm_kg, waste * feeding.dm_offered_kg, 1e-6);
        EXPECT_LE(feeding.dm_eaten_kg, 0.9 * 0.81 * feeding.dm_needed_kg + 1e-6);
        residue_kg += feeding.deposit.residue_dm_kg;
    }
    double on_map_kg = 0.0;
    for (const PastureLoad& load : result->loads)
        for (std::size_t c = 0; c < load.after().residue_dm_kg.values.size(); ++c)
            on_map_kg += load.after().residue_dm_kg.values[c] - load.before.residue_dm_kg.values[c];
    EXPECT_NEAR(on_map_kg, residue_kg, 1e-9 * residue_kg);
}

}  // namespace
}  // namespace haylane
