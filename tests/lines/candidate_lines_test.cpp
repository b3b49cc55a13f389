// Checks candidate lines by their properties, with the slow judge of tests/support, on hand-made
// and seeded random pastures. Rules: the design's "never yields" list; 12 m spacing is the 40 ft of
// bale-grazing practice, 60 m from the gate is common practice, no source.
#include "core/lines/candidate_lines.h"

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/geometry/boolean_ops.h"
#include "core/lines/drivable.h"
#include "tests/lines/grounds.h"
#include "tests/support/line_rules.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using test::ground_of;
using test::rectangle;

LineRequest one_load(double length_m, int bales, double radius_m = 0.0) {
    LineRequest request;
    request.loads = {{bales, length_m}};
    request.line_radius_m = radius_m;
    return request;
}

bool same(const std::vector<Candidate>& a, const std::vector<Candidate>& b) {
    return std::equal(
        a.begin(), a.end(), b.begin(), b.end(), [](const Candidate& x, const Candidate& y) {
            return std::equal(x.lines.begin(), x.lines.end(), y.lines.begin(), y.lines.end(),
                              [](const CandidateLine& p, const CandidateLine& q) {
                                  return p.path == q.path && p.load == q.load && p.bales == q.bales;
                              });
        });
}

// Every candidate keeps every rule; gives how many there are.
int judged(const test::RawMap& map, const LineRequest& request, const Terrain& terrain) {
    const FeedableGround ground = ground_of(map, terrain);
    const std::vector<Candidate> found = candidate_lines(ground, request);
    EXPECT_LE(found.size(), static_cast<std::size_t>(request.max_candidates));
    EXPECT_TRUE(same(found, candidate_lines(ground, request))) << "not the same twice";
    int faults = 0;
    for (const Candidate& candidate : found) {
        const std::string broken = test::broken_rule(map, request, candidate);
        if (broken.empty() || ++faults > 3) continue;
        ADD_FAILURE() << broken << ", first line from " << candidate.lines[0].path.front().x << " "
                      << candidate.lines[0].path.front().y;
    }
    return static_cast<int>(found.size());
}

int judged(const test::RawMap& map, const LineRequest& request) {
    return judged(map, request, Terrain());
}

int curved_count(const std::vector<Candidate>& found) {
    return static_cast<int>(std::count_if(found.begin(), found.end(),
                                          [](const Candidate& c) { return c.lines[0].curved; }));
}

std::set<int> headings_of(const std::vector<Candidate>& found) {
    std::set<int> headings;
    for (const Candidate& candidate : found) {
        if (candidate.lines[0].curved) continue;
        const auto& path = candidate.lines[0].path;
        const double degrees = units::deg_from_rad(azimuth_rad(path.front(), path.back()));
        headings.insert(static_cast<int>(std::lround(degrees)) % 180);
    }
    return headings;
}

constexpr double kQuarterSection_m = 804.672;  // half a mile

TEST(CandidateLines, FillAQuarterSectionAtEveryHeading) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, kQuarterSection_m, kQuarterSection_m), {}}};
    LineRequest request = one_load(180, 2);
    request.gates = {{400, 0}};
    EXPECT_EQ(judged(map, request), 1500);
    const Terrain none;
    const auto found = candidate_lines(ground_of(map, none), request);
    EXPECT_EQ(headings_of(found).size(), 36U);
    // Every 100 m block has a line in it.
    std::set<std::pair<int, int>> blocks;
    for (const Candidate& candidate : found)
        for (double s = 0.0; s < 180.0; s += 5.0) {
            const Point p = point_at(candidate.lines[0].path, s);
            blocks.insert({static_cast<int>(p.x / 100.6), static_cast<int>(p.y / 100.6)});
        }
    EXPECT_EQ(blocks.size(), 64U);
}

TEST(CandidateLines, AreAsDenseAsPromisedWhereFewAreNeeded) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 132, 120), {}}};
    LineRequest request = one_load(80, 1);
    request.max_candidates = 100000;
    const Terrain none;
    std::set<long> offsets;
    std::set<long> starts;
    for (const Candidate& candidate : candidate_lines(ground_of(map, none), request)) {
        const Point a = candidate.lines[0].path.front();
        const Point b = candidate.lines[0].path.back();
        if (std::abs(a.y - b.y) > 1e-6) continue;  // east-west lines only
        offsets.insert(std::lround(a.y * 10));
        starts.insert(std::lround(std::min(a.x, b.x) * 10));
    }
    ASSERT_GE(offsets.size(), 18U);  // 108 m in steps of 6 m
    for (auto next = std::next(offsets.begin()); next != offsets.end(); ++next)
        EXPECT_LE(*next - *std::prev(next), 61);
    ASSERT_GE(starts.size(), 3U);  // 40 m of slack in steps of 20 m at most
    EXPECT_LE(*starts.begin(), 61);
    EXPECT_GE(*starts.rbegin(), 459);
    for (auto next = std::next(starts.begin()); next != starts.end(); ++next)
        EXPECT_LE(*next - *std::prev(next), 201);
}

