// Checks headings along the wind and the side hay is thrown to, by lines laid by hand. Throwing
// down-wind, never into the wind, is common practice, no source.
#include "core/lines/discharge.h"

#include "core/base/units.h"
#include "core/lines/headings.h"
#include "core/lines/joins.h"
#include "core/lines/loads.h"
#include "tests/lines/grounds.h"

#include <algorithm>

namespace haylane {
namespace {

const double kFromWest = units::rad_from_deg(270.0);
const Polyline kNorth{{100, 100}, {100, 200}};

bool has_heading(const std::vector<Heading>& headings, double degrees) {
    return std::any_of(headings.begin(), headings.end(), [&](const Heading& h) {
        return std::abs(h.azimuth_rad - units::rad_from_deg(degrees)) < 1e-9;
    });
}

TEST(Headings, RunAlongAndAcrossTheWindAsWell) {
    const MultiPolygon field{{test::rectangle(0, 0, 300, 200), {}}};
    const double step = units::rad_from_deg(5.0);
    const auto plain = line_headings(field, step);
    const auto windy = line_headings(field, step, units::rad_from_deg(213.0));
    EXPECT_EQ(windy.size(), plain.size() + 2);
    EXPECT_TRUE(has_heading(windy, 33.0));
    EXPECT_TRUE(has_heading(windy, 123.0));
    EXPECT_TRUE(std::is_sorted(windy.begin(), windy.end(), [](const auto& a, const auto& b) {
        return a.azimuth_rad < b.azimuth_rad;
    }));
    EXPECT_EQ(line_headings(field, step, kFromWest).size(), plain.size());  // the edges do
}

TEST(Discharge, IsIntoTheWindOnTheUpWindSideOnly) {
    const Polyline south = reversed(kNorth);
    EXPECT_FALSE(throws_into_wind(kNorth, Discharge::right, kFromWest));
    EXPECT_TRUE(throws_into_wind(south, Discharge::right, kFromWest));
    EXPECT_TRUE(throws_into_wind(kNorth, Discharge::left, kFromWest));
    EXPECT_FALSE(throws_into_wind(south, Discharge::left, kFromWest));
    for (const double wind : {0.0, 0.5, 2.0, 4.0})
        EXPECT_FALSE(throws_into_wind(kNorth, Discharge::behind, wind));
    // Along the wind, to 10 degrees, it does not matter.
    EXPECT_FALSE(throws_into_wind(kNorth, Discharge::right, units::rad_from_deg(9.0)));
    EXPECT_TRUE(throws_into_wind(kNorth, Discharge::right, units::rad_from_deg(11.0)));
}

CandidateLine line(Point from, Point to) { return {{from, to}, false, distance_m(from, to), 0, 1}; }

// Back and forth has the shorter turns, but throws every second line into the wind.
TEST(Discharge, LinesOfALoadAreAllDrivenDownWind) {
    const Candidate back_and_forth{
        {line({100, 100}, {100, 300}), line({112, 300}, {112, 100}), line({124, 100}, {124, 300})}};
    const Region field({{test::rectangle(0, 0, 400, 400), {}}});
    LineRequest request{.loads = {{3, 600.0}}, .turn_radius_m = 8.0, .drivable = &field};
    const auto calm = joined(back_and_forth, request);
    ASSERT_TRUE(calm);
    EXPECT_EQ(calm->lines[1].path.front().y, 300.0);
    request.wind_from_rad = kFromWest;
    request.discharge = Discharge::right;
    const auto windy = joined(back_and_forth, request);
    ASSERT_TRUE(windy);
    for (const CandidateLine& one : windy->lines) {
        EXPECT_FALSE(throws_into_wind(one.path, request));
        EXPECT_EQ(one.path.front().y, 100.0);
    }
    request.discharge = Discharge::left;
    const auto left = joined(back_and_forth, request);
    ASSERT_TRUE(left);
    for (const CandidateLine& one : left->lines) EXPECT_EQ(one.path.front().y, 300.0);
}

TEST(Discharge, AGateNearTheStartComesBeforeTheWind) {
    LineRequest request{.loads = {{1, 100.0}},
                        .gates = {{100, 60}},
                        .wind_from_rad = kFromWest,
                        .discharge = Discharge::right};
    const auto turned = in_driving_order({line({100, 200}, {100, 100})}, request);
    ASSERT_TRUE(turned);  // driven north it would start 40 m from the gate
    EXPECT_EQ(turned->lines[0].path.front().y, 200.0);
    request.gates = {{100, 0}};
    const auto free = in_driving_order({line({100, 200}, {100, 100})}, request);
    ASSERT_TRUE(free);
    EXPECT_EQ(free->lines[0].path.front().y, 100.0);
}

TEST(Discharge, CandidatesThrowDownWind) {
    const test::RawMap map = test::square_map(400);
    const Terrain flat;
    const FeedableGround ground = test::ground_of(map, flat);
    const LineRequest request{.loads = {{2, 180.0}, {1, 90.0}},
                              .max_candidates = 300,
                              .wind_from_rad = units::rad_from_deg(213.0),
                              .discharge = Discharge::left};
    bool along = false;
    for (const Candidate& candidate : candidate_lines(ground, request)) {
        for (const CandidateLine& one : candidate.lines) {
            EXPECT_FALSE(throws_into_wind(one.path, request));
            const double azimuth = azimuth_rad(one.path.front(), one.path.back());
            along = along ||
                    std::abs(std::remainder(azimuth - *request.wind_from_rad, units::kPi)) < 1e-6;
        }
    }
    EXPECT_TRUE(along);
}

}  // namespace
}  // namespace haylane
