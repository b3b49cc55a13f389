// Shoelace sums are taken about the ring's first point, so that a far origin costs no digits.
// The label point is the centre of GEOS's maximum inscribed circle; shapes too thin for its square
// search cells, or that GEOS refuses, get the middle of the widest cut across them.
#include "core/geometry/polygon.h"

#include "core/base/require.h"
#include "core/geometry/geos_session.h"
#include "core/geometry/region.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr double kThin_ratio = 1e-3;  // box sides beyond this ratio are no job for square cells

// Area and area-weighted sum of places about `origin`, signed as the ring runs.
struct Moments {
    double area_m2 = 0.0;
    Point weighted;
};

Moments moments(const Ring& ring, Point origin) {
    Moments sum;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i] - origin;
        const Point b = ring[(i + 1) % ring.size()] - origin;
        const double twice = cross(a, b);
        sum.area_m2 += twice / 2.0;
        sum.weighted = sum.weighted + (a + b) * (twice / 6.0);
    }
    return sum;
}

bool odd_crossings(const Ring& ring, Point p) {
    bool odd = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i];
        const Point b = ring[(i + 1) % ring.size()];
        if ((a.y > p.y) == (b.y > p.y)) continue;
        if (p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) odd = !odd;
    }
    return odd;
}

Point mean_vertex(const MultiPolygon& shape) {
    Point sum;
    double count = 0.0;
    for (const Polygon& polygon : shape) {
        for (const Point p : polygon.outer) {
            sum = sum + p;
            count += 1.0;
        }
    }
    return count > 0.0 ? sum * (1.0 / count) : sum;
}

// Middle of the longest inside span over a few cuts across the box's long side.
Point widest_cut_middle(const MultiPolygon& shape) {
    const Region region(shape);
    const Box box = region.box();
    const bool wide = box.max_x - box.min_x >= box.max_y - box.min_y;
    Point best = centroid(shape);
    double best_m = 0.0;
    for (const double share : {0.5, 0.25, 0.75, 0.125, 0.875, 0.375, 0.625}) {
        const double x = std::lerp(box.min_x, box.max_x, share);
        const double y = std::lerp(box.min_y, box.max_y, share);
        const Point a = wide ? Point{x, box.min_y} : Point{box.min_x, y};
        const Point b = wide ? Point{x, box.max_y} : Point{box.max_x, y};
        for (const Region::Span& span : region.inside_spans(a, b)) {
            if (span.to_m - span.from_m <= best_m) continue;
            best_m = span.to_m - span.from_m;
            best = lerp(a, b, (span.from_m + span.to_m) / 2.0 / distance_m(a, b));
        }
    }
    return best;
}

std::optional<Point> inscribed_center(const MultiPolygon& shape, double tolerance_m) {
    const GeosSession geos;
    const GeosShape raw = geos.shape(shape);
    if (!raw) return std::nullopt;
    const GeosShape radius =
        geos.own(GEOSMaximumInscribedCircle_r(geos.context(), raw.get(), tolerance_m));
    if (!radius) return std::nullopt;
    const GEOSCoordSequence* ends = GEOSGeom_getCoordSeq_r(geos.context(), radius.get());
    Point center;
    if (ends == nullptr || GEOSCoordSeq_getXY_r(geos.context(), ends, 0, &center.x, &center.y) == 0)
        return std::nullopt;
    return center;
}

}  // namespace

double ring_area_m2(const Ring& ring) {
    return ring.empty() ? 0.0 : moments(ring, ring.front()).area_m2;
}

double area_m2(const MultiPolygon& shape) {
    double sum = 0.0;
    for (const Polygon& polygon : shape) {
        sum += std::abs(ring_area_m2(polygon.outer));
        for (const Ring& hole : polygon.holes) sum -= std::abs(ring_area_m2(hole));
    }
    return sum;
}

Box box_of(const MultiPolygon& shape) {
    Box box;
    for (const Polygon& polygon : shape)
        for (const Point p : polygon.outer) box.add(p);
    return box;
}

bool contains(const MultiPolygon& shape, Point p) {
    bool odd = false;
    for (const Polygon& polygon : shape) {
        if (odd_crossings(polygon.outer, p)) odd = !odd;
        for (const Ring& hole : polygon.holes)
            if (odd_crossings(hole, p)) odd = !odd;
    }
    return odd;
}

Point centroid(const MultiPolygon& shape) {
    const Point origin = mean_vertex(shape);
    double area = 0.0;
    Point weighted;
    const auto add = [&](const Ring& ring, double sign) {
        const Moments part = moments(ring, origin);
        const double turn = part.area_m2 < 0.0 ? -sign : sign;
        area += turn * part.area_m2;
        weighted = weighted + part.weighted * turn;
    };
    for (const Polygon& polygon : shape) {
        add(polygon.outer, 1.0);
        for (const Ring& hole : polygon.holes) add(hole, -1.0);
    }
    return area > 0.0 ? origin + weighted * (1.0 / area) : origin;
}

MultiPolyline boundary_lines(const MultiPolygon& shape) {
    MultiPolyline lines;
    const auto add = [&](const Ring& ring) {
        if (ring.empty()) return;
        lines.push_back(ring);
        lines.back().push_back(ring.front());
    };
    for (const Polygon& polygon : shape) {
        add(polygon.outer);
        for (const Ring& hole : polygon.holes) add(hole);
    }
    return lines;
}

Point label_point(const MultiPolygon& shape) {
    require(area_m2(shape) > 0.0, "a label point needs a shape with an area");
    const Box box = box_of(shape);
    const double width = box.max_x - box.min_x;
    const double height = box.max_y - box.min_y;
    const double longer = std::max(width, height);
    if (std::min(width, height) > kThin_ratio * longer) {
        const auto center = inscribed_center(shape, 1e-3 * longer);
        if (center && contains(shape, *center)) return *center;
    }
    return widest_cut_middle(shape);
}

}  // namespace haylane
