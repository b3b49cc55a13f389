// Checks the rules of ways between lines: on ground that may be driven, forward only, no sharper
// than the rig turns, off hay laid before. That the ways are Dubins' is checked in tests/geometry.
#include "core/lines/joins.h"

#include "core/base/units.h"
#include "tests/lines/grounds.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

using test::joins;

CandidateLine straight(Point from, Point to, int load = 0) {
    return {{from, to}, false, distance_m(from, to), load, 1};
}

Region box(double x0, double y0, double x1, double y1) {
    return Region({{test::rectangle(x0, y0, x1, y1), {}}});
}

double heading(Point a, Point b) { return std::atan2(b.y - a.y, b.x - a.x); }

// The tangent is continuous and curvature is 0 or 1/R: at each vertex a path of arcs and straights
// turns by half the angle of the chord before plus half that of the chord after, each to the left,
// to the right or not at all. The lines' ends count as straight.
std::string broken_driving(const Polyline& before, const Polyline& way, const Polyline& after,
                           double radius_m) {
    Polyline all{before[before.size() - 2]};
    all.insert(all.end(), way.begin(), way.end());
    all.push_back(after[1]);
    for (std::size_t i = 1; i + 1 < all.size(); ++i) {
        const double turn = std::remainder(
            heading(all[i], all[i + 1]) - heading(all[i - 1], all[i]), 2.0 * units::kPi);
        const auto half_angle = [&](std::size_t k) {  // of the chord from vertex k
            const bool of_line = k == 0 || k + 2 == all.size();
            return of_line ? 0.0 : std::asin(distance_m(all[k], all[k + 1]) / (2.0 * radius_m));
        };
        double off = 1e9;
        for (const double a : {-1.0, 0.0, 1.0})
            for (const double b : {-1.0, 0.0, 1.0})
                off = std::min(off, std::abs(turn - a * half_angle(i - 1) - b * half_angle(i)));
        if (off > 1e-6) return "a kink or a turn too sharp";
    }
    return "";
}

bool crosses(Point a, Point b, Point c, Point d) {
    const auto side = [](Point p, Point q, Point r) { return cross(q - p, r - p); };
    return side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
}

// "" when every way of a candidate may be driven.
std::string broken_joins(const Candidate& candidate, double radius_m, const Region& drivable) {
    const auto ways = joins(candidate, radius_m, drivable);
    if (!ways) return "cannot be driven";
    if (ways->size() != candidate.lines.size()) return "a way missing";
    const auto fence = test::rings_of(drivable.shape());
    for (std::size_t i = 0; i < ways->size(); ++i) {
        const Polyline& way = (*ways)[i];
        const bool begins = i == 0 || candidate.lines[i].load != candidate.lines[i - 1].load;
        if (begins != way.empty()) return "a way where none is due, or none where one is";
        if (begins || way.size() == 1) continue;
        const Polyline& before = candidate.lines[i - 1].path;
        const Polyline& after = candidate.lines[i].path;
        if (distance_m(way.front(), before.back()) > 1e-9) return "starts elsewhere";
        if (distance_m(way.back(), after.front()) > 1e-6) return "ends elsewhere";
        const std::string broken = broken_driving(before, way, after, radius_m);
        if (!broken.empty()) return broken;
        for (std::size_t k = 0; k + 1 < way.size(); ++k) {
            if (distance_m(way[k], way[k + 1]) > 1.0 + 1e-9) return "points far apart";
            if (!test::brute_inside(fence, lerp(way[k], way[k + 1], 0.5))) return "leaves ground";
            if (k == 0 || k + 2 == way.size()) continue;  // touches the lines it joins
            for (std::size_t j = 0; j < i; ++j) {
                const Polyline& hay = candidate.lines[j].path;
                for (std::size_t m = 0; m + 1 < hay.size(); ++m)
                    if (crosses(way[k], way[k + 1], hay[m], hay[m + 1])) return "crosses hay";
            }
        }
    }
    return "";
}

