// Against plane kinematics of a towed machine (worked rows: R 10 m, hitch 6 m runs on 8 m) and hand
// values.
#include "core/ranch/ranch.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(LineRadius, FollowsTheRigsRule) {
    const Settings settings;
    Rig rig;
    rig.turn_radius_m = 8.0;
    rig.line_rule = LineRule::straight;
    EXPECT_EQ(line_radius_m(rig, settings), std::nullopt);
    rig.line_rule = LineRule::wide;
    EXPECT_EQ(line_radius_m(rig, settings), 46.0);
    rig.feed_radius_m = 30.0;
    EXPECT_EQ(line_radius_m(rig, settings), 30.0);
    rig.feed_radius_m = 2.0;  // tighter than it can turn
    EXPECT_EQ(line_radius_m(rig, settings), 8.0);
}

TEST(LineRadius, LeavesRoomForATowedMachine) {
    Rig rig;
    rig.line_rule = LineRule::any;
    rig.turn_radius_m = 8.0;
    rig.hitch_m = 6.0;
    const auto radius_m = line_radius_m(rig, Settings{});
    ASSERT_TRUE(radius_m.has_value());
    EXPECT_NEAR(*radius_m, 10.0, 1e-12);
}

TEST(FenceStrip, IsTheWiderOfClearanceAndTheRowsReach) {
    const Settings settings;
    Rig rig;
    rig.windrow_m = 2.0;
    rig.drift_downwind_m = 3.0;
    EXPECT_EQ(fence_strip_m(rig, settings), 6.0);
    rig.drift_downwind_m = 7.5;
    EXPECT_EQ(fence_strip_m(rig, settings), 8.5);
}

TEST(WeatherOn, FindsTheDayOrNothing) {
    Ranch ranch;
    const sys_days first = std::chrono::year(2027) / 1 / 4;
    for (int i : {0, 1, 3}) ranch.weather.push_back({.date = first + std::chrono::days(i)});
    const WeatherDay* found = weather_on(ranch, first + std::chrono::days(3));
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->date, first + std::chrono::days(3));
    EXPECT_EQ(weather_on(ranch, first + std::chrono::days(2)), nullptr);
    EXPECT_EQ(weather_on(ranch, first - std::chrono::days(1)), nullptr);
    EXPECT_EQ(weather_on(Ranch{}, first), nullptr);
}

TEST(Words, AreTheOnesOfTheManual) {
    EXPECT_EQ(to_string(Ground::stubble), "stubble");
    EXPECT_EQ(to_string(OffLimitsKind::buried_line), "buried_line");
    EXPECT_EQ(to_string(Surface::two_track), "two_track");
    EXPECT_EQ(to_string(Stage::first_calf_lactating), "first_calf_lactating");
    EXPECT_EQ(to_string(HayKind::baleage), "baleage");
    EXPECT_EQ(to_string(Method::shred), "shred");
    EXPECT_EQ(to_string(LineRule::wide), "wide");
    EXPECT_EQ(to_string(Source::recalled), "recalled");
}

}  // namespace
}  // namespace haylane
