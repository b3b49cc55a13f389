// Against worked examples from outside the project, and by what the contract promises on wandering
// lines.
#include "core/geometry/simplify.h"

#include "core/base/random.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// The example of common documentation of the method.
TEST(Simplified, DocumentedExample) {
    const Polyline line{{0, 0}, {5.1, 0}, {10, 0}, {10, 3}, {10, 8}, {16, 9}};
    EXPECT_EQ(simplified(line, 0.2), (Polyline{{0, 0}, {10, 0}, {10, 8}, {16, 9}}));
}

// Teaching example of the method, recomputed with a separate recursive program.
TEST(Simplified, TeachingExample) {
    const Polyline line{{0, 0}, {1, 0.1}, {2, -0.1}, {3, 5}, {4, 6},
                        {5, 7}, {6, 8.1}, {7, 9},    {8, 9}, {9, 9}};
    EXPECT_EQ(simplified(line, 1.0), (Polyline{{0, 0}, {2, -0.1}, {3, 5}, {7, 9}, {9, 9}}));
}

TEST(Simplified, EndsRepeatsAndTurningPlaces) {
    EXPECT_TRUE(simplified({}, 1.0).empty());
    EXPECT_EQ(simplified({{1, 2}}, 1.0), (Polyline{{1, 2}}));
    EXPECT_EQ(simplified({{0, 0}, {5, 0}, {10, 0}}, 0.0), (Polyline{{0, 0}, {10, 0}}));
    EXPECT_EQ(simplified({{0, 0}, {0, 0}, {0, 0}}, 1.0), (Polyline{{0, 0}, {0, 0}}));
    // Past the end and back: the turning place lies on the endless line through both ends.
    EXPECT_EQ(simplified({{0, 0}, {50, 0}, {10, 0}}, 1.0), (Polyline{{0, 0}, {50, 0}, {10, 0}}));
    // Round to where it began.
    EXPECT_EQ(simplified({{0, 0}, {9, 0}, {9, 9}, {0, 0}}, 1.0),
              (Polyline{{0, 0}, {9, 0}, {9, 9}, {0, 0}}));
}

// Each point left out is within the tolerance of the segment that passes it; what is kept is the
// line's own, in order.
TEST(Simplified, KeepsWithinTheToleranceOnWanderingLines) {
    Random random(1973);
    for (int round = 0; round < 200; ++round) {
        Polyline line{{0, 0}};
        double heading = 0.0;
        for (int i = 0; i < 300; ++i) {
            heading += random.uniform() - 0.5;
            line.push_back(line.back() + Point{std::cos(heading), std::sin(heading)});
        }
        const double tolerance_m = 0.1 + 5.0 * random.uniform();
        const Polyline thin = simplified(line, tolerance_m);
        ASSERT_GE(thin.size(), 2U);
        ASSERT_EQ(thin.front(), line.front());
        ASSERT_EQ(thin.back(), line.back());
        std::size_t next = 1;
        for (const Point p : line) {
            if (next + 1 < thin.size() && p == thin[next]) ++next;
            const Point near = nearest_on_segment(p, thin[next - 1], thin[next]);
            ASSERT_LE(distance_m(p, near), tolerance_m + 1e-9);
        }
        EXPECT_EQ(next + 1, thin.size()) << "a point that the line does not have";
    }
}

// A spiral nests as deep as it has points.
TEST(Simplified, ALongSpiralDoesNotRunOutOfStack) {
    Polyline line;
    for (int i = 0; i < 5000; ++i) {
        const double turn = 0.05 * i;
        line.push_back({turn * std::cos(turn), turn * std::sin(turn)});
    }
    const Polyline thin = simplified(line, 1.0);
    EXPECT_LT(thin.size(), line.size());
    EXPECT_NEAR(length_m(thin) / length_m(line), 1.0, 0.01);
}

// The example of the PostGIS manual (ST_SimplifyVW). Areas one by one, by hand: 21, 1.5, 15;
// without (6, 20): 29, 55.5; without (3, 8): 49.5.
TEST(SimplifiedByArea, DocumentedExample) {
    const Polyline line{{5, 2}, {3, 8}, {6, 20}, {7, 25}, {10, 10}};
    EXPECT_EQ(simplified_by_area(line, 30.0), (Polyline{{5, 2}, {7, 25}, {10, 10}}));
    EXPECT_EQ(simplified_by_area(line, 28.9), (Polyline{{5, 2}, {3, 8}, {7, 25}, {10, 10}}));
    EXPECT_EQ(simplified_by_area(line, 49.5), (Polyline{{5, 2}, {10, 10}}));
    EXPECT_EQ(simplified_by_area(line, 1.4), line);
}

TEST(SimplifiedByArea, EndsRepeatsAndRoundTrips) {
    EXPECT_TRUE(simplified_by_area({}, 1.0).empty());
    EXPECT_EQ(simplified_by_area({{1, 2}}, 1.0), (Polyline{{1, 2}}));
    EXPECT_EQ(simplified_by_area({{0, 0}, {5, 0}, {10, 0}}, 0.0), (Polyline{{0, 0}, {10, 0}}));
    EXPECT_EQ(simplified_by_area({{0, 0}, {0, 0}, {0, 0}}, 0.0), (Polyline{{0, 0}, {0, 0}}));
    EXPECT_EQ(simplified_by_area({{0, 0}, {9, 0}, {9, 9}, {0, 0}}, 40.0),
              (Polyline{{0, 0}, {9, 0}, {9, 9}, {0, 0}}));
}

// The definition, looking through all points for the least triangle each time.
Polyline by_area_slowly(Polyline line, double area_m2) {
    while (line.size() > 2) {
        std::size_t least = 0;
        double least_m2 = std::numeric_limits<double>::infinity();
        for (std::size_t i = 1; i + 1 < line.size(); ++i) {
            const double area = 0.5 * std::abs(cross(line[i - 1] - line[i], line[i + 1] - line[i]));
            if (area >= least_m2) continue;
            least_m2 = area;
            least = i;
        }
        if (least_m2 > area_m2) break;
        line.erase(line.begin() + static_cast<std::ptrdiff_t>(least));
    }
    return line;
}

TEST(SimplifiedByArea, IsTheDefinitionOnWanderingLines) {
    Random random(1993);
    for (int round = 0; round < 100; ++round) {
        Polyline line{{0, 0}};
        double heading = 0.0;
        for (int i = 0; i < 200; ++i) {
            heading += random.uniform() - 0.5;
            line.push_back(line.back() + Point{std::cos(heading), std::sin(heading)});
        }
        const double area_m2 = 10.0 * random.uniform();
        ASSERT_EQ(simplified_by_area(line, area_m2), by_area_slowly(line, area_m2));
    }
}

// A metre apart, 50 m there and back on an unsteady line: every triangle of it is small.
TEST(SimplifiedByArea, TheTipOfAWayThereAndBackStaysIfAsked) {
    Random random(5);
    Polyline line;
    for (int i = 0; i <= 50; ++i) line.push_back({0.5 * random.uniform(), 1.0 * i});
    for (int i = 50; i >= 0; --i) line.push_back({0.5 * random.uniform(), 1.0 * i});
    EXPECT_LT(box_of(simplified_by_area(line, 0.5)).max_y, 45.0);
    const Polyline kept = simplified_by_area(line, 0.5, 0.5);
    EXPECT_GT(box_of(kept).max_y, 49.5);
    EXPECT_LT(kept.size(), line.size() / 2);
}

}  // namespace
}  // namespace haylane
