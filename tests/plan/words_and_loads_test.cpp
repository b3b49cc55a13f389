#include "core/base/units.h"
#include "core/plan/daylight.h"
#include "core/plan/describe.h"
#include "core/plan/hay_mix.h"
#include "core/plan/held_back.h"
#include "core/plan/load_out.h"
#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;

// Day lengths at 45 N: 21 June 15 h 37 min, 21 December 8 h 46 min, equinox about 12 h 10 min.
// Sunrise tables, from memory; the method is good to 10 minutes.
TEST(Daylight, FortyFiveNorth) {
    const double lat = units::rad_from_deg(45.0);
    EXPECT_NEAR(daylight_s(lat, day("2026-06-21")) / 60.0, 937.0, 10.0);
    EXPECT_NEAR(daylight_s(lat, day("2026-12-21")) / 60.0, 526.0, 10.0);
    EXPECT_NEAR(daylight_s(lat, day("2026-03-20")) / 60.0, 730.0, 10.0);
}

TEST(Daylight, PolarNightAndDay) {
    const double lat = units::rad_from_deg(80.0);
    EXPECT_EQ(daylight_s(lat, day("2026-12-21")), 0.0);
    EXPECT_EQ(daylight_s(lat, day("2026-06-21")), units::kSecondsPerDay);
}

TEST(Describe, StartNamesANearGateBeforeANearerTank) {
    const std::vector<Landmark> marks{{"the tank", {100, 100}, false},
                                      {"Creek gate", {0, 0}, true}};
    const StartHint hint = start_hint(marks, {90, 120});
    EXPECT_EQ(hint.from, "Creek gate");
    EXPECT_NEAR(hint.distance_m, 150.0, 1e-9);
    EXPECT_NEAR(hint.bearing_rad, std::atan2(90.0, 120.0), 1e-12);
}

TEST(Describe, StartFallsBackToAnythingSeenWhenTheGateIsFar) {
    const std::vector<Landmark> marks{{"the tank", {100, 100}, false},
                                      {"Far gate", {0, 3000}, true}};
    EXPECT_EQ(start_hint(marks, {100, 140}).from, "the tank");
}

TEST(Describe, TowardNamesWhatStandsAhead) {
    const std::vector<Landmark> marks{{"the windmill", {1000, 1010}, false},
                                      {"behind", {-500, -500}, false}};
    EXPECT_EQ(toward(marks, {{0, 0}, {300, 300}}), "northeast, toward the windmill");
    EXPECT_EQ(toward(marks, {{0, 0}, {-100, 100}}), "northwest");
}

TEST(Describe, CompassWordsTurnAtHalfPoints) {
    EXPECT_EQ(compass_word(0.0), "north");
    EXPECT_EQ(compass_word(units::rad_from_deg(22.4)), "north");
    EXPECT_EQ(compass_word(units::rad_from_deg(22.6)), "northeast");
    EXPECT_EQ(compass_word(units::rad_from_deg(337.6)), "north");
    EXPECT_EQ(compass_word(units::rad_from_deg(270.0)), "west");
}

// By hand: 5 bales of 519.2 kg DM and 3 of 504 kg; CP 17 % and 7.8 %.
TEST(HayMix, WeighsLotsByDryMatter) {
    CheckedRanch checked = testing::small_ranch();
    Ranch& ranch = checked.ranch;
    const HayMix mix = mix_of(ranch, {{LotId::at(0), 5}, {LotId::at(1), 3}});
    EXPECT_EQ(mix.bales, 8);
    EXPECT_NEAR(mix.dm_kg, 4108.0, 1e-9);
    EXPECT_NEAR(mix.quality.cp_ratio, (2596.0 * 0.17 + 1512.0 * 0.078) / 4108.0, 1e-12);
    EXPECT_NEAR(mix.quality.k_ratio, (2596.0 * 0.017 + 1512.0 * 0.010) / 4108.0, 1e-12);
    EXPECT_TRUE(mix.quality.tested);
    ranch.lots[1].quality.tested = false;
    EXPECT_FALSE(mix_of(ranch, {{LotId::at(0), 5}, {LotId::at(1), 3}}).quality.tested);
    EXPECT_EQ(mix_of(ranch, {}).quality.cp_ratio, 0.0);
}

TEST(LoadOut, WholeBalesEvenLoadsOneYardEach) {
    CheckedRanch checked = testing::small_ranch();
    Ranch& ranch = checked.ranch;
    ranch.yards.push_back({.name = "Far yard", .at = {9000, 0}});
    ranch.lots[1].yard = YardId::at(1);
    const auto loads = split_loads(ranch, {{LotId::at(0), 5}, {LotId::at(1), 3}}, 4);
    ASSERT_EQ(loads.size(), 3U);
    EXPECT_EQ(loads[0].bales, 3);
    EXPECT_EQ(loads[1].bales, 2);
    EXPECT_EQ(loads[2].bales, 3);
    EXPECT_EQ(loads[2].yard, YardId::at(1));
    EXPECT_DOUBLE_EQ(loads[0].hay_kg, 3 * 590.0);
}

TEST(HeldBack, RichHayIsKeptOnlyForMilkingDaysToCome) {
    CheckedRanch checked = testing::small_ranch();
    Ranch& ranch = checked.ranch;
    const std::vector<int> left{200, 400, 50};
    EXPECT_EQ(free_share(ranch, left, day("2026-01-01")), std::vector<double>(3, 1.0));
    ranch.herds[0].calving_from = *parse_date_mark("2026-03-01");
    ranch.herds[0].calving_to = *parse_date_mark("2026-04-01");
    ranch.settings.turnout = day("2026-05-15");
    const auto share = free_share(ranch, left, day("2026-01-01"));
    EXPECT_LT(share[0], 1.0);
    EXPECT_EQ(share[1], 1.0);
    EXPECT_EQ(share[2], 1.0);
}

}  // namespace
}  // namespace haylane