TEST(CandidateLines, KeepOffACreekInAnLShapedPasture) {
    test::RawMap map;
    map.pasture = {{{{0, 0}, {700, 0}, {700, 300}, {300, 300}, {300, 700}, {0, 700}}, {}}};
    OffLimits creek;
    creek.name = "creek";
    creek.kind = OffLimitsKind::water;
    creek.setback_m = 30.48;
    creek.lines = {{{-10, 500}, {120, 420}, {260, 250}, {480, 120}, {710, 90}}};
    map.off_limits.push_back(creek);
    for (const double radius : {0.0, 9.0, 46.0}) {
        LineRequest request = one_load(150, 2, radius);
        request.gates = {{0, 300}, {700, 250}};
        request.max_candidates = 600;
        EXPECT_EQ(judged(map, request), 600) << radius;
    }
}

TEST(CandidateLines, GoRoundHolesAndSetbacks) {
    test::RawMap map;
    map.pasture = {
        {rectangle(-300, -300, 400, 350),
         {{{-100, -100}, {-60, 40}, {50, 20}, {40, -90}}, {{200, 100}, {210, 220}, {260, 130}}}}};
    OffLimits well;
    well.name = "well";
    well.setback_m = 91.44;
    well.points = {{-180, 220}};
    OffLimits barn;
    barn.name = "barn";
    barn.setback_m = 46;
    barn.area = {{rectangle(200, -200, 230, -180), {}}};
    map.off_limits = {well, barn};
    for (const double radius : {0.0, 12.0}) {
        LineRequest request = one_load(120, 1, radius);
        request.gates = {{400, 0}};
        request.max_candidates = 500;
        EXPECT_EQ(judged(map, request), 500) << radius;
    }
}

// Gentle benches 60 m wide between banks of 20 %.
Terrain benches(double side_m) {
    return test::terrain_over(box_of(rectangle(0, 0, side_m, side_m)), [](Point p) {
        const double along = p.x + 0.3 * p.y + 1000;
        const double phase = std::fmod(along, 100.0);
        const double height = phase < 60.0 ? 0.02 * phase : 1.2 + 0.2 * (phase - 60.0);
        return 9.2 * std::floor(along / 100.0) + height;
    });
}

TEST(CandidateLines, StayOnTheBenchesBetweenSteepBanks) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 600, 600), {}}};
    const Terrain terrain = benches(600);
    map.terrain = &terrain;
    for (const double radius : {0.0, 10.0}) {
        const LineRequest request = one_load(100, 1, radius);
        EXPECT_GT(judged(map, request, terrain), 100) << radius;
    }
    // Nothing 100 m long lies straight across the benches.
    const LineRequest request = one_load(100, 1);
    for (const int heading : headings_of(candidate_lines(ground_of(map, terrain), request)))
        EXPECT_TRUE(heading < 40 || heading > 120) << heading;
}

TEST(CandidateLines, CarryLoadsEndToEndAndSideBySide) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 500, 400), {}}};
    LineRequest request;
    request.loads = {{2, 160}, {2, 160}, {2, 160}, {1, 80}};
    request.gates = {{500, 200}};
    request.max_candidates = 400;
    EXPECT_EQ(judged(map, request), 400);
    const Terrain none;
    const auto found = candidate_lines(ground_of(map, none), request);
    int in_a_row = 0;
    int beside = 0;
    for (const Candidate& candidate : found) {
        ASSERT_EQ(candidate.lines.size(), 4U);  // all fit whole
        for (std::size_t i = 1; i < 4; ++i) {
            const double apart = distance_m(candidate.lines[i - 1].path, candidate.lines[i].path);
            if (apart < 0.01) ++in_a_row;
            if (std::abs(apart - 12.0) < 0.01) ++beside;
        }
    }
    EXPECT_GT(in_a_row, 100);
    EXPECT_GT(beside, 100);
}

TEST(CandidateLines, CarrySeveralLoadsOnCurves) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 500, 400), {}}};
    LineRequest request;
    request.loads = {{2, 400}, {2, 400}, {2, 400}};
    request.line_radius_m = 15;
    request.gates = {{250, 0}};
    request.max_candidates = 300;
    EXPECT_GT(judged(map, request), 100);
    const Terrain none;
    EXPECT_GT(curved_count(candidate_lines(ground_of(map, none), request)), 5);
}

