// Ways through gates against a twin that joins every vertex of the map with every other: its own
// test of sight (orientation of three points, edge by edge), its own move of a vertex off the
// fence, Dijkstra by scanning a dense table. What the twin takes over is what a place means: the
// ground that may be driven (TravelMap::space) and where a gate or yard enters it (entry_point).
#include "core/haul/travel_graph.h"
#include "tests/haul/ways_support.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kHair_m = 0.01;     // corners stand this far inside (visibility.h)
constexpr double kFenceGap_m = 1.0;  // driven ground keeps this far off fences

double turn(Point a, Point b, Point c) { return cross(b - a, c - a); }

bool meet(Point a, Point b, Point c, Point d) {
    return (turn(a, b, c) > 0.0) != (turn(a, b, d) > 0.0) &&
           (turn(c, d, a) > 0.0) != (turn(c, d, b) > 0.0);
}

class DenseWays {
  public:
    DenseWays(const MadeMap& made, const TravelMap& map) : ranch_(made.ranch), map_(map) {
        for (std::size_t p = 0; p < ranch_.pastures.size(); ++p) {
            fields_.emplace_back();
            for (const Polyline& ring : boundary_lines(shape(p))) add_vertices(p, ring);
        }
        for (const Gate& gate : ranch_.gates) {
            const auto& shut = made.when.blocked;
            if (std::find(shut.begin(), shut.end(), gate.name) == shut.end()) add_gate(gate);
        }
        for (const Yard& yard : ranch_.yards) add_yard(yard);
        for (std::size_t p = 0; p < fields_.size(); ++p) link_all(p);
    }

    // Least metres-by-time from a yard to every node.
    [[nodiscard]] std::vector<double> times_s(YardId yard) const {
        const std::size_t count = nodes_.size();
        std::vector<double> time(count, kInfinity);
        std::vector<bool> done(count, false);
        time[yards_[yard.index()]] = 0.0;
        for (;;) {
            std::size_t here = count;
            for (std::size_t v = 0; v < count; ++v)
                if (!done[v] && time[v] < kInfinity && (here == count || time[v] < time[here]))
                    here = v;
            if (here == count) return time;
            done[here] = true;
            for (const auto& [next, seconds] : links_[here])
                time[next] = std::min(time[next], time[here] + seconds);
        }
    }
    [[nodiscard]] double to_place_s(const std::vector<double>& times, PastureId pasture,
                                    Point to) const {
        const std::size_t p = pasture.index();
        const auto entry = entry_point(map_.space(pasture), to, ranch_.settings.trail_snap_m);
        if (!entry) return kInfinity;
        double best = kInfinity;
        for (const std::size_t v : fields_[p]) {
            const double time = times[v] + seconds(distance_m(nodes_[v], *entry));
            if (time < best && sees(p, nodes_[v], *entry)) best = time;
        }
        return best + seconds(distance_m(*entry, to));
    }

  private:
    [[nodiscard]] const MultiPolygon& shape(std::size_t p) const {
        return map_.space(PastureId::at(p)).region().shape();
    }
    [[nodiscard]] double seconds(double meters) const {
        return meters / ranch_.settings.speed_pasture_m_per_s;
    }
    [[nodiscard]] bool sees(std::size_t p, Point a, Point b) const {
        for (const Polygon& polygon : shape(p)) {
            std::vector<Ring> rings = polygon.holes;
            rings.push_back(polygon.outer);
            for (const Ring& ring : rings)
                for (std::size_t i = 0; i < ring.size(); ++i)
                    if (meet(a, b, ring[i], ring[(i + 1) % ring.size()])) return false;
        }
        return contains(shape(p), lerp(a, b, 0.5));
    }
    std::size_t add_node(Point at) {
        nodes_.push_back(at);
        links_.emplace_back();
        return nodes_.size() - 1;
    }
    void link(std::size_t a, std::size_t b, double seconds) {
        links_[a].emplace_back(b, seconds);
        links_[b].emplace_back(a, seconds);
    }
    // Every vertex, convex ones too, a hair off its two edges' middle: towards the free side.
    void add_vertices(std::size_t p, const Polyline& ring) {
        const std::size_t count = ring.size() - 1;
        for (std::size_t i = 0; i < count; ++i) {
            const Point in = ring[i] - ring[(i + count - 1) % count];
            const Point out = ring[i + 1] - ring[i];
            const Point left = Point{-in.y, in.x} * (1.0 / norm_m(in)) +
                               Point{-out.y, out.x} * (1.0 / norm_m(out));
            for (const double side : {kHair_m, -kHair_m}) {
                const Point moved = ring[i] + left * (side / norm_m(left));
                if (contains(shape(p), moved)) fields_[p].push_back(add_node(moved));
            }
        }
    }
    void enter(std::size_t p, std::size_t node, double limit_m) {
        const auto entry = entry_point(map_.space(PastureId::at(p)), nodes_[node], limit_m);
        if (!entry) return;
        const std::size_t inside = add_node(*entry);
        link(node, inside, seconds(distance_m(nodes_[node], *entry)));
        fields_[p].push_back(inside);
    }
    void add_gate(const Gate& gate) {
        std::vector<std::size_t> sides{add_node(gate.at)};
        sides_.push_back({-1, sides[0]});
        for (std::size_t p = 0; p < ranch_.pastures.size(); ++p) {
            double away = kInfinity;
            for (const Polyline& ring : boundary_lines(ranch_.pastures[p].shape))
                away = std::min(away, distance_m(gate.at, ring));
            if (away > ranch_.settings.gate_snap_m) continue;
            sides.push_back(add_node(gate.at));
            sides_.push_back({static_cast<int>(p), sides.back()});
            enter(p, sides.back(), ranch_.settings.gate_snap_m + 2.0 * kFenceGap_m);
        }
        for (std::size_t i = 0; i < sides.size(); ++i)
            for (std::size_t j = 0; j < i; ++j) link(sides[i], sides[j], gate.open_s);
    }
    // A yard is driven to straight from a gate beside it. Made maps have yards inside pastures, and
    // outside only right at a gate.
    void add_yard(const Yard& yard) {
        const std::size_t node = add_node(yard.at);
        yards_.push_back(node);
        const int p = pasture_at(ranch_, yard.at);
        if (p >= 0) enter(static_cast<std::size_t>(p), node, ranch_.settings.setback_building_m);
        for (const auto& [region, gate] : sides_) {
            const double away = distance_m(nodes_[gate], yard.at);
            if (region == p && away <= ranch_.settings.trail_snap_m &&
                only_fence_is_at(nodes_[gate], yard.at))
                link(node, gate, seconds(away));
        }
    }
    [[nodiscard]] bool only_fence_is_at(Point gate, Point from) const {
        const double away = distance_m(gate, from);
        const double share = std::max(0.0, 1.0 - ranch_.settings.gate_snap_m / away);
        const Point near_gate = lerp(from, gate, share);
        for (const Pasture& pasture : ranch_.pastures)
            for (const Polyline& ring : boundary_lines(pasture.shape))
                for (std::size_t i = 1; i < ring.size(); ++i)
                    if (meet(from, near_gate, ring[i - 1], ring[i])) return false;
        return true;
    }
    void link_all(std::size_t p) {
        for (std::size_t i = 0; i < fields_[p].size(); ++i)
            for (std::size_t j = 0; j < i; ++j) {
                const Point a = nodes_[fields_[p][i]];
                const Point b = nodes_[fields_[p][j]];
                if (sees(p, a, b)) link(fields_[p][i], fields_[p][j], seconds(distance_m(a, b)));
            }
    }

