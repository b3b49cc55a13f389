#include "app/desktop/ranch/corners.h"

#include <algorithm>
#include <functional>

namespace haylane {
namespace {

constexpr double kSame_m = 0.5;

// Every run of corners, and whether it closes on itself.
void for_each_run(RowShape& shape, const std::function<void(std::vector<Point>&, bool ring)>& fn) {
    if (auto* lines = std::get_if<MultiPolyline>(&shape))
        for (Polyline& line : *lines) fn(line, false);
    if (auto* areas = std::get_if<MultiPolygon>(&shape)) {
        for (Polygon& area : *areas) {
            fn(area.outer, true);
            for (Ring& hole : area.holes) fn(hole, true);
        }
    }
}

}  // namespace

std::vector<Point> corners_of(const RowShape& shape) {
    std::vector<Point> all;
    if (const auto* point = std::get_if<Point>(&shape)) all.push_back(*point);
    if (const auto* points = std::get_if<std::vector<Point>>(&shape)) all = *points;
    RowShape copy = shape;
    for_each_run(copy, [&](const std::vector<Point>& run, bool) {
        all.insert(all.end(), run.begin(), run.end());
    });
    return all;
}

MultiPolyline outline_of(const RowShape& shape) {
    MultiPolyline all;
    RowShape copy = shape;
    for_each_run(copy, [&](std::vector<Point>& run, bool ring) {
        if (ring && !run.empty()) run.push_back(run.front());
        all.push_back(run);
    });
    return all;
}

bool is_area(const RowShape& shape) { return std::holds_alternative<MultiPolygon>(shape); }

bool move_corners(RowShape& shape, Point from, Point to) {
    bool any = false;
    const auto move = [&](Point& p) {
        if (distance_m(p, from) > kSame_m) return;
        p = to;
        any = true;
    };
    if (auto* point = std::get_if<Point>(&shape)) move(*point);
    if (auto* points = std::get_if<std::vector<Point>>(&shape))
        for (Point& p : *points) move(p);
    for_each_run(shape, [&](std::vector<Point>& run, bool) {
        for (Point& p : run) move(p);
    });
    return any;
}

bool add_corner(RowShape& shape, Point at) {
    bool any = false;
    for_each_run(shape, [&](std::vector<Point>& run, bool ring) {
        const std::size_t pieces = ring ? run.size() : run.size() - 1;
        if (run.size() < 2) return;
        for (std::size_t i = 0; i < pieces; ++i) {
            const Point a = run[i];
            const Point b = run[(i + 1) % run.size()];
            if (distance_m(nearest_on_segment(at, a, b), at) > kSame_m) continue;
            if (distance_m(a, at) > kSame_m && distance_m(b, at) > kSame_m)
                run.insert(run.begin() + static_cast<std::ptrdiff_t>(i) + 1, at);
            any = true;
            return;
        }
    });
    return any;
}

bool remove_corner(RowShape& shape, Point at) {
    bool any = false;
    for_each_run(shape, [&](std::vector<Point>& run, bool ring) {
        const std::size_t least = ring ? 3 : 2;
        for (std::size_t i = run.size(); i-- > 0 && run.size() > least;) {
            if (distance_m(run[i], at) > kSame_m) continue;
            run.erase(run.begin() + static_cast<std::ptrdiff_t>(i));
            any = true;
        }
    });
    return any;
}

std::optional<Point> on_outline(const RowShape& shape, Point p) {
    std::optional<Point> nearest;
    for (const Polyline& line : outline_of(shape)) {
        if (line.size() < 2) continue;
        const Foot foot = nearest_foot(p, line);
        if (!nearest || foot.away_m < distance_m(p, *nearest)) nearest = foot.at;
    }
    return nearest;
}

}  // namespace haylane
