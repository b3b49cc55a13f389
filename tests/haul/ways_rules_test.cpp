// What must hold of any ways, on seeded maps with trails, shut gates, water, and lots fenced off
// inside pastures: fences are crossed at open gates only, water never, there is as far as back, and
// a gate more or less moves every time the right way.
#include "core/geometry/visibility.h"
#include "tests/haul/ways_support.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

struct Place {
    PastureId pasture;
    Point at;
};

// Places on ground that may be driven, no nearer to trails and gates than they are snapped to.
std::vector<Place> open_places(const MadeMap& made, std::size_t count, Random& random) {
    const TravelMap map(made.ranch, made.when);
    const double keep_m =
        std::max(made.ranch.settings.trail_snap_m, made.ranch.settings.gate_snap_m);
    std::vector<Place> places;
    for (int tries = 0; places.size() < count && tries < 2000; ++tries) {
        const Point p{between(random, 0.0, 3.0 * kBlock_m), between(random, 0.0, 2.0 * kBlock_m)};
        const int pasture = pasture_at(made.ranch, p);
        if (pasture < 0 || away_from_ways_m(made.ranch, p) <= keep_m) continue;
        const auto id = PastureId::at(static_cast<std::size_t>(pasture));
        if (map.space(id).sees(p, p)) places.push_back({id, p});
    }
    return places;
}

// Three by two pastures; the yards are set by the tests.
MadeMap mixed_map(std::uint64_t seed) {
    MapMaker maker(seed, 3, 2);
    maker.add_inner_gates(0.8);
    for (std::size_t p = 0; p < 6; ++p)
        if (maker.random().below(3) == 0) maker.add_lot(p);
    maker.add_trails(static_cast<int>(maker.random().below(6)));
    maker.add_water(static_cast<int>(maker.random().below(6)), 5.0, 40.0);
    maker.block_some_gates(0.15, 0);
    return maker.take();
}

void set_yards(MadeMap& made, const std::vector<Place>& places) {
    made.ranch.yards.clear();
    for (const Place& place : places) {
        Yard yard;
        yard.name = "Yard " + std::to_string(made.ranch.yards.size());
        yard.at = place.at;
        made.ranch.yards.push_back(yard);
    }
}

using Matrix = std::vector<std::vector<double>>;

Matrix all_times_s(const Ranch& ranch, const TravelConditions& when,
                   const std::vector<Place>& places) {
    const TravelMap map(ranch, when);
    Matrix times(ranch.yards.size());
    for (std::size_t y = 0; y < ranch.yards.size(); ++y)
        for (const Place& place : places)
            times[y].push_back(map.time_s(YardId::at(y), place.pasture, place.at));
    return times;
}

// By an open gate that the route passes, and whose time it pays; or the way only comes up to the
// fence there, on a trail that ends at it, and turns along it to the gate and back into the field.
bool by_an_open_gate(const MadeMap& made, const Route& route, Point p, double reach_m) {
    constexpr double kTouch_m = 0.02;
    const auto holds = [](const std::vector<std::string>& names, const std::string& name) {
        return std::find(names.begin(), names.end(), name) != names.end();
    };
    const Polyline path = route.path();
    const bool turns =
        std::any_of(path.begin(), path.end(), [&](Point q) { return distance_m(p, q) < kTouch_m; });
    return std::any_of(made.ranch.gates.begin(), made.ranch.gates.end(), [&](const Gate& gate) {
        return (turns || holds(route.via, gate.name)) && !holds(made.when.blocked, gate.name) &&
               distance_m(gate.at, p) <= reach_m;
    });
}

// Where a line crosses the edges of shapes.
std::vector<Point> crossings(const Polyline& path, const MultiPolygon& shape) {
    std::vector<Point> found;
    for (const Polyline& ring : boundary_lines(shape))
        for (std::size_t i = 1; i < path.size(); ++i)
            for (std::size_t j = 1; j < ring.size(); ++j)
                if (const auto x = segment_crossing(path[i - 1], path[i], ring[j - 1], ring[j]))
                    found.push_back(*x);
    return found;
}

// A way that there is, and what for.
struct Way {
    std::size_t yard = 0;
    Place from;
    Place to;
    Route route;
};

// Every way between places of 60 seeded maps; gives how many there were.
template <typename Check>
int for_each_way(Check check) {
    int asked = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE(seed);
        MadeMap made = mixed_map(seed);
        Random random(seed + 2000);
        const std::vector<Place> places = open_places(made, 8, random);
        set_yards(made, places);
        const TravelMap map(made.ranch, made.when);
        for (std::size_t y = 0; y < places.size(); ++y)
            for (const Place& to : places) {
                const auto route = map.route(YardId::at(y), to.pasture, to.at);
                if (!route) continue;
                ++asked;
                check(made, Way{y, places[y], to, *route});
            }
    }
    return asked;
}

