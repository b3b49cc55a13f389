// Checks against the plain even-odd test, a linear search of all edges, and GEOS predicates: what
// GEOS covers exactly must be covered, and what is covered must lie in the shape grown by a hair.
#include "core/geometry/region.h"

#include "core/base/random.h"
#include "core/geometry/boolean_ops.h"
#include "core/geometry/geos_session.h"
#include "tests/geometry/geometry_support.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kHair_m = 1e-6;

double brute_distance_m(const MultiPolygon& shape, Point p) {
    double least = std::numeric_limits<double>::infinity();
    for (const Polyline& ring : boundary_lines(shape)) least = std::min(least, distance_m(p, ring));
    return least;
}

// Jagged shapes with holes, and shapes whose corners stand on whole numbers and touch each other.
std::vector<MultiPolygon> test_shapes() {
    std::vector<MultiPolygon> shapes;
    Random random(77);
    for (int k = 0; k < 20; ++k) shapes.push_back(make_valid(jagged_shape(random))->shape);
    for (int k = 0; k < 40; ++k)
        shapes.push_back(make_valid({{lattice_ring(random, 10, 12), {}}})->shape);
    return shapes;
}

// A place of the kind that goes wrong: a corner, on an edge, a whole-number place, or anywhere.
Point awkward_point(Random& random, const MultiPolygon& shape) {
    const Box box = box_of(shape);
    const MultiPolyline rings = boundary_lines(shape);
    const Polyline& ring = rings[random.below(rings.size())];
    const std::size_t i = random.below(ring.size() - 1);
    switch (random.below(4)) {
        case 0:
            return ring[i];
        case 1:
            return lerp(ring[i], ring[i + 1], random.uniform());
        case 2:
            return {std::round(between(random, box.min_x - 2.0, box.max_x + 2.0)),
                    std::round(between(random, box.min_y - 2.0, box.max_y + 2.0))};
        default:
            return {between(random, box.min_x - 5.0, box.max_x + 5.0),
                    between(random, box.min_y - 5.0, box.max_y + 5.0)};
    }
}

TEST(Region, ContainsAndDistanceAgreeWithBruteForce) {
    Random random(1);
    int inside = 0;
    for (const MultiPolygon& shape : test_shapes()) {
        const Region region(shape);
        for (int k = 0; k < 300; ++k) {
            const Point p =
                k % 2 == 0 ? point_in(random, -110.0, 110.0) : point_in(random, -1.0, 12.0);
            const double edge_m = brute_distance_m(shape, p);
            if (edge_m > 1e-9) {
                ASSERT_EQ(region.contains(p), contains(shape, p));
                inside += region.contains(p) ? 1 : 0;
            }
            ASSERT_DOUBLE_EQ(region.distance_to_edge_m(p), edge_m);
        }
        const Point far{1e5, -2e5};
        ASSERT_DOUBLE_EQ(region.distance_to_edge_m(far), brute_distance_m(shape, far));
    }
    EXPECT_GT(inside, 2000);
}

TEST(Region, CoversSegmentAgreesWithGeos) {
    Random random(2);
    int covered = 0;
    int exact = 0;
    for (const MultiPolygon& shape : test_shapes()) {
        const Region region(shape);
        const GeosSession geos;
        const GeosShape raw = geos.shape(shape);
        const GeosShape grown = geos.shape(*buffer_shape(shape, kHair_m));
        for (int k = 0; k < 200; ++k) {
            const Point a = awkward_point(random, shape);
            const Point b = awkward_point(random, shape);
            if (a == b) continue;
            const GeosShape line = geos.line({a, b});
            const bool ours = region.covers_segment(a, b);
            if (GEOSCovers_r(geos.context(), raw.get(), line.get()) == 1) {
                ++exact;
                ASSERT_TRUE(ours) << a.x << " " << a.y << " " << b.x << " " << b.y;
            }
            if (ours) {
                ++covered;
                ASSERT_EQ(GEOSCovers_r(geos.context(), grown.get(), line.get()), 1)
                    << a.x << " " << a.y << " " << b.x << " " << b.y;
            }
            ASSERT_EQ(region.covers_segment(b, a), ours);
        }
    }
    EXPECT_GT(exact, 500);
    EXPECT_GT(covered, exact);
}

double shared_length_m(const GeosSession& geos, const GeosShape& shape, const GeosShape& line) {
    const GeosShape both = geos.own(GEOSIntersection_r(geos.context(), shape.get(), line.get()));
    double length = -1.0;
    if (both) GEOSLength_r(geos.context(), both.get(), &length);
    return length;
}

TEST(Region, InsideSpansHaveTheLengthThatGeosFinds) {
    Random random(3);
    double total = 0.0;
    for (const MultiPolygon& shape : test_shapes()) {
        const Region region(shape);
        const GeosSession geos;
        const GeosShape raw = geos.shape(shape);
        const GeosShape grown = geos.shape(*buffer_shape(shape, kHair_m));
        for (int k = 0; k < 100; ++k) {
            const Point a = awkward_point(random, shape);
            const Point b = awkward_point(random, shape);
            if (a == b) continue;
            const GeosShape line = geos.line({a, b});
            double ours = 0.0;
            double before = -1.0;
            for (const Region::Span& span : region.inside_spans(a, b)) {
                ASSERT_GT(span.from_m, before);
                ASSERT_GT(span.to_m, span.from_m);
                before = span.to_m;
                ours += span.to_m - span.from_m;
            }
            ASSERT_LE(before, distance_m(a, b));
            ASSERT_GE(ours, shared_length_m(geos, raw, line) - 1e-5);
            ASSERT_LE(ours, shared_length_m(geos, grown, line) + 1e-5);
            total += ours;
        }
    }
    EXPECT_GT(total, 10000.0);
}