TEST(CandidateLines, CutALoadIntoWholeBalesWhereNoLineHoldsIt) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 120, 110), {}}};
    LineRequest request = one_load(450, 5);  // 90 m a bale
    request.gates = {{120, 5}};
    request.gate_keep_m = 20;
    EXPECT_GT(judged(map, request), 0);
    const Terrain none;
    const auto found = candidate_lines(ground_of(map, none), request);
    ASSERT_FALSE(found.empty());
    for (const Candidate& candidate : found) EXPECT_EQ(candidate.lines.size(), 5U);
}

TEST(CandidateLines, CurvesFollowTheBoundaryAtTheRadius) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 300, 250), {}}};
    const Terrain none;
    const FeedableGround ground = ground_of(map, none);
    for (const double radius : {6.0, 20.0, 46.0}) {
        const LineRequest request = one_load(220, 2, radius);
        const auto found = candidate_lines(ground, request);
        EXPECT_GT(curved_count(found), 10) << radius;
        double nearest = 1e9;
        double bend = 0.0;
        for (const Candidate& candidate : found) {
            const CandidateLine& line = candidate.lines[0];
            if (!line.curved) continue;
            for (const Point p : line.path) nearest = std::min(nearest, std::min(p.x, p.y));
            bend = std::max(bend, test::sharpest_turn_per_m(line.path, 2.0));
        }
        EXPECT_NEAR(nearest, 6.5, 0.3) << radius;
        EXPECT_LE(bend * radius, 1.0 + 1e-3) << radius;
        EXPECT_GE(bend * radius, 0.75) << radius;  // corners are not rounder than they need be
    }
    EXPECT_EQ(curved_count(candidate_lines(ground, one_load(220, 2))), 0);
}

TEST(CandidateLines, AreNoneWhereNothingFits) {
    for (const MultiPolygon& shape :
         {MultiPolygon{}, MultiPolygon{{rectangle(0, 0, 10, 10), {}}},
          MultiPolygon{{rectangle(0, 0, 30, 30), {}}},             // tiny
          MultiPolygon{{{{0, 0}, {2000, 0.5}, {2000, 1.0}}, {}}},  // a needle
          MultiPolygon{{{{0, 0}, {100, 0}, {0, 1e-9}}, {}}}}) {
        test::RawMap map;
        map.pasture = shape;
        EXPECT_EQ(judged(map, one_load(100, 1, 8)), 0);
    }
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 300, 300), {}}};
    EXPECT_EQ(judged(map, LineRequest{}), 0);     // no load
    EXPECT_EQ(judged(map, one_load(100, 0)), 0);  // no bale
    EXPECT_EQ(judged(map, one_load(0.0, 1)), 0);
    LineRequest request = one_load(100, 1);
    request.max_candidates = 0;
    EXPECT_EQ(judged(map, request), 0);
    request.max_candidates = 1500;
    request.gates = {{150, 150}};
    request.gate_keep_m = 300;  // no start is far enough from the gate
    EXPECT_EQ(judged(map, request), 0);
}

TEST(CandidateLines, HandleTriangleNeckPartsAndManyVertices) {
    test::RawMap map;
    map.pasture = {{{{0, 0}, {400, 0}, {0, 300}}, {}}};
    EXPECT_GT(judged(map, one_load(60, 1, 10)), 100);
    map.pasture = {{{{0, 0},
                     {200, 0},
                     {200, 95},
                     {220, 95},
                     {220, 0},
                     {420, 0},
                     {420, 200},
                     {220, 200},
                     {220, 110},
                     {200, 110},
                     {200, 200},
                     {0, 200}},
                    {}},
                   {rectangle(500, 0, 700, 200), {}}};
    map.fence_strip_m = 7.4;  // leaves 0.2 m of the neck
    EXPECT_GT(judged(map, one_load(90, 1, 10)), 100);
    Ring round;
    for (int i = 0; i < 2000; ++i) {
        const double turn = 2 * units::kPi * i / 2000;
        const double r = 250 + 10 * std::sin(40 * turn) + 3 * std::cos(311 * turn);
        round.push_back({r * std::cos(turn), r * std::sin(turn)});
    }
    map.pasture = {{round, {}}};
    LineRequest request = one_load(90, 1, 10);
    request.max_candidates = 200;
    EXPECT_EQ(judged(map, request), 200);
}

// So many corners that rings are not rounded.
TEST(CandidateLines, CurveBetweenVeryManySetbacks) {
    test::RawMap map;
    map.pasture = {{rectangle(0, 0, 900, 900), {}}};
    Random random(5);
    for (int k = 0; k < 50; ++k) {
        OffLimits well;
        well.setback_m = 10 + 10 * random.uniform();
        well.points = {{900 * random.uniform(), 900 * random.uniform()}};
        map.off_limits.push_back(well);
    }
    LineRequest request = one_load(120, 2, 10);
    request.loads.push_back({1, 60});
    request.gates = {{0, 450}};
    request.max_candidates = 200;
    EXPECT_EQ(judged(map, request), 200);
    const Terrain none;
    EXPECT_GT(curved_count(candidate_lines(ground_of(map, none), request)), 10);
}

