// Checks against hand-worked lengths, circles of known curvature, and brute-force sampling.
#include "core/geometry/polyline.h"

#include "core/base/random.h"
#include "core/base/units.h"
#include "tests/geometry/geometry_support.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

const Polyline kHook = {{0.0, 0.0}, {3.0, 0.0}, {3.0, 0.0}, {3.0, 4.0}};  // 3 + 4, one repeat

TEST(Polyline, MeasuresLengthPlaceAndAzimuth) {
    EXPECT_DOUBLE_EQ(length_m(kHook), 7.0);
    EXPECT_EQ(length_m({}), 0.0);
    EXPECT_EQ(length_m({{1.0, 1.0}}), 0.0);
    EXPECT_EQ(point_at(kHook, -1.0), (Point{0.0, 0.0}));
    EXPECT_EQ(point_at(kHook, 1.5), (Point{1.5, 0.0}));
    EXPECT_EQ(point_at(kHook, 5.0), (Point{3.0, 2.0}));
    EXPECT_EQ(point_at(kHook, 99.0), (Point{3.0, 4.0}));
    EXPECT_EQ(point_at({{1.0, 2.0}}, 3.0), (Point{1.0, 2.0}));
    EXPECT_DOUBLE_EQ(azimuth_at(kHook, 1.0), units::kPi / 2.0);  // east
    EXPECT_DOUBLE_EQ(azimuth_at(kHook, 5.0), 0.0);               // north
    EXPECT_DOUBLE_EQ(azimuth_at(kHook, -5.0), units::kPi / 2.0);
    EXPECT_DOUBLE_EQ(azimuth_at(kHook, 50.0), 0.0);
    EXPECT_DOUBLE_EQ(azimuth_at(reversed(kHook), 0.0), units::kPi);  // south
    EXPECT_DOUBLE_EQ(azimuth_at(reversed(kHook), 5.0), 1.5 * units::kPi);
}

TEST(Polyline, PartsHaveTheAskedLengthAndJoinUp) {
    const Polyline part = part_of(kHook, 1.0, 5.0);
    EXPECT_EQ(part, (Polyline{{1.0, 0.0}, {3.0, 0.0}, {3.0, 2.0}}));
    EXPECT_EQ(part_of(kHook, -3.0, 3.0), (Polyline{{0.0, 0.0}, {3.0, 0.0}}));
    EXPECT_EQ(part_of(kHook, 7.0, 9.0).size(), 1U);
    EXPECT_TRUE(part_of({}, 0.0, 1.0).empty());
    Random random(3);
    const Polyline line = star_ring(random, {0.0, 0.0}, 10.0, 40.0, 30);
    const double length = length_m(line);
    for (int k = 0; k < 200; ++k) {
        const double from = between(random, 0.0, length);
        const double to = between(random, from, length);
        const Polyline cut = part_of(line, from, to);
        EXPECT_NEAR(length_m(cut), to - from, 1e-9);
        EXPECT_EQ(cut.front(), point_at(line, from));
        EXPECT_EQ(cut.back(), point_at(line, to));
    }
}

TEST(Polyline, DensifyingKeepsOldVerticesAndResamplingDoesNot) {
    const Polyline dense = densified(kHook, 2.0);
    EXPECT_EQ(dense,
              (Polyline{{0.0, 0.0}, {1.5, 0.0}, {3.0, 0.0}, {3.0, 0.0}, {3.0, 2.0}, {3.0, 4.0}}));
    const Polyline even = resampled(kHook, 2.0);
    EXPECT_EQ(even, (Polyline{{0.0, 0.0}, {2.0, 0.0}, {3.0, 1.0}, {3.0, 3.0}, {3.0, 4.0}}));
    EXPECT_EQ(resampled({{0.0, 0.0}, {6.0, 0.0}}, 2.0).size(), 4U);  // no sliver at the end
    EXPECT_EQ(resampled({{0.0, 0.0}, {0.5, 0.0}}, 2.0), (Polyline{{0.0, 0.0}, {0.5, 0.0}}));
    EXPECT_EQ(resampled({{0.0, 0.0}, {0.7, 0.0}}, 0.1).size(), 8U);
    EXPECT_TRUE(densified({}, 1.0).empty());
    EXPECT_TRUE(resampled({}, 1.0).empty());
}

TEST(Polyline, BowIsTheGreatestDistanceFromTheChord) {
    EXPECT_DOUBLE_EQ(bow_m({{0.0, 0.0}, {5.0, 2.0}, {7.0, -3.0}, {10.0, 0.0}}), 3.0);
    EXPECT_EQ(bow_m({{0.0, 0.0}, {10.0, 0.0}}), 0.0);
    EXPECT_EQ(bow_m({}), 0.0);
    EXPECT_DOUBLE_EQ(bow_m({{0.0, 0.0}, {3.0, 4.0}, {0.0, 0.0}}), 5.0);  // closed line
}