// A trail that meets the fence beside a gate is joined to it from both sides, at most trail_snap_m
// along the fence.
TEST(WaysByRule, FencesAreCrossedAtOpenGatesOnly) {
    const double reach_m = Settings().trail_snap_m;
    int crossed = 0;
    const int asked = for_each_way([&](const MadeMap& made, const Way& way) {
        for (const Pasture& pasture : made.ranch.pastures)
            for (const Point x : crossings(way.route.path(), pasture.shape)) {
                ++crossed;
                EXPECT_TRUE(by_an_open_gate(made, way.route, x, reach_m))
                    << "yard " << way.yard << " to " << way.to.at.x << " " << way.to.at.y
                    << ", fence of " << pasture.name << " at " << x.x << " " << x.y;
            }
    });
    EXPECT_GT(asked, 1500);
    EXPECT_GT(crossed, 1500);
}

// Off trails (a trail drawn through water is a ford). Right at a gate the drawing counts as exact
// to gate_snap_m and the ways' distance from fences.
TEST(WaysByRule, WaterIsNeverDrivenThrough) {
    const double reach_m = Settings().gate_snap_m + 2.0;
    int past_water = 0;
    const int asked = for_each_way([&](const MadeMap& made, const Way& way) {
        bool past = false;
        for (const OffLimits& item : made.ranch.off_limits) {
            past = past || !crossings({way.from.at, way.to.at}, item.area).empty();
            for (const RoutePart& part : way.route.parts) {
                if (part.surface) continue;
                for (const Point x : crossings(part.path, item.area))
                    EXPECT_TRUE(by_an_open_gate(made, way.route, x, reach_m))
                        << "yard " << way.yard << " to " << way.to.at.x << " " << way.to.at.y
                        << ", " << item.name << " at " << x.x << " " << x.y;
            }
        }
        past_water += past ? 1 : 0;
    });
    EXPECT_GT(asked, 1500);
    EXPECT_GT(past_water, 200);
}

// Time off and on trails and at gates is the same in both directions.
TEST(WaysByRule, ThereIsAsFarAsBack) {
    int finite = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE(seed);
        MadeMap made = mixed_map(seed);
        Random random(seed + 3000);
        const std::vector<Place> places = open_places(made, 8, random);
        set_yards(made, places);
        const Matrix times = all_times_s(made.ranch, made.when, places);
        for (std::size_t i = 0; i < times.size(); ++i) {
            EXPECT_NEAR(times[i][i], 0.0, 1e-9);
            for (std::size_t j = 0; j < i; ++j) {
                ASSERT_EQ(std::isfinite(times[i][j]), std::isfinite(times[j][i]));
                if (!std::isfinite(times[i][j])) continue;
                ++finite;
                EXPECT_NEAR(times[i][j], times[j][i], 1e-6) << i << " and " << j;
            }
        }
    }
    EXPECT_GT(finite, 700);
}

TEST(WaysByRule, AGateMoreNeverLengthensAndOneShutNeverShortens) {
    int shorter = 0;
    int longer = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE(seed);
        MadeMap made = mixed_map(seed);
        Random random(seed + 4000);
        const std::vector<Place> places = open_places(made, 8, random);
        set_yards(made, places);
        const Matrix before = all_times_s(made.ranch, made.when, places);
        Ranch more = made.ranch;
        const Ring& fence = more.pastures[random.below(more.pastures.size())].shape[0].outer;
        const std::size_t i = random.below(fence.size());
        Gate gate;
        gate.name = "New gate";
        gate.at = lerp(fence[i], fence[(i + 1) % fence.size()], between(random, 0.2, 0.8));
        gate.open_s = 5.0;
        more.gates.push_back(gate);
        const Matrix with_one_more = all_times_s(more, made.when, places);
        TravelConditions shut = made.when;
        shut.blocked.push_back(made.ranch.gates[random.below(made.ranch.gates.size())].name);
        const Matrix with_one_shut = all_times_s(made.ranch, shut, places);
        for (std::size_t y = 0; y < before.size(); ++y)
            for (std::size_t k = 0; k < places.size(); ++k) {
                EXPECT_LE(with_one_more[y][k], before[y][k] + 1e-6) << y << " to " << k;
                EXPECT_GE(with_one_shut[y][k], before[y][k] - 1e-6) << y << " to " << k;
                shorter += with_one_more[y][k] < before[y][k] - 1.0 ? 1 : 0;
                longer += with_one_shut[y][k] > before[y][k] + 1.0 ? 1 : 0;
            }
    }
    // Both must happen, or nothing was tried.
    EXPECT_GT(shorter, 100);
    EXPECT_GT(longer, 100);
}

}  // namespace
}  // namespace haylane
