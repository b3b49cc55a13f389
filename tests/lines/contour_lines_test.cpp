// Checks lines along contours on surfaces whose contours are known, with the slow judge of
// tests/support for every rule. Off the surface's own contour a smoothed line may stray a little.
#include "core/lines/contour_lines.h"

#include "core/base/units.h"
#include "core/lines/drivable.h"
#include "tests/lines/grounds.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

using test::ground_of;
using test::square_map;

LineRequest request_for(double radius_m) {
    LineRequest request;
    request.loads = {{1, 80}, {1, 80}, {1, 80}};
    request.line_radius_m = radius_m;
    return request;
}

std::vector<Candidate> contour_candidates(const FeedableGround& ground, const LineRequest& request,
                                          int wanted) {
    const CurveFamily curves = contour_curves(ground, request.line_radius_m, request.spacing_m);
    return candidates_on(curves, request, wanted);
}

// Those that the judge of lines passes, all looked at by the slow judge.
std::vector<Candidate> sound_ones(const test::RawMap& map, const LineRequest& request, int wanted) {
    const FeedableGround ground = ground_of(map, *map.terrain);
    std::vector<Candidate> all = contour_candidates(ground, request, wanted);
    const std::size_t made = all.size();
    std::erase_if(all, [&](const Candidate& candidate) {
        return std::any_of(
            candidate.lines.begin(), candidate.lines.end(), [&](const CandidateLine& line) {
                return !line_faults(ground, line, {80, request.line_radius_m, {}, 60}).empty();
            });
    });
    EXPECT_GE(10 * all.size(), 9 * made);
    for (const Candidate& candidate : all) {
        EXPECT_EQ(candidate.family, LineFamily::contour);
        EXPECT_EQ(test::broken_rule(map, request, candidate), "");
    }
    return all;
}

// Greatest rise or fall along any line, on the surface itself.
template <class Height>
double most_climb_m(const std::vector<Candidate>& found, Height height_m) {
    double most = 0.0;
    for (const Candidate& candidate : found) {
        for (const CandidateLine& line : candidate.lines) {
            double low = 1e9;
            double high = -1e9;
            for (const Point p : line.path) {
                low = std::min(low, height_m(p));
                high = std::max(high, height_m(p));
            }
            most = std::max(most, high - low);
        }
    }
    return most;
}

TEST(ContourLines, LieLevelOnAnEvenSlopeAndASpacingApart) {
    test::RawMap map = square_map(400);
    const auto height = [](Point p) { return 0.04 * p.x + 0.03 * p.y; };
    const Terrain terrain = test::terrain_over(box_of(map.pasture), height);
    map.terrain = &terrain;
    const auto found = sound_ones(map, request_for(15), 200);
    EXPECT_GE(found.size(), 100U);
    EXPECT_LT(most_climb_m(found, height), 0.02);
    int beside = 0;
    for (const Candidate& candidate : found) {
        ASSERT_EQ(candidate.lines.size(), 3U);
        const Point a = candidate.lines[0].path.front();
        const Point b = candidate.lines[2].path.front();
        const double across = std::abs(height(a) - height(b)) / 0.05;
        if (across < 1.0) continue;  // end to end
        EXPECT_NEAR(std::remainder(across, 12.0), 0.0, 0.3);
        ++beside;
    }
    EXPECT_GT(beside, 20);
}

// A round hill, 12 % at its steepest: contours of 65 m radius and more may be driven at 46.
TEST(ContourLines, GoRoundAHill) {
    test::RawMap map = square_map(600);
    const auto height = [](Point p) {
        const double away = distance_m(p, {300, 300}) / 120.0;
        return 16.0 * std::exp(-away * away / 2.0);
    };
    const Terrain terrain = test::terrain_over(box_of(map.pasture), height);
    map.terrain = &terrain;
    for (const double radius : {8.0, 46.0}) {
        const auto found = sound_ones(map, request_for(radius), 300);
        EXPECT_GE(found.size(), 100U) << radius;
        EXPECT_LT(most_climb_m(found, height), 0.3) << radius;
        double nearest = 1e9;
        for (const Candidate& candidate : found)
            for (const CandidateLine& line : candidate.lines)
                for (const Point p : line.path)
                    nearest = std::min(nearest, distance_m(p, {300, 300}));
        // Close to the tightest circle, but not within it, nor where it is level (below 1 %).
        EXPECT_GT(nearest, 0.98 * radius);
        EXPECT_LT(nearest, radius + 20.0);
    }
}

