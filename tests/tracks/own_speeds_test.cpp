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
                   .times_s = {0, 250},
                   .length_m = 500},
                  {.motion = Motion::laying,
                   .start_s = 250,
                   .end_s = 550,
                   .path = {{300, 100}, {600, 100}},
                   .times_s = {250, 550},
                   .length_m = 300},
                  {.motion = Motion::returning,
                   .start_s = 550,
                   .end_s = 650,
                   .path = {{600, 100}, {600, 350}},
                   .times_s = {550, 650},
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

// 300 m up the dirt at 2 m/s and, in the same piece, 300 m of gravel at 6 m/s.
TEST(OwnSpeeds, AWayOverTwoSurfacesShowsEachAsItWasDriven) {
    Ranch ranch = testing::small_ranch().ranch;
    ranch.trails = {
        {.name = "Lane", .path = {{{0, 0}, {0, 300}}}, .surface = Surface::dirt},
        {.name = "County road", .path = {{{0, 300}, {0, 600}}}, .surface = Surface::gravel}};
    Piece piece{.motion = Motion::hauling, .start_s = 0, .end_s = 200, .length_m = 600};
    for (int i = 0; i <= 150; ++i) {
        piece.path.push_back({0, 2.0 * i});
        piece.times_s.push_back(i);
    }
    for (int i = 1; i <= 50; ++i) {
        piece.path.push_back({0, 300 + 6.0 * i});
        piece.times_s.push_back(150 + i);
    }
    CutTrack cut;
    cut.pieces = {piece};
    const std::array figures{track_figures(ranch, cut)};
    const Driven& dirt = figures[0].hauling[static_cast<std::size_t>(Surface::dirt)];
    const Driven& gravel = figures[0].hauling[static_cast<std::size_t>(Surface::gravel)];
    EXPECT_NEAR(dirt.m_per_s(), 2.0, 0.1);
    EXPECT_NEAR(gravel.m_per_s(), 6.0, 0.1);
    EXPECT_NEAR(dirt.length_m + gravel.length_m, 600.0, 1e-9);
    const FiguresSum sum = sum_of(figures);
    EXPECT_EQ(sum.tracks, 1);
    EXPECT_EQ(sum.laying.tracks, 0) << "nothing was laid";
    EXPECT_EQ(sum.hauling[static_cast<std::size_t>(Surface::gravel)].tracks, 1);
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
