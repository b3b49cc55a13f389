// A shortest way among obstacles turns only at corners where the free area is reflex, and such a
// corner sees the next one (Lozano-Perez and Wesley 1979, CACM 22:560-570). Corners are found once;
// a query runs A* over them with the straight distance as the bound, testing sight to its two ends.
#include "core/geometry/visibility.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

#include <queue>

namespace haylane {

namespace {

constexpr double kHair_m = 0.01;

// Corners of one ring where the free area (left of the ring's run) has more than half a turn round
// it, moved a hair into the free area. A corner in a slot too narrow for that stays where it is.
void add_corners(std::vector<Point>& corners, Ring ring, bool counter_clockwise,
                 const Region& region) {
    ring.erase(std::unique(ring.begin(), ring.end()), ring.end());
    if (ring.size() < 3) return;
    if ((ring_area_m2(ring) > 0.0) != counter_clockwise) std::reverse(ring.begin(), ring.end());
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point at = ring[i];
        const Point in = at - ring[(i + ring.size() - 1) % ring.size()];
        const Point out = ring[(i + 1) % ring.size()] - at;
        if (cross(in, out) >= 0.0) continue;
        const Point bisector = in * (1.0 / norm_m(in)) - out * (1.0 / norm_m(out));
        const double size = norm_m(bisector);
        const Point moved = size > 0.0 ? at + bisector * (kHair_m / size) : at;
        corners.push_back(region.covers_segment(at, moved) ? moved : at);
    }
}

struct Open {
    double bound_m = 0.0;  // driven so far and straight on to the goal
    int corner = 0;
    bool operator>(const Open& other) const {
        return bound_m != other.bound_m ? bound_m > other.bound_m : corner > other.corner;
    }
};

// Best known ways to each corner, and last the goal.
struct Search {
    std::vector<double> driven_m;
    std::vector<int> before;  // corner before this one; -1 the start
    std::priority_queue<Open, std::vector<Open>, std::greater<>> open;

    explicit Search(std::size_t count)
        : driven_m(count, std::numeric_limits<double>::infinity()), before(count, -1) {}

    void reach(int corner, int from, double driven, double ahead) {
        const auto i = static_cast<std::size_t>(corner);
        if (driven >= driven_m[i]) return;
        driven_m[i] = driven;
        before[i] = from;
        open.push({driven + ahead, corner});
    }
};

}  // namespace

FreeSpace::FreeSpace(MultiPolygon free) : region_(std::move(free)) {
    for (const Polygon& polygon : region_.shape()) {
        add_corners(corners_, polygon.outer, true, region_);
        for (const Ring& hole : polygon.holes) add_corners(corners_, hole, false, region_);
    }
    seen_from_.resize(corners_.size());
    for (std::size_t i = 0; i < corners_.size(); ++i) {
        for (std::size_t j = i + 1; j < corners_.size(); ++j) {
            if (!sees(corners_[i], corners_[j])) continue;
            sights_.push_back(
                {static_cast<int>(i), static_cast<int>(j), distance_m(corners_[i], corners_[j])});
            seen_from_[i].push_back(static_cast<int>(j));
            seen_from_[j].push_back(static_cast<int>(i));
        }
    }
}

std::optional<Polyline> FreeSpace::way(Point a, Point b) const {
    if (!sees(a, a) || !sees(b, b)) return std::nullopt;
    if (sees(a, b)) return Polyline{a, b};
    const int goal = static_cast<int>(corners_.size());
    Search search(corners_.size() + 1);
    for (int i = 0; i < goal; ++i) {
        const Point corner = corners_[static_cast<std::size_t>(i)];
        if (sees(a, corner)) search.reach(i, -1, distance_m(a, corner), distance_m(corner, b));
    }
    while (!search.open.empty() && search.open.top().corner != goal) {
        const int here = search.open.top().corner;
        const Point at = corners_[static_cast<std::size_t>(here)];
        const double driven = search.driven_m[static_cast<std::size_t>(here)];
        const bool stale = search.open.top().bound_m > driven + distance_m(at, b);
        search.open.pop();
        if (stale) continue;
        if (sees(at, b)) search.reach(goal, here, driven + distance_m(at, b), 0.0);
        for (const int next : seen_from_[static_cast<std::size_t>(here)]) {
            const Point to = corners_[static_cast<std::size_t>(next)];
            search.reach(next, here, driven + distance_m(at, to), distance_m(to, b));
        }
    }
    if (search.open.empty()) return std::nullopt;
    Polyline way{b};
    for (int i = search.before.back(); i >= 0; i = search.before[static_cast<std::size_t>(i)])
        way.push_back(corners_[static_cast<std::size_t>(i)]);
    way.push_back(a);
    return reversed(std::move(way));
}

}  // namespace haylane
