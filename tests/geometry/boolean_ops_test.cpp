// Checks against hand-worked areas, set identities, and true distances sampled around buffers.
#include "core/geometry/boolean_ops.h"

#include "core/base/random.h"
#include "core/geometry/region.h"
#include "tests/geometry/geometry_support.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

void expect_tidy(const MultiPolygon& shape) {
    for (const Polygon& polygon : shape) {
        EXPECT_GT(ring_area_m2(polygon.outer), 0.0);
        EXPECT_NE(polygon.outer.front(), polygon.outer.back());
        for (const Ring& hole : polygon.holes) EXPECT_LT(ring_area_m2(hole), 0.0);
    }
}

Repaired repaired(const MultiPolygon& shape) {
    auto result = make_valid(shape);
    EXPECT_TRUE(result.has_value());
    if (!result) return {};
    expect_tidy(result->shape);
    return *result;
}

TEST(MakeValid, KeepsBothHalvesOfABowTie) {
    const Repaired tie = repaired({{{{0.0, 0.0}, {10.0, 8.0}, {10.0, 0.0}, {0.0, 8.0}}, {}}});
    EXPECT_TRUE(tie.changed);
    EXPECT_NEAR(area_m2(tie.shape), 40.0, 1e-9);  // two triangles, base 8, height 5
    EXPECT_NEAR(tie.area_change_m2, 0.0, 1e-9);
}

TEST(MakeValid, LeavesAGoodShapeAloneButOrdersItsRings) {
    const Ring hole = rectangle(2.0, 2.0, 4.0, 4.0);
    const Repaired plain = repaired({{reversed(rectangle(0.0, 0.0, 10.0, 10.0)), {hole}}});
    EXPECT_FALSE(plain.changed);
    EXPECT_EQ(plain.area_change_m2, 0.0);
    EXPECT_DOUBLE_EQ(area_m2(plain.shape), 96.0);
}

TEST(MakeValid, DropsRepeatedPoints) {
    Ring thrice;
    for (const Point p : rectangle(0.0, 0.0, 10.0, 10.0)) thrice.insert(thrice.end(), 3, p);
    const Repaired box = repaired({{thrice, {}}});
    ASSERT_EQ(box.shape.size(), 1U);
    EXPECT_EQ(box.shape[0].outer.size(), 4U);
    EXPECT_DOUBLE_EQ(area_m2(box.shape), 100.0);
}

TEST(MakeValid, CutsOffASpikeOfNoWidth) {
    const Repaired box = repaired({{{{0.0, 0.0},
                                     {10.0, 0.0},
                                     {10.0, 10.0},
                                     {5.0, 10.0},
                                     {5.0, 70.0},
                                     {5.0, 10.0},
                                     {0.0, 10.0}},
                                    {}}});
    EXPECT_TRUE(box.changed);
    EXPECT_NEAR(area_m2(box.shape), 100.0, 1e-9);
    EXPECT_LE(box_of(box.shape).max_y, 10.0);
    EXPECT_NEAR(box.area_change_m2, 0.0, 1e-9);
}

TEST(MakeValid, TakesAHoleThatCrossesTheShellOff) {
    const Repaired bitten =
        repaired({{rectangle(0.0, 0.0, 10.0, 7.0), {rectangle(8.0, 2.0, 12.0, 4.0)}}});
    EXPECT_TRUE(bitten.changed);
    EXPECT_NEAR(area_m2(bitten.shape), 70.0 - 4.0, 1e-9);
    EXPECT_NEAR(bitten.area_change_m2, -4.0, 1e-9);  // even-odd counted the part outside
}

TEST(MakeValid, MergesOverlappingHolesAndParts) {
    const Repaired holes =
        repaired({{rectangle(0.0, 0.0, 10.0, 10.0),
                   {rectangle(1.0, 1.0, 5.0, 5.0), rectangle(3.0, 3.0, 7.0, 7.0)}}});
    EXPECT_NEAR(area_m2(holes.shape), 100.0 - (16.0 + 16.0 - 4.0), 1e-9);
    const Repaired parts =
        repaired({{rectangle(0.0, 0.0, 10.0, 10.0), {}}, {rectangle(5.0, 0.0, 15.0, 10.0), {}}});
    EXPECT_NEAR(area_m2(parts.shape), 150.0, 1e-9);
}

