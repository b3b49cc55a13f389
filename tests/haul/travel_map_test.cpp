// Ways over an invented ranch: checked against the fences themselves, a grid search, and known
// detours.
#include "core/haul/travel_map.h"

#include "core/base/parallel.h"
#include "core/base/random.h"
#include "core/geometry/region.h"
#include "core/haul/travel_graph.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <queue>

namespace haylane {
namespace {

using testing::HasSubstr;
using namespace std::chrono_literals;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr YardId kHome{0};
constexpr PastureId kWest{0};
constexpr PastureId kEast{1};

MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
    return {Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

Trail trail(std::string name, Polyline path, Surface surface) {
    Trail t;
    t.name = std::move(name);
    t.path = {std::move(path)};
    t.surface = surface;
    return t;
}

Gate gate(std::string name, Point at) {
    Gate g;
    g.name = std::move(name);
    g.at = at;
    return g;
}

OffLimits pond(double x0, double y0, double x1, double y1) {
    OffLimits o;
    o.name = "Pond";
    o.kind = OffLimitsKind::water;
    o.area = rectangle(x0, y0, x1, y1);
    return o;
}

Pasture pasture(std::string name, MultiPolygon shape) {
    Pasture p;
    p.name = std::move(name);
    p.shape = std::move(shape);
    return p;
}

// Two pastures side by side; the yard to the west; a dirt lane through both, a two-track across.
Ranch two_pastures() {
    Ranch ranch;
    ranch.pastures = {pasture("West", rectangle(0, -300, 600, 300)),
                      pasture("East", rectangle(600, -300, 1200, 300))};
    ranch.gates = {gate("Lane gate", {0, 0}), gate("Middle gate", {600, 100}),
                   gate("South gate", {600, -200})};
    ranch.trails = {trail("Lane", {{-300, 0}, {0, 0}, {450, 0}, {450, 100}, {600, 100}, {900, 100}},
                          Surface::dirt),
                    trail("Track", {{100, -250}, {100, 250}}, Surface::two_track)};
    Yard yard;
    yard.name = "Home";
    yard.at = {-300, 0};
    ranch.yards = {yard};
    ranch.off_limits = {pond(200, 50, 300, 250), pond(750, -250, 850, 50)};
    return ranch;
}

TravelConditions usual() {
    TravelConditions c;
    c.date = sys_days{2027y / 1 / 11};
    return c;
}

std::vector<std::pair<PastureId, Point>> random_places(std::size_t count, std::uint64_t seed) {
    const Ranch ranch = two_pastures();
    Random random(seed);
    std::vector<std::pair<PastureId, Point>> places;
    while (places.size() < count) {
        const Point p{2.0 + random.uniform() * 1196.0, -298.0 + random.uniform() * 596.0};
        if (std::abs(p.x - 600.0) < 2.0) continue;
        bool wet = false;
        for (const OffLimits& o : ranch.off_limits) wet = wet || contains(o.area, p);
        if (!wet) places.emplace_back(p.x < 600.0 ? kWest : kEast, p);
    }
    return places;
}

// Fences crossed anywhere but near open gates.
int stray_crossings(const Ranch& ranch, const Polyline& path,
                    const std::vector<std::string>& shut = {}) {
    int stray = 0;
    for (const Pasture& p : ranch.pastures) {
        for (const Polyline& ring : boundary_lines(p.shape)) {
            for (std::size_t i = 1; i < path.size(); ++i) {
                for (std::size_t j = 1; j < ring.size(); ++j) {
                    const auto x = segment_crossing(path[i - 1], path[i], ring[j - 1], ring[j]);
                    if (!x) continue;
                    bool by_gate = false;
                    for (const Gate& g : ranch.gates) {
                        const bool open = std::find(shut.begin(), shut.end(), g.name) == shut.end();
                        by_gate =
                            by_gate || (open && distance_m(g.at, *x) <= ranch.settings.gate_snap_m);
                    }
                    if (!by_gate) ++stray;
                }
            }
        }
    }
    return stray;
}

TEST(TravelMap, RoutesCrossFencesOnlyAtOpenGates) {
    const Ranch ranch = two_pastures();
    TravelConditions when = usual();
    for (const std::vector<std::string>& shut :
         {std::vector<std::string>{}, std::vector<std::string>{"Middle gate"}}) {
        when.blocked = shut;
        const TravelMap map(ranch, when);
        for (const auto& [where, place] : random_places(60, 7)) {
            const auto route = map.route(kHome, where, place);
            ASSERT_TRUE(route.has_value()) << place.x << " " << place.y;
            EXPECT_TRUE(route->checked);
            const Polyline path = route->path();
            EXPECT_EQ(stray_crossings(ranch, path, shut), 0) << place.x << " " << place.y;
            EXPECT_EQ(path.front(), ranch.yards[0].at);
            EXPECT_LT(distance_m(path.back(), place), 1e-9);
            EXPECT_NEAR(length_m(path), route->length_m, 1e-6);
            for (const RoutePart& part : route->parts)
                EXPECT_NEAR(length_m(part.path), part.length_m, 1e-6);
        }
    }
}

// Neighbours' fences drawn with gaps or overlaps, gates and trails some metres off.
TEST(TravelMap, SloppyDrawingKeepsRoutesLegal) {
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        Random random(seed);
        const auto off = [&](double most) { return (2.0 * random.uniform() - 1.0) * most; };
        Ranch ranch = two_pastures();
        for (Point& p : ranch.pastures[1].shape[0].outer) p = p + Point{off(3.0), off(3.0)};
        for (Gate& g : ranch.gates) g.at = g.at + Point{off(4.0), off(4.0)};
        for (Trail& t : ranch.trails)
            for (Point& p : t.path[0]) p = p + Point{off(2.0), off(2.0)};
        const TravelMap map(ranch, usual());
        for (const auto& [where, place] : random_places(10, seed + 100)) {
            if (!contains(ranch[where].shape, place) || place.x > 1190.0) continue;
            const auto route = map.route(kHome, where, place);
            ASSERT_TRUE(route.has_value()) << seed << ": " << place.x << " " << place.y;
            EXPECT_EQ(stray_crossings(ranch, route->path()), 0) << seed;
            EXPECT_NEAR(map.time_s(kHome, where, place), route->time_s(), 1e-6);
        }
    }
}

TEST(TravelMap, RoutesKeepOffWater) {
    const Ranch ranch = two_pastures();
    const TravelMap map(ranch, usual());
    for (const auto& [where, place] : random_places(60, 8)) {
        const auto route = map.route(kHome, where, place);
        ASSERT_TRUE(route.has_value());
        for (const RoutePart& part : route->parts) {
            if (part.surface) continue;
            for (const Point p : densified(part.path, 1.0))
                for (const OffLimits& o : ranch.off_limits) EXPECT_FALSE(contains(o.area, p));
        }
    }
}

TEST(TravelMap, TimeIsTheRoutesTime) {
    const Ranch ranch = two_pastures();
    const TravelMap map(ranch, usual());
    for (const auto& [where, place] : random_places(200, 9)) {
        const auto route = map.route(kHome, where, place);
        ASSERT_TRUE(route.has_value());
        EXPECT_NEAR(map.time_s(kHome, where, place), route->time_s(), 1e-6);
        const Route back = reversed(*route);
        EXPECT_DOUBLE_EQ(back.time_s(), route->time_s());
        EXPECT_EQ(back.path(), reversed(route->path()));
    }
}

TEST(TravelMap, ThreadsGetTheSameTimes) {
    const Ranch ranch = two_pastures();
    const TravelMap map(ranch, usual());
    const auto places = random_places(200, 10);
    std::vector<double> one(places.size());
    std::vector<double> two(places.size());
    const auto ask = [&](std::vector<double>& into) {
        return
            [&](std::size_t i) { into[i] = map.time_s(kHome, places[i].first, places[i].second); };
    };
    parallel_for(places.size(), 1, ask(one));
    parallel_for(places.size(), 2, ask(two));
    EXPECT_EQ(one, two);
}

// A grid of 5 m with 32 neighbours (at most 1.31 % too long in the open): fence lines are closed
// but at the gates, trails lie on grid lines.
class GridSearch {
  public:
    explicit GridSearch(const Ranch& ranch) : ranch_(ranch) {
        for (const OffLimits& o : ranch.off_limits) water_.emplace_back(o.area);
        time_.assign(static_cast<std::size_t>(kNx * kNy), kInfinity);
        spread();
    }
    [[nodiscard]] double at(int i, int j) const { return time_[index(i, j)]; }
    [[nodiscard]] static Point place(int i, int j) { return {i * kCell, -300.0 + j * kCell}; }