TEST(Joins, TurnBetweenSwathsWhereThereIsRoom) {
    const Candidate candidate{{straight({0, 0}, {100, 0}), straight({100, 12}, {0, 12}),
                               straight({0, 24}, {100, 24}, 1)}};
    const Region wide = box(-50, -50, 150, 74);
    for (const double radius : {4.0, 6.0, 9.0, 15.0}) {
        EXPECT_EQ(broken_joins(candidate, radius, wide), "") << radius;
        const auto ways = joins(candidate, radius, wide);
        EXPECT_TRUE(ways->at(2).empty());  // another load
    }
    // Half a circle and the rest straight at 4 m; a bulb at 9 m.
    EXPECT_NEAR(length_m(joins(candidate, 4.0, wide)->at(1)), units::kPi * 4.0 + 4.0, 0.05);
    EXPECT_GT(length_m(joins(candidate, 9.0, wide)->at(1)), units::kPi * 9.0);
    // Six metres ahead of the ends are not enough to turn in at 9 m, whichever way they are driven.
    const Region tight = box(-6, -6, 106, 30);
    EXPECT_FALSE(joins(candidate, 9.0, tight));
    EXPECT_TRUE(joins(candidate, 4.0, tight));
    LineRequest request;
    request.loads = {{2, 200}, {1, 100}};
    request.turn_radius_m = 9.0;
    request.drivable = &tight;
    EXPECT_FALSE(joined(candidate, request));
}

TEST(Joins, AreNotNeededWhereALineGoesOn) {
    const Candidate end_to_end{{straight({0, 0}, {50, 0}), straight({50, 0}, {100, 0})}};
    const auto ways = joins(end_to_end, 9.0, box(-1, -1, 101, 1));
    ASSERT_TRUE(ways);
    EXPECT_EQ(ways->at(1), (Polyline{{50, 0}}));
    Candidate bend;  // one circle of 20 m, cut in two
    for (const int part : {0, 1}) {
        CandidateLine line{{}, true, 0.0, 0, 1};
        for (int k = 0; k <= 20; ++k) {
            const double turn = 0.09 * (20 * part + k);
            line.path.push_back({20 * std::cos(turn), 20 * std::sin(turn)});
        }
        line.length_m = length_m(line.path);
        bend.lines.push_back(line);
    }
    const auto round = joins(bend, 19.9, box(-30, -30, 30, 30));
    ASSERT_TRUE(round);
    EXPECT_EQ(round->at(1).size(), 1U);
}

// The shortest turn would cross hay laid before.
TEST(Joins, GoRoundHayLaidThatDay) {
    Candidate candidate{{straight({0, 0}, {100, 0}), straight({100, 30}, {0, 30})}};
    const Region wide = box(-100, -100, 250, 150);
    const double direct = length_m(joins(candidate, 9.0, wide)->at(1));
    candidate.lines.insert(candidate.lines.begin(), straight({107.5, 15}, {125, 15}, 1));
    EXPECT_EQ(broken_joins(candidate, 9.0, wide), "");
    EXPECT_GT(length_m(joins(candidate, 9.0, wide)->at(2)), direct + 20.0);
    candidate.lines[0] = straight({60, 15}, {240, 15}, 1);  // walls the way off
    EXPECT_FALSE(joins(candidate, 9.0, box(-5, -50, 245, 150)));
}

TEST(Joined, TurnsLinesRoundForTheShortestWay) {
    const Region wide = box(-60, -60, 160, 90);
    LineRequest request;
    request.loads = {{3, 300}};
    request.turn_radius_m = 7.0;
    request.drivable = &wide;
    const Candidate same_way{
        {straight({0, 0}, {100, 0}), straight({0, 20}, {100, 20}), straight({0, 40}, {100, 40})}};
    const auto turned = joined(same_way, request);
    ASSERT_TRUE(turned);
    EXPECT_EQ(broken_joins(*turned, 7.0, wide), "");
    EXPECT_EQ(turned->lines[0].path, same_way.lines[0].path);
    EXPECT_EQ(turned->lines[1].path, reversed(same_way.lines[1].path));
    EXPECT_EQ(turned->lines[2].path, same_way.lines[2].path);
    // A gate at the end where the middle line would start keeps it as it was.
    request.gates = {{130, 20}};
    const auto kept = joined(same_way, request);
    ASSERT_TRUE(kept);
    EXPECT_EQ(broken_joins(*kept, 7.0, wide), "");
    for (const CandidateLine& line : kept->lines) EXPECT_EQ(line.path.front().x, 0.0);
    request.gates = {{50, 20}};
    request.gate_keep_m = 100.0;
    EXPECT_FALSE(joined(same_way, request));
    EXPECT_TRUE(joined(Candidate{}, request)->lines.empty());
}

