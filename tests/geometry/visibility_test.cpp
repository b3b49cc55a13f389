// Checks against: the detour round a rectangle worked by hand (2 sqrt(17) + 2 below, 12 above), and
// a twin that relaxes all pairs of exact corners until nothing changes.
#include "core/geometry/visibility.h"

#include "core/base/random.h"
#include "core/geometry/boolean_ops.h"
#include "tests/geometry/geometry_support.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

FreeSpace big_square_without(const Ring& obstacle) {
    return FreeSpace({{rectangle(-50.0, -50.0, 50.0, 50.0), {reversed(obstacle)}}});
}

TEST(FreeSpace, GoesTheShortWayRoundARectangle) {
    const FreeSpace space = big_square_without(rectangle(4.0, -1.0, 6.0, 3.0));
    const auto way = space.way({0.0, 0.0}, {10.0, 0.0});
    ASSERT_TRUE(way.has_value());
    ASSERT_EQ(way->size(), 4U);
    EXPECT_GE(length_m(*way), 10.246211251);
    EXPECT_LE(length_m(*way), 10.246211251 + 0.02);  // corners stand a centimetre off
    EXPECT_TRUE(space.region().covers(*way));
    // With the centimetre taken off the rectangle the way turns at the exact corners.
    const double d = 0.01 / std::sqrt(2.0);
    const auto exact = big_square_without(rectangle(4.0 + d, -1.0 + d, 6.0 - d, 3.0 - d))
                           .way({0.0, 0.0}, {10.0, 0.0});
    ASSERT_TRUE(exact.has_value());
    EXPECT_NEAR(length_m(*exact), 10.246211251, 1e-9);
}

TEST(FreeSpace, TakesTheOtherSideWhenOneIsShut) {
    // A wall from the rectangle's foot to the south fence leaves the way above: 5 + 2 + 5.
    const Ring wall = {{4.0, -60.0}, {6.0, -60.0}, {6.0, 3.0}, {4.0, 3.0}};
    const auto free = subtract({{rectangle(-50.0, -50.0, 50.0, 50.0), {}}}, {{wall, {}}});
    ASSERT_TRUE(free.has_value());
    const auto way = FreeSpace(*free).way({0.0, 0.0}, {10.0, 0.0});
    ASSERT_TRUE(way.has_value());
    EXPECT_GE(length_m(*way), 12.0);
    EXPECT_LE(length_m(*way), 12.03);
}

TEST(FreeSpace, GoesStraightWhereItSees) {
    const FreeSpace space = big_square_without(rectangle(4.0, -1.0, 6.0, 3.0));
    EXPECT_EQ(*space.way({0.0, 4.0}, {10.0, 4.0}), (Polyline{{0.0, 4.0}, {10.0, 4.0}}));
    EXPECT_TRUE(space.sees({0.0, 3.0}, {10.0, 3.0}));  // along the rectangle's edge
    EXPECT_FALSE(space.sees({0.0, 2.9}, {10.0, 2.9}));
}

TEST(FreeSpace, HasNoWayToAnotherPartNorFromOutside) {
    const FreeSpace space(
        {{rectangle(0.0, 0.0, 10.0, 10.0), {}}, {rectangle(20.0, 0.0, 30.0, 10.0), {}}});
    EXPECT_FALSE(space.way({5.0, 5.0}, {25.0, 5.0}).has_value());
    EXPECT_FALSE(space.way({5.0, 5.0}, {15.0, 5.0}).has_value());
    EXPECT_FALSE(space.way({15.0, 5.0}, {5.0, 5.0}).has_value());
    EXPECT_TRUE(space.way({0.0, 0.0}, {10.0, 10.0}).has_value());  // on the corners
    EXPECT_FALSE(FreeSpace().way({0.0, 0.0}, {1.0, 0.0}).has_value());
}

TEST(FreeSpace, CornersAreTheReflexOnesWhicheverWayRingsRun) {
    const Ring ell = {{0.0, 0.0}, {10.0, 0.0}, {10.0, 4.0}, {4.0, 4.0}, {4.0, 10.0}, {0.0, 10.0}};
    for (const Ring& ring : {ell, reversed(ell)}) {
        const FreeSpace space({{ring, {rectangle(1.0, 1.0, 2.0, 2.0)}}});
        ASSERT_EQ(space.corners().size(), 5U);  // one of the L, four of the hole
        for (const Point corner : space.corners()) EXPECT_TRUE(space.region().contains(corner));
        EXPECT_NEAR(distance_m(space.corners()[0], {4.0, 4.0}), 0.01, 1e-12);
        for (const FreeSpace::Sight& sight : space.sights()) {
            EXPECT_LT(sight.a, sight.b);
            EXPECT_TRUE(space.sees(space.corners()[static_cast<std::size_t>(sight.a)],
                                   space.corners()[static_cast<std::size_t>(sight.b)]));
        }
    }
}

// Shortest way over all exact corners by relaxing every pair until nothing changes.
double twin_length_m(const Region& region, Point a, Point b) {
    std::vector<Point> places{a, b};
    for (const Polyline& ring : boundary_lines(region.shape()))
        places.insert(places.end(), ring.begin(), ring.end() - 1);
    std::vector<double> length(places.size(), std::numeric_limits<double>::infinity());
    length[0] = 0.0;
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t i = 0; i < places.size(); ++i) {
            for (std::size_t j = 0; j < places.size(); ++j) {
                const double through = length[i] + distance_m(places[i], places[j]);
                if (through >= length[j] || !region.covers_segment(places[i], places[j])) continue;
                length[j] = through;
                changed = true;
            }
        }
    }
    return length[1];
}

TEST(FreeSpace, WaysAreAsShortAsTheTwins) {
    Random random(31);
    int detours = 0;
    for (int k = 0; k < 15; ++k) {
        SCOPED_TRACE(k);
        std::vector<MultiPolygon> obstacles;
        for (int i = 0; i < 6; ++i) {
            const Point p = point_in(random, 5.0, 80.0);
            const Point size = point_in(random, 3.0, 30.0);
            obstacles.push_back({{rectangle(p.x, p.y, p.x + size.x, p.y + size.y), {}}});
        }
        const FreeSpace space(*subtract(square(100.0), *unite(obstacles)));
        for (int q = 0; q < 10; ++q) {
            const Point a = point_in(random, 0.0, 100.0);
            const Point b = point_in(random, 0.0, 100.0);
            const auto way = space.way(a, b);
            if (!space.region().contains(a) || !space.region().contains(b)) {
                EXPECT_FALSE(way.has_value());
                continue;
            }
            const double twin = twin_length_m(space.region(), a, b);
            ASSERT_EQ(way.has_value(), std::isfinite(twin));
            if (!way) continue;
            EXPECT_EQ(way->front(), a);
            EXPECT_EQ(way->back(), b);
            EXPECT_TRUE(space.region().covers(*way));
            EXPECT_GE(length_m(*way), twin - 1e-4);
            EXPECT_LE(length_m(*way), twin + 0.02 * static_cast<double>(way->size()));
            detours += way->size() > 2 ? 1 : 0;
        }
    }
    EXPECT_GT(detours, 20);
}

}  // namespace
}  // namespace haylane