// A star-shaped pasture with holes and a creek, all from the seed.
test::RawMap random_map(Random& random) {
    test::RawMap map;
    Ring star;
    const int corners = 3 + static_cast<int>(random.below(30));
    const double size = 120 + 400 * random.uniform();
    for (int i = 0; i < corners; ++i) {
        const double turn = 2 * units::kPi * (i + 0.8 * random.uniform()) / corners;
        const double r = size * (0.35 + 0.65 * random.uniform());
        star.push_back({r * std::cos(turn), r * std::sin(turn)});
    }
    MultiPolygon shape{{star, {}}};
    const auto holes = random.below(5);
    for (std::uint64_t h = 0; h < holes; ++h) {
        const Point at{size * (random.uniform() - 0.5), size * (random.uniform() - 0.5)};
        auto hole = buffer_point(at, 3 + 20 * random.uniform());
        if (!hole) continue;
        auto cut = subtract(shape, *hole);
        if (cut) shape = *cut;
    }
    map.pasture = shape;
    OffLimits creek;
    creek.name = "creek";
    creek.setback_m = 40 * random.uniform() + 0.1;
    creek.lines = {{{-size, size * (random.uniform() - 0.5)},
                    {0, size * (random.uniform() - 0.5)},
                    {size, size * (random.uniform() - 0.5)}}};
    if (random.below(2) == 0) map.off_limits.push_back(creek);
    return map;
}

LineRequest random_request(Random& random, const test::RawMap& map) {
    LineRequest request;
    const auto loads = 1 + random.below(4);
    for (std::uint64_t k = 0; k < loads; ++k) {
        const int bales = 1 + static_cast<int>(random.below(4));
        request.loads.push_back({bales, bales * (25 + 60 * random.uniform())});
    }
    const double radii[] = {0.0, 8.0, 15.0, 46.0};
    request.line_radius_m = radii[random.below(4)];
    const Ring& fence = map.pasture.at(0).outer;
    const auto gates = random.below(3);
    for (std::uint64_t k = 0; k < gates; ++k)
        request.gates.push_back(fence[random.below(fence.size())]);
    request.max_candidates = 120;
    return request;
}

class RandomPasture : public testing::TestWithParam<int> {};

TEST_P(RandomPasture, AllLinesKeepEveryRule) {
    Random random(static_cast<std::uint64_t>(GetParam()));
    const test::RawMap map = random_map(random);
    ASSERT_FALSE(map.pasture.empty());
    const LineRequest request = random_request(random, map);
    const int found = judged(map, request);
    RecordProperty("candidates", found);
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomPasture, testing::Range(1, 61));

TEST(RandomPastures, MostlyHaveLines) {
    int some = 0;
    for (int seed = 1; seed <= 60; ++seed) {
        Random random(static_cast<std::uint64_t>(seed));
        const test::RawMap map = random_map(random);
        const Terrain none;
        const FeedableGround ground = ground_of(map, none);
        some += candidate_lines(ground, random_request(random, map)).empty() ? 0 : 1;
    }
    EXPECT_GE(some, 45);
}

// 500 acres with 150 steep mounds.
TEST(CandidateLines, AreFoundInALargePastureWithManySteepPatches) {
    test::RawMap map;
    const double side = 1422.5;
    map.pasture = {{rectangle(0, 0, side, side), {}}};
    const double cell = 5.0;
    const int n = static_cast<int>(side / cell) + 10;
    TerrainData data{Raster<float>(Grid{-25, -25, cell, n, n}), cell};
    Random random(11);
    for (int k = 0; k < 150; ++k) {
        const Point at{side * random.uniform(), side * random.uniform()};
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i) {
                const double away = distance_m(at, data.elevation_m.grid.center(i, j)) / 20.0;
                if (away < 3.0)
                    data.elevation_m(i, j) += static_cast<float>(8 * std::exp(-away * away));
            }
    }
    const Terrain terrain(data);
    const FeedableGround ground = ground_of(map, terrain);
    LineRequest request = one_load(300, 2);
    request.gates = {{0, 700}};
    const auto found = candidate_lines(ground, request);
    EXPECT_EQ(found.size(), 1500U);
    EXPECT_EQ(headings_of(found).size(), 36U);
    map.terrain = &terrain;
    for (std::size_t i = 0; i < found.size(); i += 10)
        EXPECT_EQ(test::broken_rule(map, request, found[i]), "");
}

}  // namespace
}  // namespace haylane