TEST(MakeValid, GivesNothingForShapesWithoutArea) {
    EXPECT_TRUE(repaired({}).shape.empty());
    EXPECT_TRUE(repaired({{{{0.0, 0.0}, {5.0, 5.0}}, {}}}).shape.empty());
    EXPECT_TRUE(repaired({{{{0.0, 0.0}, {5.0, 0.0}, {9.0, 0.0}}, {}}}).shape.empty());
    EXPECT_TRUE(repaired({{{{0.0, 0.0}, {5.0, 5.0}}, {}}}).changed);
    const Ring same = rectangle(0.0, 0.0, 3.0, 3.0);
    EXPECT_TRUE(repaired({{same, {same}}}).shape.empty());
}

TEST(MakeValid, RefusesWhatIsNotANumber) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const auto result = make_valid({{{{0.0, 0.0}, {nan, 0.0}, {9.0, 9.0}}, {}}});
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, "coordinates_not_finite");
    EXPECT_FALSE(result.error().remedy.empty());
}

TEST(MakeValid, RepairsRandomCrossingRings) {
    Random random(101);
    for (int k = 0; k < 200; ++k) {
        const Repaired once = repaired({{lattice_ring(random, 9, 15), {}}});
        const Repaired twice = repaired(once.shape);
        EXPECT_FALSE(twice.changed) << k;
        EXPECT_NEAR(area_m2(twice.shape), area_m2(once.shape), 1e-9);
    }
}

TEST(Overlay, HandWorkedSquares) {
    const MultiPolygon a = square(10.0);
    const MultiPolygon b = {{rectangle(6.0, 6.0, 16.0, 16.0), {}}};
    EXPECT_NEAR(area_m2(*intersect(a, b)), 16.0, 1e-9);
    EXPECT_NEAR(area_m2(*unite({a, b})), 184.0, 1e-9);
    EXPECT_NEAR(area_m2(*subtract(a, b)), 84.0, 1e-9);
    const MultiPolygon room = {{rectangle(2.0, 2.0, 4.0, 4.0), {}}};
    const auto hollow = subtract(a, room);
    ASSERT_TRUE(hollow.has_value());
    expect_tidy(*hollow);
    ASSERT_EQ(hollow->size(), 1U);
    EXPECT_EQ(hollow->front().holes.size(), 1U);
}

TEST(Overlay, TouchingAndEmptyShapesAreLegal) {
    const MultiPolygon a = square(10.0);
    const MultiPolygon beside = {{rectangle(10.0, 0.0, 20.0, 10.0), {}}};
    EXPECT_TRUE(intersect(a, beside)->empty());  // an edge has no area
    EXPECT_EQ(unite({a, beside})->size(), 1U);
    EXPECT_TRUE(intersect(a, {})->empty());
    EXPECT_TRUE(subtract({}, a)->empty());
    EXPECT_NEAR(area_m2(*subtract(a, {})), 100.0, 1e-12);
    EXPECT_TRUE(unite({})->empty());
    EXPECT_TRUE(buffer_shape({}, 3.0)->empty());
    EXPECT_TRUE(erode({}, 3.0)->empty());
    EXPECT_TRUE(buffer_line({}, 3.0)->empty());
    EXPECT_TRUE(clip_line({{0.0, 0.0}, {1.0, 0.0}}, {})->empty());
}

TEST(Overlay, AreasAddUpOnRandomShapes) {
    Random random(102);
    for (int k = 0; k < 60; ++k) {
        const MultiPolygon a = repaired({{lattice_ring(random, 9, 15), {}}}).shape;
        const MultiPolygon b = repaired({{lattice_ring(random, 9, 15), {}}}).shape;
        const double both = area_m2(*intersect(a, b));
        EXPECT_NEAR(area_m2(*unite({a, b})), area_m2(a) + area_m2(b) - both, 1e-8) << k;
        EXPECT_NEAR(area_m2(*subtract(a, b)), area_m2(a) - both, 1e-8) << k;
    }
}

