// Examples of Douglas and Peucker's method: the tutorial of a map database's manual, one recomputed
// by hand, and its own bound on seeded lines.
#include "core/geometry/simplify.h"

#include "core/base/random.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(Simplify, WorkedExamples) {
    const auto corner = simplified({{0, 0}, {5.1, 0}, {10, 0}, {10, 3}, {10, 8}, {16, 9}}, 0.2);
    ASSERT_TRUE(corner);
    EXPECT_EQ(*corner, (Polyline{{0, 0}, {10, 0}, {10, 8}, {16, 9}}));
    const auto step = simplified(
        {{0, 0}, {1, 0.1}, {2, -0.1}, {3, 5}, {4, 6}, {5, 7}, {6, 8.1}, {7, 9}, {8, 9}, {9, 9}},
        1.0);
    ASSERT_TRUE(step);
    EXPECT_EQ(*step, (Polyline{{0, 0}, {2, -0.1}, {3, 5}, {7, 9}, {9, 9}}));
}

TEST(Simplify, KeepsEndsAndTheTolerance) {
    Random random(7);
    for (int k = 0; k < 50; ++k) {
        Polyline line{{0, 0}};
        for (int i = 0; i < 200; ++i)
            line.push_back(line.back() +
                           Point{4.0 * random.uniform() - 1.0, 4.0 * random.uniform() - 2.0});
        const auto thin = simplified(line, 2.0);
        ASSERT_TRUE(thin);
        EXPECT_LT(thin->size(), line.size());
        EXPECT_EQ(thin->front(), line.front());
        EXPECT_EQ(thin->back(), line.back());
        for (const Point p : line) EXPECT_LE(distance_m(p, *thin), 2.0 + 1e-9);
    }
    EXPECT_EQ(*simplified({{1, 2}}, 1.0), (Polyline{{1, 2}}));
    EXPECT_TRUE(simplified({}, 1.0)->empty());
}

}  // namespace
}  // namespace haylane