    const Ranch& ranch_;
    const TravelMap& map_;
    std::vector<Point> nodes_;
    std::vector<std::vector<std::pair<std::size_t, double>>> links_;
    std::vector<std::vector<std::size_t>> fields_;    // nodes in each pasture's free ground
    std::vector<std::pair<int, std::size_t>> sides_;  // of open gates: pasture (-1 none), node
    std::vector<std::size_t> yards_;
};

// Off trails all is driven at one speed, so the least time is the shortest way and the minutes at
// gates. Yards: one outside at a gate, two inside.
MadeMap uniform_map(std::uint64_t seed) {
    MapMaker maker(seed, 1 + static_cast<int>(seed % 3), 1 + static_cast<int>(seed / 3 % 2));
    maker.add_yard_at_south_gate();
    maker.add_inner_gates(0.9);
    maker.block_some_gates(0.15, 1);
    maker.add_water(static_cast<int>(maker.random().below(7)), 5.0, 45.0);
    while (maker.ranch().yards.size() < 3) {
        const Point at = maker.anywhere();
        if (pasture_at(maker.ranch(), at) >= 0) maker.add_yard(at);
    }
    return maker.take();
}

TEST(WaysByBruteForce, FiveHundredMapsToABillionth) {
    int compared = 0;
    int through_gates = 0;
    int with_turns = 0;
    int cut_off = 0;
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
        SCOPED_TRACE(seed);
        const MadeMap made = uniform_map(seed);
        const TravelMap map(made.ranch, made.when);
        const DenseWays twin(made, map);
        Random random(seed + 1000);
        for (std::size_t y = 0; y < made.ranch.yards.size(); ++y) {
            const std::vector<double> times = twin.times_s(YardId::at(y));
            for (std::size_t p = 0; p < made.ranch.pastures.size(); ++p) {
                const Point center = centroid(made.ranch.pastures[p].shape);
                const Point to =
                    center + Point{between(random, -60.0, 60.0), between(random, -60.0, 60.0)};
                if (pasture_at(made.ranch, to) != static_cast<int>(p)) continue;
                const double expected = twin.to_place_s(times, PastureId::at(p), to);
                const double found = map.time_s(YardId::at(y), PastureId::at(p), to);
                ++compared;
                if (!std::isfinite(expected)) {
                    EXPECT_EQ(found, expected) << y << " to " << p;
                    ++cut_off;
                    continue;
                }
                EXPECT_NEAR(found, expected, 1e-9) << y << " to " << p;
                const auto route = map.route(YardId::at(y), PastureId::at(p), to);
                ASSERT_TRUE(route.has_value());
                EXPECT_NEAR(route->time_s(), expected, 1e-9);
                through_gates += route->via.size() > 1 ? 1 : 0;
                with_turns += route->path().size() > 2 * route->via.size() + 3 ? 1 : 0;
            }
        }
    }
    // The maps must be of the kind that is meant, or the comparison says little.
    EXPECT_GT(compared, 3000);
    EXPECT_GT(through_gates, 800);
    EXPECT_GT(with_turns, 500);
    EXPECT_GT(cut_off, 100);
    EXPECT_LT(cut_off, compared / 2);
}

}  // namespace
}  // namespace haylane