TEST(Region, CrossingsStandOnEdgesInOrder) {
    const Region region(
        {{rectangle(0.0, 0.0, 10.0, 10.0), {reversed(rectangle(4.0, 4.0, 6.0, 6.0))}}});
    const auto shares = region.crossings({-10.0, 5.0}, {20.0, 5.0});
    ASSERT_EQ(shares.size(), 4U);
    const double expected[] = {10.0 / 30.0, 14.0 / 30.0, 16.0 / 30.0, 20.0 / 30.0};
    for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(shares[i], expected[i], 1e-12);
    EXPECT_TRUE(region.crossings({1.0, 1.0}, {3.0, 2.0}).empty());
    EXPECT_TRUE(region.crossings({20.0, 20.0}, {30.0, 30.0}).empty());
}

TEST(Region, AllowsCornersAndEdgesButNotShortCutsThroughCorners) {
    const Region region(
        {{{{0.0, 0.0}, {10.0, 0.0}, {10.0, 10.0}, {5.0, 3.0}, {0.0, 10.0}}, {}}});  // a V cut out
    EXPECT_TRUE(region.covers_segment({0.0, 0.0}, {10.0, 0.0}));                    // along an edge
    EXPECT_TRUE(region.covers_segment({0.0, 3.0}, {10.0, 3.0}));     // touches the inner corner
    EXPECT_TRUE(region.covers_segment({5.0, 3.0}, {0.0, 0.0}));      // starts on a corner
    EXPECT_TRUE(region.covers_segment({0.0, 5.0}, {0.0, 2.0}));      // part of an edge
    EXPECT_FALSE(region.covers_segment({0.0, 10.0}, {10.0, 10.0}));  // corner to corner, outside
    EXPECT_FALSE(region.covers_segment({5.0, 0.0}, {5.0, 6.0}));     // out exactly through a corner
    EXPECT_FALSE(region.covers_segment({-1.0, 0.0}, {5.0, 0.0}));
    EXPECT_TRUE(region.covers_segment({5.0, 3.0}, {5.0, 3.0}));
    EXPECT_FALSE(region.covers_segment({5.0, 4.0}, {5.0, 4.0}));
    EXPECT_TRUE(region.covers({{1.0, 1.0}, {9.0, 1.0}, {10.0, 10.0}}));
    EXPECT_FALSE(region.covers({{1.0, 1.0}, {9.0, 1.0}, {5.0, 9.0}}));
}

// Feeding lines start at computed places on slanted fences: off by rounding, either side.
TEST(Region, ForgivesRoundingAtAnEdgeFarFromTheCentre) {
    const Point shift{23456.789, -18765.432};
    Ring ring;
    for (const Point p :
         {Point{0.0, 0.0}, Point{731.3, 113.7}, Point{655.1, 802.9}, Point{-91.7, 577.3}})
        ring.push_back(p + shift);
    const Region region({{ring, {}}});
    EXPECT_NEAR(region.tolerance_m(), 2.4e-5, 1e-6);
    const Point middle = centroid(region.shape());
    Random random(8);
    for (int k = 0; k < 500; ++k) {
        const std::size_t i = random.below(4);
        const Point on = lerp(ring[i], ring[(i + 1) % 4], random.uniform());
        const Point edge = ring[(i + 1) % 4] - ring[i];
        const Point across = Point{edge.y, -edge.x} * (1.0 / norm_m(edge));  // outwards
        const double off_m = between(random, -1e-9, 1e-9);
        ASSERT_TRUE(region.covers_segment(on + across * off_m, middle));
        ASSERT_FALSE(region.covers_segment(on + across * 0.001, middle));
        const auto spans = region.inside_spans(on + across * off_m, middle);
        ASSERT_EQ(spans.size(), 1U);
        ASSERT_EQ(spans[0].from_m, 0.0);
    }
}

TEST(Region, EmptyAndThinShapes) {
    const Region none;
    EXPECT_TRUE(none.empty());
    EXPECT_FALSE(none.contains({0.0, 0.0}));
    EXPECT_FALSE(none.covers_segment({0.0, 0.0}, {1.0, 0.0}));
    EXPECT_TRUE(none.inside_spans({0.0, 0.0}, {1.0, 0.0}).empty());
    EXPECT_TRUE(std::isinf(none.distance_to_edge_m({0.0, 0.0})));
    const Region strip({{rectangle(0.0, 0.0, 10000.0, 0.1), {}}});
    EXPECT_TRUE(strip.contains({5000.0, 0.05}));
    EXPECT_TRUE(strip.covers_segment({1.0, 0.05}, {9999.0, 0.05}));
    EXPECT_FALSE(strip.covers_segment({1.0, 0.05}, {9999.0, 0.2}));
}

}  // namespace
}  // namespace haylane
