// Checks against hand-worked areas, a polygon computed twice elsewhere (area 147 300 m2, perimeter
// 1511.117630 m), and inscribed circles of known shapes.
#include "core/geometry/polygon.h"

#include "core/base/random.h"
#include "tests/geometry/geometry_support.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

double distance_to_boundary_m(const MultiPolygon& shape, Point p) {
    double least = 1e300;
    for (const Polyline& ring : boundary_lines(shape)) least = std::min(least, distance_m(p, ring));
    return least;
}

TEST(Polygon, KnownAreaAndPerimeter) {
    const Ring ring = {{0.0, 0.0}, {400.0, 0.0}, {520.0, 180.0}, {300.0, 360.0}, {-40.0, 250.0}};
    EXPECT_DOUBLE_EQ(ring_area_m2(ring), 147300.0);
    EXPECT_DOUBLE_EQ(ring_area_m2(reversed(ring)), -147300.0);
    const MultiPolyline lines = boundary_lines({{ring, {}}});
    ASSERT_EQ(lines.size(), 1U);
    EXPECT_NEAR(length_m(lines[0]), 1511.117630, 5e-7);
}

TEST(Polygon, HolesComeOffWhicheverWayTheyRun) {
    const Ring hole = rectangle(10.0, 10.0, 30.0, 20.0);
    const MultiPolygon a = {{rectangle(0.0, 0.0, 100.0, 50.0), {hole}}};
    const MultiPolygon b = {{reversed(rectangle(0.0, 0.0, 100.0, 50.0)), {reversed(hole)}}};
    EXPECT_DOUBLE_EQ(area_m2(a), 4800.0);
    EXPECT_DOUBLE_EQ(area_m2(b), 4800.0);
    // 5000 m2 about (50, 25) less 200 m2 about (20, 15).
    const Point expected{(5000.0 * 50.0 - 200.0 * 20.0) / 4800.0,
                         (5000.0 * 25.0 - 200.0 * 15.0) / 4800.0};
    EXPECT_NEAR(distance_m(centroid(a), expected), 0.0, 1e-10);
    EXPECT_NEAR(distance_m(centroid(b), expected), 0.0, 1e-10);
    EXPECT_TRUE(contains(a, {5.0, 5.0}));
    EXPECT_FALSE(contains(a, {20.0, 15.0}));
    EXPECT_FALSE(contains(a, {-1.0, 15.0}));
    EXPECT_FALSE(contains(a, {50.0, 51.0}));
}

TEST(Polygon, SmallAreaFarFromTheCentreLosesNoDigits) {
    const Ring ring = rectangle(30000.0, 30000.0, 30000.5, 30000.5);
    EXPECT_DOUBLE_EQ(ring_area_m2(ring), 0.25);
}

TEST(Polygon, EmptyAndFlatShapes) {
    EXPECT_EQ(area_m2({}), 0.0);
    EXPECT_TRUE(box_of(MultiPolygon{}).empty());
    EXPECT_FALSE(contains(MultiPolygon{}, {0.0, 0.0}));
    const MultiPolygon flat = {{{{0.0, 0.0}, {4.0, 0.0}, {8.0, 0.0}}, {}}};
    EXPECT_EQ(area_m2(flat), 0.0);
    EXPECT_EQ(centroid(flat), (Point{4.0, 0.0}));
}

TEST(LabelPoint, IsTheCentreOfALargeInscribedCircle) {
    const MultiPolygon room = square(100.0);
    EXPECT_NEAR(distance_m(label_point(room), {50.0, 50.0}), 0.0, 1.0);
    // An L of two 20 m arms: the widest circle sits in the corner, radius 20 / (1 + sqrt 2) *
    // sqrt 2.
    const MultiPolygon ell = {
        {{{0.0, 0.0}, {100.0, 0.0}, {100.0, 20.0}, {20.0, 20.0}, {20.0, 100.0}, {0.0, 100.0}}, {}}};
    const double radius = 20.0 * std::sqrt(2.0) / (1.0 + std::sqrt(2.0));
    EXPECT_TRUE(contains(ell, label_point(ell)));
    EXPECT_GE(distance_to_boundary_m(ell, label_point(ell)), radius - 0.2);
}

TEST(LabelPoint, StaysInsideJaggedThinAndHollowShapes) {
    Random random(5);
    for (int k = 0; k < 40; ++k) {
        const MultiPolygon shape = jagged_shape(random);
        const Point p = label_point(shape);
        ASSERT_TRUE(contains(shape, p)) << k;
        const double reach = distance_to_boundary_m(shape, p);
        for (int i = 0; i < 200; ++i) {  // no sampled place lies deeper by more than the tolerance
            const Point q = point_in(random, -100.0, 100.0);
            if (!contains(shape, q)) continue;
            ASSERT_LE(distance_to_boundary_m(shape, q), reach + 0.25);
        }
    }
    const MultiPolygon strip = {{rectangle(0.0, 0.0, 10000.0, 0.001), {}}};
    EXPECT_TRUE(contains(strip, label_point(strip)));
    const MultiPolygon ring = {
        {rectangle(0.0, 0.0, 100.0, 100.0), {reversed(rectangle(5.0, 5.0, 95.0, 95.0))}}};
    EXPECT_TRUE(contains(ring, label_point(ring)));
}

}  // namespace
}  // namespace haylane
