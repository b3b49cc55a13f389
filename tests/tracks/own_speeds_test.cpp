// Speeds of a rig by its tracks, against what was driven.
#include "core/tracks/own_speeds.h"

#include "tests/support/small_ranch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

// 500 m up the dirt trail in 250 s, 300 m of hay in 300 s, and a drive far from any trail.
CutTrack morning() {
    CutTrack cut;
    cut.pieces = {{.motion = Motion::hauling,
                   .start_s = 0,
                   .end_s = 250,
                   .path = {{200, -500}, {200, 0}},
                   .length_m = 500},
                  {.motion = Motion::laying,
                   .start_s = 250,
                   .end_s = 550,
                   .path = {{300, 100}, {600, 100}},
                   .length_m = 300},
                  {.motion = Motion::returning,
                   .start_s = 550,
                   .end_s = 650,
                   .path = {{600, 100}, {600, 350}},
                   .length_m = 250}};
    return cut;
}

TEST(OwnSpeeds, OneTrackGivesLengthsAndTimesBySurface) {
    const TrackFigures figures = track_figures(testing::small_ranch().ranch, morning());
    EXPECT_NEAR(figures.laying.length_m, 300.0, 1e-9);
    EXPECT_NEAR(figures.laying.time_s, 300.0, 1e-9);
    const Driven& dirt = figures.hauling[static_cast<std::size_t>(Surface::dirt)];
    EXPECT_NEAR(dirt.length_m, 500.0, 1e-6);
    EXPECT_NEAR(dirt.time_s, 250.0, 1e-6);
    for (const Surface other : {Surface::paved, Surface::gravel, Surface::two_track})
        EXPECT_EQ(figures.hauling[static_cast<std::size_t>(other)].length_m, 0.0);
}

TEST(OwnSpeeds, TwoTracksAreNotEnoughThreeAre) {
    const Ranch ranch = testing::small_ranch().ranch;
    std::vector<TrackFigures> tracks(2, track_figures(ranch, morning()));
    Rig rig;
    fill_own_speeds(tracks, testing::day("2027-01-11"), rig);
    EXPECT_EQ(rig.own.tracks, 0);
    EXPECT_FALSE(rig.own.feed_m_per_s);
    tracks.push_back(tracks.front());
    fill_own_speeds(tracks, testing::day("2027-01-12"), rig);
    EXPECT_EQ(rig.own.tracks, 3);
    EXPECT_EQ(*rig.own.newest, testing::day("2027-01-12"));
    EXPECT_NEAR(rig.own.feed_m_per_s.value(), 1.0, 1e-9);
    EXPECT_NEAR(rig.own.haul_m_per_s[static_cast<std::size_t>(Surface::dirt)].value(), 2.0, 1e-9);
    EXPECT_FALSE(rig.own.haul_m_per_s[static_cast<std::size_t>(Surface::paved)]);
    EXPECT_NEAR(drive_speeds(ranch, rig).feed_m_per_s, 1.0, 1e-9);
}

}  // namespace
}  // namespace haylane