// Every point nearer than the distance is in the buffer; none of the buffer is more than the
// enlarging and GEOS's simplifying of the source line (1 % of the distance) further.
void expect_buffer_holds(const MultiPolygon& buffer, const MultiPolyline& source, double distance) {
    expect_tidy(buffer);
    const Region region(buffer);
    Random random(9);
    for (const Polyline& line : source) {
        for (const Point p : densified(line, distance / 7.0)) {
            const Point way = along_azimuth(between(random, 0.0, 6.3));
            ASSERT_TRUE(region.contains(p + way * (distance * (1.0 - 1e-9))));
            ASSERT_TRUE(region.contains(p + way * between(random, 0.0, distance * (1.0 - 1e-9))));
        }
        for (const Point p : line)  // all round the corners
            for (int i = 0; i < 720; ++i)
                ASSERT_TRUE(
                    region.contains(p + along_azimuth(i * 0.00873) * (distance * (1.0 - 1e-9))));
    }
}

double greatest_distance_m(const MultiPolygon& buffer, const MultiPolyline& source) {
    double greatest = 0.0;
    for (const Polyline& ring : boundary_lines(buffer)) {
        for (const Point p : ring) {
            double least = std::numeric_limits<double>::infinity();
            for (const Polyline& line : source) least = std::min(least, distance_m(p, line));
            greatest = std::max(greatest, least);
        }
    }
    return greatest;
}

TEST(Buffer, ContainsTheExactBuffer) {
    Random random(103);
    for (int k = 0; k < 20; ++k) {
        SCOPED_TRACE(k);
        const double distance = between(random, 1.0, 30.0);
        const MultiPolygon shape = repaired(jagged_shape(random)).shape;
        const MultiPolygon buffer = *buffer_shape(shape, distance);
        expect_buffer_holds(buffer, boundary_lines(shape), distance);
        EXPECT_NEAR(area_m2(*subtract(shape, buffer)), 0.0, 1e-9);
        EXPECT_LE(greatest_distance_m(buffer, boundary_lines(shape)), 1.0125 * distance);
        const Polyline line = star_ring(random, {0.0, 0.0}, 10.0, 60.0, 14);
        expect_buffer_holds(*buffer_line(line, distance), {line}, distance);
        EXPECT_LE(greatest_distance_m(*buffer_line(line, distance), {line}), 1.0125 * distance);
    }
}

TEST(Buffer, OfAPointIsJustOutsideTheCircle) {
    const Point p{2500.0, -700.0};
    const MultiPolygon disc = *buffer_point(p, 30.0);
    expect_buffer_holds(disc, {{p}}, 30.0);
    EXPECT_LE(greatest_distance_m(disc, {{p}}), 30.0 * 1.00122);  // 1 / cos(pi / 64)
    EXPECT_EQ(area_m2(*buffer_line({p}, 30.0)), area_m2(disc));
}

TEST(Erode, KeepsTheDistanceFromEveryEdge) {
    Random random(104);
    int kept = 0;
    for (int k = 0; k < 30; ++k) {
        SCOPED_TRACE(k);
        const double distance = between(random, 1.0, 12.0);
        const MultiPolygon shape = repaired(jagged_shape(random)).shape;
        const MultiPolygon inner = *erode(shape, distance);
        expect_tidy(inner);
        const Region outer(shape);
        for (const Polyline& ring : boundary_lines(inner)) {
            for (const Point p : densified(ring, 0.5)) {
                ASSERT_TRUE(outer.contains(p));
                ASSERT_GE(outer.distance_to_edge_m(p), distance);
            }
        }
        const Region region(inner);
        for (int i = 0; i < 400; ++i) {
            const Point p = point_in(random, -100.0, 100.0);
            if (!outer.contains(p) || outer.distance_to_edge_m(p) < 1.02 * distance) continue;
            ASSERT_TRUE(region.contains(p));
            ++kept;
        }
    }
    EXPECT_GT(kept, 1000);
    EXPECT_TRUE(erode(square(10.0), 5.1)->empty());
    // 10 less 1 m a side, the distance enlarged by 1 / cos(pi / 64).
    EXPECT_NEAR(area_m2(*erode(square(10.0), 1.0)), 64.0, 64.0 * 0.001);
}