  private:
    static constexpr int kNx = 241;
    static constexpr int kNy = 121;
    static constexpr double kCell = 5.0;
    static std::size_t index(int i, int j) { return static_cast<std::size_t>(j * kNx + i); }

    static bool on_trail(Point a, Point b, double* speed) {
        const Settings s;
        const auto along = [&](double x0, double y0, double x1, double y1) {
            const auto on = [&](Point p) {
                return p.x >= x0 && p.x <= x1 && p.y >= y0 && p.y <= y1;
            };
            return on(a) && on(b);
        };
        *speed = s.speed_dirt_m_per_s;
        if (along(0, 0, 450, 0) || along(450, 0, 450, 100) || along(450, 100, 900, 100))
            return true;
        *speed = s.speed_two_track_m_per_s;
        return along(100, -250, 100, 250);
    }
    [[nodiscard]] bool is_gate(Point p) const {
        for (const Gate& g : ranch_.gates)
            if (distance_m(g.at, p) < 1e-9) return true;
        return false;
    }
    static bool on_fence(Point p) {
        return p.x <= 0.0 || p.x == 600.0 || p.x >= 1200.0 || std::abs(p.y) >= 300.0;
    }
    [[nodiscard]] bool free(Point a, Point b) const {
        if (on_fence(b) && !is_gate(b)) return false;
        if ((a.x < 600.0) != (b.x < 600.0) && a.x != 600.0 && b.x != 600.0) return false;
        for (const double t : {0.25, 0.5, 0.75, 1.0})
            for (const Region& w : water_)
                if (w.contains(lerp(a, b, t)) && w.distance_to_edge_m(lerp(a, b, t)) > 0.1)
                    return false;
        return true;
    }
    // A gate's time is counted half going in, half going out.
    [[nodiscard]] double step_s(Point a, Point b) const {
        double speed = 0.0;
        if (!on_trail(a, b, &speed)) speed = Settings().speed_pasture_m_per_s;
        return distance_m(a, b) / speed + (is_gate(a) ? 90.0 : 0.0) + (is_gate(b) ? 90.0 : 0.0);
    }
    void spread() {
        std::vector<std::array<int, 2>> moves;
        for (int i = -3; i <= 3; ++i)
            for (int j = -3; j <= 3; ++j)
                if (std::gcd(i, j) == 1) moves.push_back({i, j});
        using Item = std::pair<double, int>;
        std::priority_queue<Item, std::vector<Item>, std::greater<>> open;
        const double lane = 300.0 / Settings().speed_dirt_m_per_s + 90.0;
        time_[index(0, 60)] = lane;
        open.emplace(lane, static_cast<int>(index(0, 60)));
        while (!open.empty()) {
            const auto [time, here] = open.top();
            open.pop();
            if (time > time_[static_cast<std::size_t>(here)]) continue;
            const int i = here % kNx;
            const int j = here / kNx;
            for (const auto& m : moves) {
                const int ni = i + m[0];
                const int nj = j + m[1];
                if (ni < 0 || nj < 0 || ni >= kNx || nj >= kNy) continue;
                if (!free(place(i, j), place(ni, nj))) continue;
                const double t = time + step_s(place(i, j), place(ni, nj));
                if (t >= time_[index(ni, nj)]) continue;
                time_[index(ni, nj)] = t;
                open.emplace(t, static_cast<int>(index(ni, nj)));
            }
        }
    }