// A draw 3 m deep down a 5 % slope; its sides fall 6 % more.
TEST(ContourLines, RoundOffADraw) {
    test::RawMap map = square_map(500);
    const auto height = [](Point p) {
        return 0.05 * p.y + std::min(3.0, 0.06 * std::abs(p.x - 250.0));
    };
    const Terrain terrain = test::terrain_over(box_of(map.pasture), height);
    map.terrain = &terrain;
    const LineRequest request = request_for(20);
    const auto found = sound_ones(map, request, 400);
    EXPECT_GE(found.size(), 100U);
    // They cross the draw rather than stop at it, and bend there about as much as they may.
    double sharpest = 0.0;
    int across = 0;
    for (const Candidate& candidate : found) {
        for (const CandidateLine& line : candidate.lines) {
            sharpest = std::max(sharpest, test::sharpest_turn_per_m(line.path, 2.0));
            const Box box = box_of(line.path);
            if (box.min_x < 245.0 && box.max_x > 255.0) ++across;
        }
    }
    EXPECT_GT(across, 20);
    EXPECT_GT(sharpest * 20.0, 0.5);
    // A Gaussian of 22 m fills the bottom of this draw by 0.06 * 22 m * sqrt(2 / pi) = 1.05 m and
    // takes half of that off its shoulders; a line may meet both.
    EXPECT_LT(most_climb_m(found, height), 1.05 + 0.53 + 0.1);
}

TEST(ContourLines, AreNoneOnLevelOrUnknownGround) {
    test::RawMap map = square_map(400);
    const LineRequest request = request_for(15);
    const Terrain unknown;
    EXPECT_TRUE(contour_candidates(ground_of(map, unknown), request, 100).empty());
    const Box box = box_of(map.pasture);
    const Terrain level = test::terrain_over(box, [](Point) { return 300.0; });
    EXPECT_TRUE(contour_candidates(ground_of(map, level), request, 100).empty());
    const Terrain rough = test::terrain_over(
        box, [](Point p) { return 0.05 * std::sin(p.x / 7.0) * std::cos(p.y / 9.0); });
    EXPECT_TRUE(contour_candidates(ground_of(map, rough), request, 100).empty());
    const Terrain steep = test::terrain_over(box, [](Point p) { return 0.2 * p.x; });
    EXPECT_TRUE(contour_candidates(ground_of(map, steep), request, 100).empty());
    const Terrain elsewhere = test::terrain_over(box_of(test::rectangle(2000, 0, 2100, 100)),
                                                 [](Point p) { return 0.05 * p.x; });
    EXPECT_TRUE(contour_candidates(ground_of(map, elsewhere), request, 100).empty());
}

// Terrain known on the west half only: lines stay where it is known, or within its smoothing.
TEST(ContourLines, StopWhereTheTerrainIsNotKnown) {
    test::RawMap map = square_map(600);
    const Terrain terrain = test::terrain_over(box_of(test::rectangle(0, 0, 250, 600)),
                                               [](Point p) { return 0.05 * p.y; });
    map.terrain = &terrain;
    const auto found = sound_ones(map, request_for(15), 200);
    ASSERT_FALSE(found.empty());
    for (const Candidate& candidate : found)
        for (const CandidateLine& line : candidate.lines)
            for (const Point p : line.path) EXPECT_LT(p.x, 305.0);
}

TEST(ContourLines, ShareTheCurvedPlacesWithTheBoundary) {
    test::RawMap map = square_map(500);
    const Terrain hill = test::terrain_over(box_of(map.pasture), [](Point p) {
        return 10.0 * std::sin(p.x / 110.0) * std::sin(p.y / 130.0);
    });
    LineRequest request = request_for(15);
    request.max_candidates = 400;
    const auto count = [&](const Terrain& terrain, LineFamily family) {
        const auto found = candidate_lines(ground_of(map, terrain), request);
        EXPECT_EQ(found.size(), 400U);
        return std::count_if(found.begin(), found.end(), [&](const Candidate& candidate) {
            return candidate.family == family;
        });
    };
    EXPECT_EQ(count(hill, LineFamily::contour), 50);
    EXPECT_EQ(count(hill, LineFamily::boundary), 50);
    const Terrain unknown;
    EXPECT_EQ(count(unknown, LineFamily::contour), 0);
    EXPECT_EQ(count(unknown, LineFamily::boundary), 100);
    request.line_radius_m = 0.0;
    EXPECT_EQ(count(hill, LineFamily::straight), 400);
}

}  // namespace
}  // namespace haylane
