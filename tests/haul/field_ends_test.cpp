// Ways into lines and out of them: tangent to the line, no sharper than the rig turns, on ground
// that may be driven, beside hay. That single turns are Dubins' is checked in tests/geometry.
#include "core/haul/field_ends.h"

#include "core/base/random.h"
#include "core/base/units.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kFieldSpeed = 2.0;

MultiPolygon box(double x0, double y0, double x1, double y1) {
    return {{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

// A pasture and the ground in it for turns, which is smaller by what the trailer cuts in.
struct Field {
    FreeSpace space;
    Region drivable;
    double radius_m;
    explicit Field(const MultiPolygon& shape, const MultiPolygon& inner, double radius)
        : space(shape), drivable(inner), radius_m(radius) {}
    [[nodiscard]] TurnGround ground() const { return {radius_m, &drivable, &space, kFieldSpeed}; }
};

Field square_field(double radius = 9.0) {
    return Field(box(0, 0, 400, 400), box(2, 2, 398, 398), radius);
}

// A trail outside, a gate, and straight moves inside.
Route route_through(const Polyline& inside) {
    Route route;
    route.parts.push_back({{{50.0, -300.0}, {50.0, -2.0}}, Surface::dirt, 298.0, 4.0});
    Polyline field{{50.0, -2.0}};
    field.insert(field.end(), inside.begin(), inside.end());
    route.parts.push_back({field, std::nullopt, length_m(field), kFieldSpeed});
    for (const RoutePart& part : route.parts) {
        route.length_m += part.length_m;
        route.drive_s += part.length_m / part.speed_m_per_s;
    }
    route.gate_s = 180.0;
    route.via = {"Yard trail", "South gate"};
    return route;
}

double heading(Point a, Point b) { return std::atan2(b.y - a.y, b.x - a.x); }
double between(double a, double b) { return std::abs(std::remainder(a - b, 2.0 * units::kPi)); }

bool proper_crossing(Point a, Point b, Point c, Point d) {
    const auto side = [](Point p, Point q, Point r) { return cross(q - p, r - p); };
    return side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
}

// From the last corner sharper than the rig's turns to the end there is only driving in arcs and
// straights: that part must be tangent to the line and on ground for turns.
std::string broken_end(const Polyline& way, const Polyline& line, const Field& field) {
    const double chord = std::asin(0.5 / field.radius_m) + 1e-6;  // tangent to a 1 m chord
    if (distance_m(way.back(), line.front()) > 1e-6) return "ends elsewhere";
    if (between(heading(way[way.size() - 2], way.back()), heading(line[0], line[1])) > chord)
        return "meets the line at a corner";
    std::size_t turn = way.size() - 2;
    while (turn > 0 && between(heading(way[turn - 1], way[turn]),
                               heading(way[turn], way[turn + 1])) <= 2.0 * chord)
        --turn;
    for (std::size_t i = turn; i < way.size(); ++i)
        if (distance_m(way[i], line.front()) < 4.0 * field.radius_m &&
            !field.drivable.contains(way[i]))
            return "turns where it may not";
    if (turn > 0 && distance_m(way[turn], line.front()) < 1e-6) return "no turn at all";
    return "";
}

std::string broken_hay(const Polyline& way, const MultiPolyline& hay, double free_end_m) {
    const double length = length_m(way);
    const Polyline far = part_of(way, 0.0, length - free_end_m);
    for (const Polyline& line : hay) {
        for (std::size_t i = 0; i + 1 < far.size(); ++i)
            for (std::size_t k = 0; k + 1 < line.size(); ++k)
                if (proper_crossing(far[i], far[i + 1], line[k], line[k + 1])) return "crosses hay";
        for (const Point p : densified(far, 0.5))
            for (const Point q : densified(line, 0.5))
                if (distance_m(p, q) < 1.9) return "drives on hay";
    }
    return "";
}

TEST(FieldEnds, TurnFromTheWayIntoTheLineAndBack) {
    const Field field = square_field();
    Random random(5);
    for (int trial = 0; trial < 200; ++trial) {
        const Point start{60 + 280 * random.uniform(), 60 + 280 * random.uniform()};
        const double away = 2 * units::kPi * random.uniform();
        const Polyline line{start, start + Point{std::cos(away), std::sin(away)} * 40.0};
        const Route out = route_through({{50, 2}, start});
        const FieldWay in = way_in(out, line, {}, field.ground());
        ASSERT_TRUE(in.turns && in.off_hay) << trial;
        EXPECT_EQ(broken_end(in.route.path(), line, field), "") << trial;
        EXPECT_EQ(in.route.via, out.via);
        EXPECT_EQ(in.route.gate_s, 180.0);
        double sum_m = 0.0;
        double sum_s = 0.0;
        for (const RoutePart& part : in.route.parts) {
            EXPECT_NEAR(length_m(part.path), part.length_m, 1e-6);
            sum_m += part.length_m;
            sum_s += part.length_m / part.speed_m_per_s;
        }
        EXPECT_NEAR(in.route.length_m, sum_m, 1e-9);
        EXPECT_NEAR(in.route.drive_s, sum_s, 1e-9);
        EXPECT_GE(in.route.length_m, out.length_m - 1.0);  // chords are a hair short of arcs
        EXPECT_LE(in.route.length_m, out.length_m + 4.0 * units::kPi * field.radius_m);
        const Route back = reversed(route_through({{50, 2}, line.back()}));
        const FieldWay off = way_out(back, line, {line}, field.ground());
        ASSERT_TRUE(off.turns && off.off_hay) << trial;
        EXPECT_EQ(broken_end(reversed(off.route.path()), reversed(line), field), "") << trial;
        EXPECT_EQ(broken_hay(reversed(off.route.path()), {line}, 8.0), "") << trial;
        EXPECT_EQ(off.route.path().back(), (Point{50, -300}));
    }
}

// Straight ahead needs no turn; the other way round the least is a turn of more than half a circle.
TEST(FieldEnds, AreAsShortAsTheyCanBe) {
    const Field field = square_field();
    const Route out = route_through({{50, 2}, {50, 200}});
    const Polyline ahead{{50, 200}, {50, 260}};
    EXPECT_NEAR(way_in(out, ahead, {}, field.ground()).route.length_m, out.length_m, 1e-6);
    const Polyline toward{{50, 200}, {50, 140}};
    const FieldWay round = way_in(out, toward, {}, field.ground());
    ASSERT_TRUE(round.turns);
    // From the start (50, 140 + 60) turned round: LRL of 7 pi / 3 radii (reference example 10) is
    // the shortest that ends where it began.
    EXPECT_LE(round.route.length_m, out.length_m + 7.0 / 3.0 * units::kPi * field.radius_m + 0.1);
    EXPECT_GT(round.route.length_m, out.length_m);
}

TEST(FieldEnds, SayWhereThereIsNoRoomToTurn) {
    const Field lane(box(40, 0, 60, 400), box(42, 2, 58, 398), 9.0);
    const Route out = route_through({{50, 2}, {50, 200}});
    const Polyline toward{{50, 200}, {50, 140}};
    const FieldWay in = way_in(out, toward, {}, lane.ground());
    EXPECT_FALSE(in.turns);
    EXPECT_TRUE(in.off_hay);
    EXPECT_EQ(in.route.path(), out.path());
    const FieldWay ahead = way_in(out, {{50, 200}, {50, 260}}, {}, lane.ground());
    EXPECT_TRUE(ahead.turns);
}

// The gate lies behind the line's start: straight back would be on the hay just laid.
TEST(FieldEnds, LeaveBesideTheirOwnHay) {
    const Field field = square_field();
    const Polyline line{{50, 100}, {50, 300}};
    const Route back = reversed(route_through({{50, 2}, {50, 300}}));
    const FieldWay off = way_out(back, line, {line}, field.ground());
    EXPECT_TRUE(off.turns);
    EXPECT_TRUE(off.off_hay);
    EXPECT_EQ(broken_end(reversed(off.route.path()), reversed(line), field), "");
    EXPECT_EQ(broken_hay(reversed(off.route.path()), {line}, 8.0), "");
}

TEST(FieldEnds, GoRoundHayThatLiesAcross) {
    const Field field = square_field();
    const MultiPolyline wall{{{0.5, 150}, {300, 150}}};
    const Polyline line{{50, 250}, {150, 250}};
    const Route out = route_through({{50, 2}, {50, 250}});
    const FieldWay in = way_in(out, line, wall, field.ground());
    EXPECT_TRUE(in.turns);
    EXPECT_TRUE(in.off_hay);
    EXPECT_EQ(broken_end(in.route.path(), line, field), "");
    EXPECT_EQ(broken_hay(in.route.path(), wall, 0.0), "");
    const double round_m = 298 + 4 + std::hypot(250.0, 148.0) + std::hypot(250.0, 100.0);
    EXPECT_GE(in.route.length_m, round_m - 5.0);
    EXPECT_LE(in.route.length_m, round_m + 80.0);
    // From fence to fence there is no way round.
    const MultiPolyline shut{{{0.5, 150}, {399.5, 150}}};
    const FieldWay over = way_in(out, line, shut, field.ground());
    EXPECT_FALSE(over.off_hay);
    EXPECT_EQ(over.route.path(), out.path());
}

// Hay that another herd got on the lane, before this pasture: the way still turns into its line.
TEST(FieldEnds, SayThatHayLiesOnTheWayToThePasture) {
    const Field field = square_field();
    const Polyline line{{50, 250}, {150, 250}};
    const Route out = route_through({{50, -300}, {50, 250}});
    const FieldWay clear = way_in(out, line, {}, field.ground());
    const FieldWay over = way_in(out, line, {{{0, -100}, {100, -100}}}, field.ground());
    EXPECT_TRUE(clear.off_hay);
    EXPECT_FALSE(over.off_hay);
    EXPECT_TRUE(over.turns);
    EXPECT_EQ(over.route.path(), clear.route.path());
}

// Against the shortest way round two walls, by hand: corners stand 3 m beyond and beside the ends.
TEST(FieldEnds, WayRoundHayIsTheShortest) {
    const FreeSpace space(box(0, 0, 400, 400));
    const MultiPolyline walls{{{0.5, 100}, {200, 100}}, {{100, 200}, {399.5, 200}}};
    const auto way = way_round_hay(space, {50, 50}, {350, 300}, walls, 0.0);
    ASSERT_TRUE(way);
    const Polyline expected{{50, 50}, {203, 97}, {203, 103}, {97, 197}, {97, 203}, {350, 300}};
    EXPECT_NEAR(length_m(*way), length_m(expected), 1e-9);
    EXPECT_FALSE(way_round_hay(space, {50, 50}, {350, 300}, {{{0.5, 100}, {399.5, 100}}}, 0.0));
}

}  // namespace
}  // namespace haylane