    const Ranch& ranch_;
    std::vector<Region> water_;
    std::vector<double> time_;
};

TEST(TravelMap, AgreesWithAGridSearch) {
    const Ranch ranch = two_pastures();
    const TravelMap map(ranch, usual());
    const GridSearch grid(ranch);
    Random random(11);
    int asked = 0;
    while (asked < 150) {
        const int i = 1 + static_cast<int>(random.below(238));
        const int j = 1 + static_cast<int>(random.below(118));
        const Point p = GridSearch::place(i, j);
        bool near_water = p.x == 600.0;
        for (const OffLimits& o : ranch.off_limits)
            near_water = near_water || box_of(o.area).grown_by(1.0).contains(p);
        if (near_water) continue;
        ++asked;
        const double exact = map.time_s(kHome, p.x < 600.0 ? kWest : kEast, p);
        EXPECT_LE(exact, grid.at(i, j) * 1.002 + 1.0) << p.x << " " << p.y;
        EXPECT_GE(exact, grid.at(i, j) * 0.98) << p.x << " " << p.y;
    }
}

// Round a rectangle x 4..6, y -1..3 from (0,0) to (10,0): 10.246211251 below, 12.0 above
// (computed); here ten times as large.
TEST(TravelMap, DetourRoundARectangle) {
    Ranch ranch;
    ranch.pastures = {pasture("Big", rectangle(-500, -500, 500, 500))};
    ranch.gates = {gate("Gate", {-500, 0})};
    Yard yard;
    yard.name = "Inside";
    ranch.yards = {yard};
    ranch.off_limits = {pond(40, -10, 60, 30)};
    auto route = TravelMap(ranch, usual()).route(kHome, kWest, {100, 0});
    ASSERT_TRUE(route.has_value());
    EXPECT_NEAR(route->length_m, 102.46211251, 0.03);
    EXPECT_NEAR(route->drive_s, route->length_m / ranch.settings.speed_pasture_m_per_s, 1e-9);
    EXPECT_EQ(route->gate_s, 0.0);
    ranch.off_limits = {pond(40, -600, 60, 30)};
    route = TravelMap(ranch, usual()).route(kHome, kWest, {100, 0});
    ASSERT_TRUE(route.has_value());
    EXPECT_NEAR(route->length_m, 120.0, 0.03);
}

// The leaving point against a fine search along the trail.
TEST(TravelMap, TrailsAreLeftAtTheBestPlace) {
    const Point a{0, 0};
    const Point b{200, 50};
    const double field = 1.8;
    const double fast = 3.6;
    Random random(3);
    int inner = 0;
    for (int k = 0; k < 50; ++k) {
        const Point p{random.uniform() * 250.0, -60.0 + random.uniform() * 200.0};
        const double length = distance_m(a, b);
        const auto time = [&](double d) {
            return d / fast + distance_m(lerp(a, b, d / length), p) / field;
        };
        double best = std::min(time(0.0), time(length));
        for (const double d : leaving_points_m(a, b, p, field, fast))
            best = std::min(best, time(d));
        double searched = kInfinity;
        for (double d = 0.0; d <= length; d += 0.05) searched = std::min(searched, time(d));
        EXPECT_LE(best, searched + 1e-9);
        EXPECT_NEAR(best, searched, 1e-3);
        if (best < std::min(time(0.0), time(length)) - 1e-6) ++inner;
    }
    EXPECT_GT(inner, 10);
}

TEST(TravelMap, AClosedGateMakesADetour) {
    const Ranch ranch = two_pastures();
    TravelConditions when = usual();
    const Point place{650, 120};
    const auto usual_way = TravelMap(ranch, when).route(kHome, kEast, place);
    ASSERT_TRUE(usual_way.has_value());
    EXPECT_EQ(ranch[usual_way->last_gate.value()].name, "Middle gate");
    EXPECT_EQ(usual_way->via,
              (std::vector<std::string>{"Lane", "Lane gate", "Lane", "Middle gate", "Lane"}));
    EXPECT_DOUBLE_EQ(usual_way->gate_s, 360.0);
    when.blocked = {"Middle gate"};
    const auto detour = TravelMap(ranch, when).route(kHome, kEast, place);
    ASSERT_TRUE(detour.has_value());
    EXPECT_EQ(ranch[detour->last_gate.value()].name, "South gate");
    EXPECT_GT(detour->time_s(), usual_way->time_s());
}

TEST(TravelMap, AClosedOnlyGateIsNamed) {
    Ranch ranch = two_pastures();
    ranch.gates.erase(ranch.gates.begin() + 2);
    ranch.gates[1].closed = {parse_date_mark("12-01").value(), parse_date_mark("02-01").value()};
    const TravelMap map(ranch, usual());
    EXPECT_FALSE(map.route(kHome, kEast, {650, 120}).has_value());
    EXPECT_EQ(map.time_s(kHome, kEast, {650, 120}), kInfinity);
    EXPECT_EQ(map.why_not(kHome, kEast, usual().date), "Gate Middle gate is closed on 2027-01-11.");
    // A map may stand for other days on which the same ways are open.
    EXPECT_EQ(map.why_not(kHome, kEast, usual().date + std::chrono::days{2}),
              "Gate Middle gate is closed on 2027-01-13.");
    EXPECT_TRUE(map.route(kHome, kWest, {300, -100}).has_value());
    EXPECT_EQ(map.gates_of(kEast).size(), 1U);
    TravelConditions spring = usual();
    spring.date = sys_days{2027y / 3 / 1};
    EXPECT_TRUE(TravelMap(ranch, spring).route(kHome, kEast, {650, 120}).has_value());
}

// Dirt carries on a thaw day only after a cold night; a straight line beside it is no way out.
TEST(TravelMap, AThawShutsDirt) {
    const Ranch ranch = two_pastures();
    TravelConditions thaw = usual();
    thaw.thaw = true;
    for (const std::optional<double> low : {std::optional<double>{}, std::optional<double>{-2.0}}) {
        thaw.low_c = low;
        const TravelMap map(ranch, thaw);
        EXPECT_FALSE(map.route(kHome, kWest, {50, 50}).has_value());
        EXPECT_EQ(map.why_not(kHome, kWest, usual().date), "Trail Lane is soft in a thaw.");
    }
    thaw.low_c = -2.3;
    EXPECT_TRUE(TravelMap(ranch, thaw).route(kHome, kWest, {50, 50}).has_value());
    Ranch gravel = ranch;
    gravel.trails[0].surface = Surface::gravel;
    thaw.low_c.reset();
    EXPECT_TRUE(TravelMap(gravel, thaw).route(kHome, kWest, {50, 50}).has_value());
}

TEST(TravelMap, AWeightLimitShutsATrail) {
    Ranch ranch = two_pastures();
    ranch.trails[0].max_kg = 10000.0;
    TravelConditions heavy = usual();
    heavy.loaded_kg = 10001.0;
    const TravelMap over(ranch, heavy);
    EXPECT_FALSE(over.route(kHome, kWest, {50, 50}).has_value());
    EXPECT_EQ(over.why_not(kHome, kWest, usual().date),
              "Trail Lane does not carry the weight of this load.");
    heavy.loaded_kg = 10000.0;
    EXPECT_TRUE(TravelMap(ranch, heavy).route(kHome, kWest, {50, 50}).has_value());
}

// A single trail in a test of its end: a lane from the yard to `short_m` west of the gate.
Ranch lane_that_stops(double short_m) {
    Ranch ranch;
    ranch.pastures = {pasture("West", rectangle(0, -300, 600, 300))};
    ranch.gates = {gate("Lane gate", {0, 0})};
    ranch.trails = {trail("Lane", {{-300, 0}, {-short_m, 0}}, Surface::gravel)};
    Yard yard;
    yard.name = "Home";
    yard.at = {-300, 0};
    ranch.yards = {yard};
    return ranch;
}

TEST(TravelMap, TrailEndsSnapToGates) {
    const Ranch near = lane_that_stops(12.0);
    EXPECT_TRUE(TravelMap(near, usual()).route(kHome, kWest, {300, 0}).has_value());
    const Ranch far = lane_that_stops(20.0);
    const TravelMap map(far, usual());
    EXPECT_FALSE(map.route(kHome, kWest, {300, 0}).has_value());
    EXPECT_EQ(map.why_not(kHome, kWest, usual().date),
              "Trail Lane stops 66 ft short of gate Lane gate.");
    Ranch metric = far;
    metric.settings.units = "metric";
    EXPECT_EQ(TravelMap(metric, usual()).why_not(kHome, kWest, usual().date),
              "Trail Lane stops 20 m short of gate Lane gate.");
}

// Trail ends near other trails join; trails that cross join at the crossing.
TEST(TravelMap, TrailsJoinWhereTheyCross) {
    Ranch ranch = lane_that_stops(0.0);
    ranch.trails = {trail("East road", {{-300, 0}, {-50, 0}}, Surface::gravel),
                    trail("North road", {{-100, -200}, {-100, 200}}, Surface::gravel),
                    trail("Gate road", {{-88, 190}, {0, 190}}, Surface::gravel)};
    ranch.gates = {gate("North gate", {0, 190})};
    const auto route = TravelMap(ranch, usual()).route(kHome, kWest, {10, 190});
    ASSERT_TRUE(route.has_value());
    EXPECT_EQ(route->via,
              (std::vector<std::string>{"East road", "North road", "Gate road", "North gate"}));
    EXPECT_NEAR(route->length_m, 200.0 + 190.0 + 100.0 + 10.0, 0.5);
    ranch.trails[2].path = {{{-80, 190}, {0, 190}}};
    EXPECT_FALSE(TravelMap(ranch, usual()).route(kHome, kWest, {10, 190}).has_value());
}

TEST(TravelMap, ATrailOverAFenceWithoutGateIsCutOnce) {
    Ranch ranch = two_pastures();
    ranch.gates.erase(ranch.gates.begin() + 1);
    const TravelMap map(ranch, usual());
    int told = 0;
    for (const Problem& p : map.problems())
        if (p.code == "trail_crosses_fence_without_gate") ++told;
    EXPECT_EQ(told, 1);
    const auto route = map.route(kHome, kEast, {650, 100});
    ASSERT_TRUE(route.has_value());
    EXPECT_EQ(ranch[route->last_gate.value()].name, "South gate");
    EXPECT_EQ(stray_crossings(ranch, route->path()), 0);
}

TEST(TravelMap, SnowSlowsAllButPavement) {
    Ranch ranch = two_pastures();
    TravelConditions snow = usual();
    snow.snow = true;
    const Point place{300, -100};
    const auto dry = TravelMap(ranch, usual()).route(kHome, kWest, place);
    const auto slow = TravelMap(ranch, snow).route(kHome, kWest, place);
    ASSERT_TRUE(dry && slow);
    EXPECT_NEAR(slow->drive_s, dry->drive_s / 0.7, 1e-6);
    ranch.trails[0].surface = Surface::paved;
    const auto paved = TravelMap(ranch, snow).route(kHome, kWest, place);
    ASSERT_TRUE(paved.has_value());
    EXPECT_DOUBLE_EQ(paved->parts.front().speed_m_per_s, ranch.settings.speed_paved_m_per_s);
    ranch.trails[0].speed_m_per_s = 4.0;
    EXPECT_DOUBLE_EQ(TravelMap(ranch, snow).route(kHome, kWest, place)->parts[0].speed_m_per_s,
                     4.0);
}

TEST(TravelMap, NoGatesAndTrailsIsAStraightLineNotChecked) {
    Ranch ranch = two_pastures();
    ranch.gates.clear();
    ranch.trails.clear();
    const TravelMap map(ranch, usual());
    const Point place{100, 300};
    const auto route = map.route(kHome, kWest, place);
    ASSERT_TRUE(route.has_value());
    EXPECT_FALSE(route->checked);
    EXPECT_DOUBLE_EQ(route->length_m, 500.0 * 1.3);
    EXPECT_NEAR(route->time_s(), 650.0 / 1.78816, 1e-9);
    EXPECT_NEAR(map.time_s(kHome, kWest, place), route->time_s(), 1e-9);
    ASSERT_EQ(map.problems().size(), 1U);
    EXPECT_EQ(map.problems()[0].code, "way_not_checked");
}

TEST(TravelMap, AYardOffTheTrailGoesStraightToIt) {
    Ranch ranch = two_pastures();
    ranch.yards[0].at = {-100, 80};
    const TravelMap map(ranch, usual());
    const auto route = map.route(kHome, kWest, {50, 0});
    ASSERT_TRUE(route.has_value());
    EXPECT_FALSE(route->checked);
    EXPECT_NEAR(route->parts.front().length_m, 80.0 * 1.3, 1e-9);
    ASSERT_FALSE(map.problems().empty());
    EXPECT_THAT(map.problems()[0].text, HasSubstr("yard Home"));
}

// A lot fenced inside a pasture but drawn on top of it is not driven through.
TEST(TravelMap, AFencedLotInsideAPastureIsGoneRound) {
    Ranch ranch = two_pastures();
    ranch.off_limits.clear();
    ranch.trails.pop_back();
    ranch.pastures.push_back(pasture("Lot", rectangle(50, -200, 150, -50)));
    const TravelMap map(ranch, usual());
    const auto route = map.route(kHome, kWest, {170, -190});
    ASSERT_TRUE(route.has_value());
    EXPECT_EQ(stray_crossings(ranch, route->path()), 0);
    EXPECT_FALSE(map.route(kHome, PastureId{2}, {100, -100}).has_value());
    EXPECT_EQ(map.why_not(kHome, PastureId{2}, usual().date),
              "No gate is drawn on the fence of Lot.");
}

}  // namespace
}  // namespace haylane
