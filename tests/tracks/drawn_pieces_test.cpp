// What is drawn of a long track looks like the track, with few points.
#include "core/tracks/drawn_pieces.h"

#include "core/base/random.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

CutTrack cut_of(Polyline path) {
    CutTrack cut;
    cut.pieces.push_back({.motion = Motion::hauling, .path = std::move(path)});
    return cut;
}

double farthest_m(const Polyline& from, const Polyline& to) {
    double most = 0.0;
    for (const Point p : from) most = std::max(most, distance_m(p, to));
    return most;
}

// A winter on ten bends, recorded ten times a second, a hand's breadth of noise on each point.
TEST(DrawnPieces, AHundredThousandPointsBecomeAPicture) {
    Random random(7);
    Polyline path;
    for (int i = 0; i < 100'000; ++i) {
        const double along = 0.05 * i;
        path.push_back({along + 0.1 * random.uniform(),
                        60.0 * std::sin(along / 80.0) + 0.1 * random.uniform()});
    }
    CutTrack cut = cut_of(path);
    cut.pieces.push_back({.motion = Motion::stopped, .path = {{5000, 1}}});
    const auto drawn = drawn_pieces(cut, 2.0);
    ASSERT_EQ(drawn.size(), 2U);
    EXPECT_EQ(drawn[0].motion, Motion::hauling);
    EXPECT_EQ(drawn[0].path.front(), path.front());
    EXPECT_EQ(drawn[0].path.back(), path.back());
    EXPECT_LT(drawn[0].path.size(), 600U);
    EXPECT_LT(farthest_m(path, drawn[0].path), 2.0) << "off by more than a pixel";
    EXPECT_EQ(drawn[1].path, (Polyline{{5000, 1}}));
}

// Up a lane and back beside one's own track, whatever the lane's direction and however near: the
// far end is drawn.
TEST(DrawnPieces, TheEndOfALaneIsDrawn) {
    Random random(8);
    for (int round = 0; round < 300; ++round) {
        const Point up = along_azimuth(6.28 * random.uniform());
        const Point aside{up.y, -up.x};
        const double apart = 4.0 * random.uniform();
        Polyline path;
        for (int i = -100; i <= 0; ++i) path.push_back(aside * (1.0 * i));
        for (int i = 1; i <= 60; ++i) path.push_back(up * (1.0 * i));
        for (int i = 60; i >= 0; --i) path.push_back(aside * apart + up * (1.0 * i));
        for (int i = 1; i <= 100; ++i) path.push_back(aside * (apart + i));
        const auto drawn = drawn_pieces(cut_of(path), 1.0 + 3.0 * random.uniform());
        EXPECT_LT(farthest_m(path, drawn[0].path), 5.0) << "round " << round;
    }
}

}  // namespace
}  // namespace haylane
