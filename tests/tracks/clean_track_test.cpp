// What cannot have been driven is taken out, listed with its reason, and nothing else is.
#include "core/tracks/clean_track.h"

#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

std::vector<TrackPoint> straight(std::size_t count, double step_s = 1.0, double speed = 2.0) {
    std::vector<TrackPoint> points;
    for (std::size_t i = 0; i < count; ++i) {
        const double t = step_s * static_cast<double>(i);
        points.push_back({{speed * t, 0.0}, 1000.0 + t, {}});
    }
    return points;
}

TEST(CleanTrack, ASoundTrackIsKeptWhole) {
    const auto clean = clean_track(straight(50));
    EXPECT_EQ(clean.fixes.size(), 50U);
    EXPECT_EQ(clean.parts, std::vector<std::size_t>{0});
    EXPECT_TRUE(clean.dropped.empty());
    EXPECT_TRUE(clean_track({}).fixes.empty());
}

TEST(CleanTrack, RepeatsBackwardTimesAndPointsWithoutTimeAreListed) {
    auto points = straight(20);
    points[5].time_s = points[4].time_s;
    points[5].at = points[4].at;
    points[9].time_s = *points[8].time_s - 3.0;
    points[12].time_s.reset();
    points[15].at.x = std::numeric_limits<double>::quiet_NaN();
    const auto clean = clean_track(points);
    ASSERT_EQ(clean.dropped.size(), 4U);
    EXPECT_EQ(clean.dropped[0].point, 5U);
    EXPECT_EQ(clean.dropped[0].reason, DropReason::repeated);
    EXPECT_EQ(clean.dropped[1].point, 9U);
    EXPECT_EQ(clean.dropped[1].reason, DropReason::backward_time);
    EXPECT_EQ(clean.dropped[2].reason, DropReason::no_time);
    EXPECT_EQ(clean.dropped[3].reason, DropReason::not_finite);
    EXPECT_EQ(clean.fixes.size() + clean.dropped.size(), points.size());
}

TEST(CleanTrack, SpikesBySpeedAndByAcceleration) {
    auto points = straight(30);
    points[10].at.y = 4000.0;  // no speed gets there
    points[20].at.y = 28.0;    // a speed could, braking could not bring it back
    const auto clean = clean_track(points);
    ASSERT_EQ(clean.dropped.size(), 2U);
    EXPECT_EQ(clean.dropped[0].point, 10U);
    EXPECT_EQ(clean.dropped[1].point, 20U);
    EXPECT_EQ(clean.count(DropReason::spike), 2U);
    EXPECT_EQ(clean.parts.size(), 1U);
}

TEST(CleanTrack, AJumpThatLastsBeginsANewPart) {
    auto points = straight(30);
    for (std::size_t i = 15; i < 30; ++i) points[i].at.y = 4000.0;
    const auto clean = clean_track(points);
    EXPECT_EQ(clean.fixes.size(), 30U);
    EXPECT_EQ(clean.parts, (std::vector<std::size_t>{0, 15}));
}

TEST(CleanTrack, GapsAreNotedLongOnesAndClocksSetBackBeginAPart) {
    auto points = straight(40);
    for (std::size_t i = 10; i < 40; ++i) *points[i].time_s += 100.0;
    for (std::size_t i = 20; i < 40; ++i) *points[i].time_s += 4000.0;
    for (std::size_t i = 30; i < 40; ++i) *points[i].time_s -= 3000.0;
    const auto clean = clean_track(points);
    ASSERT_EQ(clean.gaps.size(), 1U);
    EXPECT_EQ(clean.gaps[0].after, 9U);
    EXPECT_NEAR(clean.gaps[0].time_s, 101.0, 1e-9);
    EXPECT_EQ(clean.parts, (std::vector<std::size_t>{0, 20, 30}));
    EXPECT_TRUE(clean.dropped.empty());
}

}  // namespace
}  // namespace haylane