// Three points of a circle of radius r have Menger curvature 1/r exactly.
TEST(Polyline, CurvatureOfACircleIsOneOverItsRadius) {
    Polyline circle;
    for (int i = 0; i <= 90; ++i)
        circle.push_back(Point{4000.0, 100.0} + along_azimuth(i * units::kPi / 90.0) * 12.5);
    EXPECT_NEAR(max_curvature_per_m(circle), 1.0 / 12.5, 1e-9);
    circle.insert(circle.begin() + 5, circle[5]);  // a repeated point changes nothing
    EXPECT_NEAR(max_curvature_per_m(circle), 1.0 / 12.5, 1e-9);
    EXPECT_EQ(max_curvature_per_m({{0.0, 0.0}, {1.0, 0.0}}), 0.0);
    EXPECT_EQ(max_curvature_per_m({{0.0, 0.0}, {1.0, 0.0}, {9.0, 0.0}}), 0.0);
    EXPECT_TRUE(std::isinf(max_curvature_per_m({{0.0, 0.0}, {1.0, 0.0}, {0.0, 0.0}})));
}

TEST(Polyline, NearestFootBeatsEverySampledPoint) {
    Random random(11);
    for (int k = 0; k < 100; ++k) {
        const Polyline line = star_ring(random, {0.0, 0.0}, 10.0, 40.0, 12);
        const Point p = point_in(random, -60.0, 60.0);
        const Foot foot = nearest_foot(p, line);
        double least = std::numeric_limits<double>::infinity();
        const double length = length_m(line);
        for (int i = 0; i <= 4000; ++i)
            least = std::min(least, distance_m(p, point_at(line, length * i / 4000.0)));
        EXPECT_LE(foot.away_m, least + 1e-12);
        EXPECT_NEAR(foot.away_m, least, length / 4000.0);
        EXPECT_NEAR(distance_m(p, foot.at), foot.away_m, 1e-12);
        EXPECT_NEAR(distance_m(point_at(line, foot.along_m), foot.at), 0.0, 1e-9);
        EXPECT_DOUBLE_EQ(distance_m(p, line), foot.away_m);
    }
}

TEST(Polyline, DistanceOfTwoLines) {
    const Polyline a = {{0.0, 0.0}, {10.0, 0.0}};
    EXPECT_DOUBLE_EQ(distance_m(a, Polyline{{0.0, 3.0}, {5.0, 2.0}, {10.0, 7.0}}), 2.0);
    EXPECT_EQ(distance_m(a, Polyline{{5.0, -1.0}, {6.0, 1.0}}), 0.0);
    EXPECT_DOUBLE_EQ(distance_m(a, Polyline{{13.0, 4.0}}), 5.0);
    EXPECT_TRUE(std::isinf(distance_m(a, Polyline{})));
    Random random(12);
    for (int k = 0; k < 50; ++k) {
        const Polyline b = star_ring(random, {0.0, 0.0}, 10.0, 20.0, 12);
        const Polyline c = star_ring(random, {50.0, 0.0}, 10.0, 20.0, 12);
        double least = std::numeric_limits<double>::infinity();
        for (const Point p : densified(b, 0.05)) least = std::min(least, distance_m(p, c));
        EXPECT_LE(distance_m(b, c), least + 1e-12);
        EXPECT_NEAR(distance_m(b, c), least, 0.05);
    }
}

TEST(Polyline, SegmentsCrossAtTheKnownPlace) {
    const auto at = segment_crossing({0.0, 0.0}, {4.0, 4.0}, {0.0, 4.0}, {4.0, 0.0});
    ASSERT_TRUE(at.has_value());
    EXPECT_EQ(*at, (Point{2.0, 2.0}));
    EXPECT_TRUE(segment_crossing({0.0, 0.0}, {4.0, 0.0}, {4.0, 0.0}, {4.0, 5.0}).has_value());
    EXPECT_FALSE(segment_crossing({0.0, 0.0}, {4.0, 0.0}, {4.1, -1.0}, {4.1, 5.0}).has_value());
    EXPECT_FALSE(segment_crossing({0.0, 0.0}, {4.0, 0.0}, {1.0, 1.0}, {3.0, 1.0}).has_value());
    EXPECT_FALSE(segment_crossing({0.0, 0.0}, {4.0, 0.0}, {1.0, 0.0}, {3.0, 0.0}).has_value());
}

}  // namespace
}  // namespace haylane