TEST(ClipLine, CutsByAnLShapeInOrder) {
    const MultiPolygon ell = {
        {{{0.0, 0.0}, {10.0, 0.0}, {10.0, 4.0}, {4.0, 4.0}, {4.0, 10.0}, {0.0, 10.0}}, {}}};
    const Polyline line = {{-2.0, 8.0}, {8.0, 8.0}, {8.0, -2.0}};
    const MultiPolyline pieces = *clip_line(line, ell);
    ASSERT_EQ(pieces.size(), 2U);
    EXPECT_NEAR(distance_m(pieces[0].front(), {0.0, 8.0}), 0.0, 1e-9);
    EXPECT_NEAR(distance_m(pieces[0].back(), {4.0, 8.0}), 0.0, 1e-9);
    EXPECT_NEAR(distance_m(pieces[1].front(), {8.0, 4.0}), 0.0, 1e-9);
    EXPECT_NEAR(distance_m(pieces[1].back(), {8.0, 0.0}), 0.0, 1e-9);
    const MultiPolyline back = *clip_line(reversed(line), ell);
    ASSERT_EQ(back.size(), 2U);
    EXPECT_NEAR(distance_m(back[0].front(), {8.0, 0.0}), 0.0, 1e-9);
}

TEST(ClipLine, SkipsAHoleAndShortPieces) {
    const MultiPolygon shape = {
        {rectangle(0.0, 0.0, 20.0, 10.0), {reversed(rectangle(3.0, 3.0, 8.0, 7.0))}}};
    const Polyline line = {{0.0, 5.0}, {12.0, 5.0}, {20.0, 5.0}};
    const MultiPolyline all = *clip_line(line, shape);
    ASSERT_EQ(all.size(), 2U);
    EXPECT_NEAR(length_m(all[0]), 3.0, 1e-9);
    EXPECT_NEAR(length_m(all[1]), 12.0, 1e-9);
    EXPECT_EQ(all[1].size(), 3U);  // goes on through its own vertex
    const MultiPolyline long_ones = *clip_line(line, shape, 5.0);
    ASSERT_EQ(long_ones.size(), 1U);
    EXPECT_NEAR(length_m(long_ones[0]), 12.0, 1e-9);
}

TEST(ClipLine, KeepsACrossingLineInOnePiece) {
    const Polyline loop = {{1.0, 1.0}, {9.0, 9.0}, {9.0, 1.0}, {1.0, 9.0}};
    const MultiPolyline pieces = *clip_line(loop, square(10.0));
    ASSERT_EQ(pieces.size(), 1U);
    EXPECT_EQ(pieces[0], loop);
}

double clipped_length_m(const Polyline& line, const MultiPolygon& shape) {
    const MultiPolyline pieces = *clip_line(line, shape);
    double sum = 0.0;
    for (const Polyline& piece : pieces) sum += length_m(piece);
    return sum;
}

TEST(ClipLine, LosesNoLengthOnRandomShapes) {
    Random random(105);
    for (int k = 0; k < 60; ++k) {
        const MultiPolygon shape = repaired(jagged_shape(random)).shape;
        const MultiPolygon rest = *subtract({{rectangle(-200.0, -200.0, 200.0, 200.0), {}}}, shape);
        const Polyline line = star_ring(random, {10.0, 0.0}, 5.0, 120.0, 9);
        EXPECT_NEAR(clipped_length_m(line, shape) + clipped_length_m(line, rest), length_m(line),
                    1e-5)
            << k;
    }
}

TEST(DistanceToShape, IsZeroInsideAndTrueOutside) {
    const MultiPolygon shape = {
        {rectangle(0.0, 0.0, 10.0, 10.0), {reversed(rectangle(2.0, 2.0, 8.0, 8.0))}}};
    EXPECT_EQ(distance_to_shape_m({1.0, 1.0}, shape), 0.0);
    EXPECT_DOUBLE_EQ(distance_to_shape_m({5.0, 6.0}, shape), 2.0);  // in the hole
    EXPECT_DOUBLE_EQ(distance_to_shape_m({13.0, 14.0}, shape), 5.0);
    EXPECT_TRUE(std::isinf(distance_to_shape_m({0.0, 0.0}, {})));
}

}  // namespace
}  // namespace haylane
