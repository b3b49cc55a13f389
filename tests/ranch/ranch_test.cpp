// Against plane kinematics of a towed machine (worked rows: R 10 m, hitch 6 m runs on 8 m) and hand
// values.
#include "core/ranch/ranch.h"

#include "core/ranch/rig_turning.h"

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

// Worked rows of a one-axle trailer in a steady turn, R_t = sqrt(R^2 - L^2) (plane kinematics;
// survey Sayers 1986, TRR 1052:53-62): a rig that turns on R_t with its machine on L drives on R.
TEST(RigTurning, KeepsTheTrailerOnTheRigsOwnRadius) {
    struct Row {
        double tractor_m, hitch_m, trailer_m;
    };
    for (const Row& row :
         {Row{8.0, 5.0, 6.244997998}, Row{6.0, 4.0, 4.472135955}, Row{10.0, 6.0, 8.0}}) {
        Rig rig;
        rig.turn_radius_m = row.trailer_m;
        rig.hitch_m = row.hitch_m;
        EXPECT_NEAR(driven_radius_m(rig), row.tractor_m, 1e-8);
        EXPECT_NEAR(off_tracking_m(rig), row.tractor_m - row.trailer_m, 1e-8);
    }
    Rig carried;
    carried.turn_radius_m = 7.0;
    EXPECT_EQ(driven_radius_m(carried), 7.0);
    EXPECT_EQ(off_tracking_m(carried), 0.0);
}

}  // namespace
}  // namespace haylane
