// Spans still to be looked at stand in a list, not on the call stack: a spiral would nest as deep
// as it has points. Distance is to the segment, not to its endless line, so that a rig that went
// past the end and came back keeps the place where it turned.
//
// By area: a heap of triangles, the least on top. One whose neighbour went is entered anew; the old
// entry is passed over by its number.
#include "core/geometry/simplify.h"

#include <cmath>
#include <cstdint>
#include <tuple>
#include <utility>

#include <queue>

namespace haylane {

Polyline simplified(const Polyline& line, double tolerance_m) {
    if (line.size() < 3) return line;
    std::vector<bool> kept(line.size(), false);
    kept.front() = kept.back() = true;
    std::vector<std::pair<std::size_t, std::size_t>> spans{{0, line.size() - 1}};
    while (!spans.empty()) {
        const auto [from, to] = spans.back();
        spans.pop_back();
        double farthest_m = tolerance_m;
        std::size_t at = from;
        for (std::size_t i = from + 1; i < to; ++i) {
            const double away_m =
                distance_m(line[i], nearest_on_segment(line[i], line[from], line[to]));
            if (away_m <= farthest_m) continue;
            farthest_m = away_m;
            at = i;
        }
        if (at == from) continue;
        kept[at] = true;
        spans.emplace_back(from, at);
        spans.emplace_back(at, to);
    }
    Polyline out;
    for (std::size_t i = 0; i < line.size(); ++i)
        if (kept[i]) out.push_back(line[i]);
    return out;
}

namespace {

struct Corner {
    double area_m2;
    std::size_t at;
    std::uint32_t version;
    bool operator>(const Corner& other) const {
        return std::tie(area_m2, at) > std::tie(other.area_m2, other.at);
    }
};

bool is_tip(Point before, Point here, Point after, double tip_m) {
    return dot(here - before, after - here) <= 0.0 &&
           distance_m(here, nearest_on_segment(here, before, after)) > tip_m;
}

}  // namespace

Polyline simplified_by_area(const Polyline& line, double area_m2, double tip_m) {
    if (line.size() < 3) return line;
    std::vector<std::size_t> before(line.size());
    std::vector<std::size_t> after(line.size());
    std::vector<std::uint32_t> version(line.size(), 0);
    std::vector<bool> gone(line.size(), false);
    std::priority_queue<Corner, std::vector<Corner>, std::greater<>> corners;
    const auto enter = [&](std::size_t i) {
        const Point a = line[before[i]] - line[i];
        const Point b = line[after[i]] - line[i];
        corners.push({0.5 * std::abs(cross(a, b)), i, ++version[i]});
    };
    for (std::size_t i = 0; i < line.size(); ++i) {
        before[i] = i == 0 ? 0 : i - 1;
        after[i] = i + 1;
    }
    for (std::size_t i = 1; i + 1 < line.size(); ++i) enter(i);
    while (!corners.empty() && corners.top().area_m2 <= area_m2) {
        const Corner least = corners.top();
        corners.pop();
        if (gone[least.at] || least.version != version[least.at]) continue;
        const std::size_t a = before[least.at];
        const std::size_t b = after[least.at];
        if (is_tip(line[a], line[least.at], line[b], tip_m)) continue;
        gone[least.at] = true;
        after[a] = b;
        before[b] = a;
        if (a > 0) enter(a);
        if (b + 1 < line.size()) enter(b);
    }
    Polyline out;
    for (std::size_t i = 0; i < line.size(); ++i)
        if (!gone[i]) out.push_back(line[i]);
    return out;
}

}  // namespace haylane