// Against all 2^n choices of directions.
TEST(Joined, FindsTheBestDirectionsOfSmallRandomFeedings) {
    Random random(17);
    const Region ground = box(-60, -60, 260, 260);  // room to turn at every end
    int driven = 0;
    for (int trial = 0; trial < 60; ++trial) {
        Candidate candidate;
        for (int k = 0; k < 4; ++k) {
            const Point from{200 * random.uniform(), 200 * random.uniform()};
            const double way = 2 * units::kPi * random.uniform();
            candidate.lines.push_back(
                straight(from, from + Point{std::cos(way), std::sin(way)} * 30.0));
        }
        LineRequest request;
        request.loads = {{4, 120}};
        request.turn_radius_m = 12.0;
        request.drivable = &ground;
        double best = std::numeric_limits<double>::infinity();
        const auto total = [&](const Candidate& one) {
            const auto ways = joins(one, 12.0, ground);
            double sum = ways ? 0.0 : std::numeric_limits<double>::infinity();
            if (ways)
                for (const Polyline& way : *ways) sum += length_m(way);
            return sum;
        };
        for (unsigned choice = 0; choice < 16; ++choice) {
            Candidate one = candidate;
            for (unsigned k = 0; k < 4; ++k)
                if ((choice >> k) % 2 == 1) one.lines[k].path = reversed(one.lines[k].path);
            best = std::min(best, total(one));
        }
        const auto found = joined(candidate, request);
        ASSERT_EQ(found.has_value(), std::isfinite(best)) << trial;
        if (!found) continue;
        ++driven;
        EXPECT_NEAR(total(*found), best, 1e-9);
        EXPECT_EQ(broken_joins(*found, 12.0, ground), "") << trial;
    }
    EXPECT_GT(driven, 20);
}

// A line that ends 8 m from a fence, square to it, can be left forward by a rig that turns in 7 m,
// not by one that turns in 9 m; along the fence either can turn away from it.
TEST(Joined, NeedsRoomToTurnAwayAtEachEnd) {
    const Region ground = box(-50, -50, 108, 50);
    LineRequest request;
    request.loads = {{1, 60}};
    request.drivable = &ground;
    const Candidate toward{{straight({40, 0}, {100, 0})}};
    const Candidate from{{straight({100, 0}, {40, 0})}};
    const Candidate along{{straight({100, -30}, {100, 30})}};
    request.turn_radius_m = 7.0;
    for (const Candidate& one : {toward, from, along}) EXPECT_TRUE(joined(one, request));
    request.turn_radius_m = 9.0;
    EXPECT_FALSE(joined(toward, request));
    EXPECT_FALSE(joined(from, request));
    EXPECT_TRUE(joined(along, request));
}

TEST(Joined, HoldsForAllCandidateLinesOnRequest) {
    test::RawMap map = test::square_map(260);
    const Terrain none;
    const FeedableGround ground = test::ground_of(map, none);
    const Region drivable = box(1, 1, 259, 259);
    LineRequest request;
    request.loads = {{4, 480}, {2, 240}};  // no line holds the first load
    request.line_radius_m = 9.0;
    request.max_candidates = 120;
    request.gates = {{130, 0}};
    const auto all = candidate_lines(ground, request);
    request.turn_radius_m = 9.0;
    request.drivable = &drivable;
    const auto driven = candidate_lines(ground, request);
    const auto undrivable = [&](const std::vector<Candidate>& some) {
        return std::count_if(some.begin(), some.end(), [&](const Candidate& candidate) {
            return !broken_joins(candidate, 9.0, drivable).empty();
        });
    };
    EXPECT_GT(undrivable(all), 0);
    EXPECT_EQ(undrivable(driven), 0);
    EXPECT_GE(driven.size(), 60U);
    for (const Candidate& candidate : driven)
        EXPECT_EQ(test::broken_rule(map, request, candidate), "");
}

}  // namespace
}  // namespace haylane
