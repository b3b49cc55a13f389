// Cutting, joining and snapping of areas, on squares whose parts are known from plane geometry.
#include "core/geometry/snap.h"
#include "core/geometry/split_shape.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

MultiPolygon square(double x, double y, double side) {
    return {{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}}, {}}};
}

TEST(SplitShape, CutsFromFenceToFence) {
    const auto parts = split_shape(square(0, 0, 100), {{30, -10}, {30, 110}});
    ASSERT_TRUE(parts) << parts.error().what;
    ASSERT_EQ(parts->size(), 2U);
    EXPECT_NEAR(area_m2((*parts)[0]), 7000.0, 1e-6);
    EXPECT_NEAR(area_m2((*parts)[1]), 3000.0, 1e-6);
    const auto to_the_fence = split_shape(square(0, 0, 100), {{30, 0.4}, {30, 100}});
    ASSERT_TRUE(to_the_fence);
    EXPECT_EQ(to_the_fence->size(), 2U);
}

TEST(SplitShape, KeepsHolesAndCutsThroughThem) {
    MultiPolygon shape = square(0, 0, 100);
    shape[0].holes.push_back({{40, 40}, {40, 60}, {60, 60}, {60, 40}});
    const auto beside = split_shape(shape, {{20, 0}, {20, 100}});
    ASSERT_TRUE(beside);
    ASSERT_EQ(beside->size(), 2U);
    EXPECT_NEAR(area_m2((*beside)[0]), 8000.0 - 400.0, 1e-6);
    EXPECT_EQ((*beside)[0][0].holes.size(), 1U);
    const auto through = split_shape(shape, {{50, -1}, {50, 101}});
    ASSERT_TRUE(through);
    ASSERT_EQ(through->size(), 2U);
    EXPECT_NEAR(area_m2((*through)[0]), 4800.0, 1e-6);
    EXPECT_NEAR(area_m2((*through)[1]), 4800.0, 1e-6);
}

TEST(SplitShape, RefusesALineThatEndsInside) {
    for (const Polyline& line : {Polyline{{50, -10}, {50, 50}}, Polyline{{200, 0}, {200, 100}},
                                 Polyline{{10, 10}, {20, 20}}, Polyline{{5, 5}}}) {
        const auto parts = split_shape(square(0, 0, 100), line);
        ASSERT_FALSE(parts);
        EXPECT_EQ(parts.error().code, "not_cut");
    }
}

TEST(JoinShapes, JoinsNeighboursAndRefusesOthers) {
    const auto joined = join_shapes({square(0, 0, 100), square(100, 0, 100)});
    ASSERT_TRUE(joined);
    EXPECT_NEAR(area_m2(*joined), 20000.0, 1e-6);
    for (const MultiPolygon& other : {square(150, 0, 100), square(100, 100, 50)}) {
        const auto apart = join_shapes({square(0, 0, 100), other});  // apart; touching at a corner
        ASSERT_FALSE(apart);
        EXPECT_EQ(apart.error().code, "not_touching");
    }
}

TEST(SplitShape, PartsJoinToWhatTheyWere) {
    const auto parts = split_shape(square(0, 0, 100), {{-5, 20}, {40, 60}, {105, 30}});
    ASSERT_TRUE(parts);
    const auto again = join_shapes(*parts);
    ASSERT_TRUE(again);
    EXPECT_NEAR(area_m2(*again), 10000.0, 1e-6);
}

TEST(Snapped, TakesACornerBeforeAFence) {
    const MultiPolyline fences = boundary_lines(square(0, 0, 100));
    EXPECT_EQ(snapped({98, 97}, fences, 5.0), (Point{100, 100}));
    EXPECT_EQ(snapped({50, 3}, fences, 5.0), (Point{50, 0}));
    EXPECT_EQ(snapped({50, 50}, fences, 5.0), (Point{50, 50}));
    EXPECT_EQ(snapped({1, 50}, {}, 5.0), (Point{1, 50}));
}

}  // namespace
}  // namespace haylane
