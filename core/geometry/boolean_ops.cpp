// Overlay is GEOS's OverlayNG. Two points of our own:
// Buffers. GEOS rounds the number of pieces of an arc to the nearest, so that a piece can be half
// again as long as asked for. Asking for 24 pieces a quarter circle keeps every piece within a
// sixteenth of it, and the radius divided by cos(pi/64) makes the flat middle of such a piece reach
// the exact circle. GEOS moves curve points by up to 1e-6 of the radius; kReach outweighs that.
// Clipping goes by Region, not by overlay: overlay neither keeps the order of pieces nor survives a
// line that crosses itself in one piece.
#include "core/geometry/boolean_ops.h"

#include "core/base/require.h"
#include "core/base/units.h"
#include "core/geometry/geos_session.h"
#include "core/geometry/region.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace haylane {

namespace {

constexpr int kPiecesAQuarter = 24;
constexpr double kReach = 1.0 + 4e-6;

bool is_finite(const Ring& ring) {
    return std::all_of(ring.begin(), ring.end(),
                       [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

bool is_finite(const MultiPolygon& shape) {
    return std::all_of(shape.begin(), shape.end(), [](const Polygon& polygon) {
        return is_finite(polygon.outer) &&
               std::all_of(polygon.holes.begin(), polygon.holes.end(),
                           [](const Ring& hole) { return is_finite(hole); });
    });
}

bool has_short_ring(const MultiPolygon& shape) {
    return std::any_of(shape.begin(), shape.end(), [](const Polygon& polygon) {
        return polygon.outer.size() < 3 ||
               std::any_of(polygon.holes.begin(), polygon.holes.end(),
                           [](const Ring& hole) { return hole.size() < 3; });
    });
}

double enlarged(double distance) { return distance * kReach / std::cos(units::kPi / 64.0); }

Result<MultiPolygon> buffered(const GeosSession& geos, const GeosShape& shape, double distance) {
    if (!shape) return fail(geos.error("making a shape"));
    const GeosShape result =
        geos.own(GEOSBuffer_r(geos.context(), shape.get(), distance, kPiecesAQuarter));
    if (!result) return fail(geos.error("buffering a shape"));
    return geos.polygons(result.get());
}

using Overlay = GEOSGeometry* (*)(GEOSContextHandle_t, const GEOSGeometry*, const GEOSGeometry*);

Result<MultiPolygon> overlaid(Overlay overlay, const char* doing, const MultiPolygon& a,
                              const MultiPolygon& b) {
    const GeosSession geos;
    const GeosShape first = geos.shape(a);
    const GeosShape second = geos.shape(b);
    if (!first || !second) return fail(geos.error("making a shape"));
    const GeosShape result = geos.own(overlay(geos.context(), first.get(), second.get()));
    if (!result) return fail(geos.error(doing));
    return geos.polygons(result.get());
}

GeosShape repaired(const GeosSession& geos, const GEOSGeometry* shape,
                   GEOSMakeValidMethods method) {
    const GEOSContextHandle_t context = geos.context();
    GEOSMakeValidParams* params = GEOSMakeValidParams_create_r(context);
    if (params == nullptr) return geos.own(nullptr);
    GEOSMakeValidParams_setMethod_r(context, params, method);
    GEOSMakeValidParams_setKeepCollapsed_r(context, params, 0);
    GeosShape result = geos.own(GEOSMakeValidWithParams_r(context, shape, params));
    GEOSMakeValidParams_destroy_r(context, params);
    return result;
}

// Area inside an odd number of rings: what the linework method keeps.
double even_odd_area_m2(const GeosSession& geos, const GEOSGeometry* shape) {
    const GeosShape odd = repaired(geos, shape, GEOS_MAKE_VALID_LINEWORK);
    double area = 0.0;
    if (odd) GEOSArea_r(geos.context(), odd.get(), &area);
    return area;
}

void add_point(Polyline& line, Point p) {
    if (line.empty() || line.back() != p) line.push_back(p);
}

}  // namespace

Result<Repaired> make_valid(const MultiPolygon& shape) {
    if (!is_finite(shape))
        return fail(Error{"coordinates_not_finite", "a corner of this shape is not a number", "",
                          "redraw the shape or correct its file"});
    const GeosSession geos;
    const GeosShape raw = geos.shape(shape);
    if (!raw) return fail(geos.error("making a shape"));
    const char valid = GEOSisValid_r(geos.context(), raw.get());
    if (valid == 1) {
        Result<MultiPolygon> same = geos.polygons(raw.get());
        if (!same) return fail(same.error());
        return Repaired{std::move(*same), has_short_ring(shape), 0.0};
    }
    const GeosShape mended = repaired(geos, raw.get(), GEOS_MAKE_VALID_STRUCTURE);
    if (!mended) return fail(geos.error("repairing a shape"));
    Result<MultiPolygon> result = geos.polygons(mended.get());
    if (!result) return fail(result.error());
    const double change = area_m2(*result) - even_odd_area_m2(geos, raw.get());
    return Repaired{std::move(*result), true, change};
}

Result<MultiPolygon> unite(const std::vector<MultiPolygon>& shapes) {
    MultiPolygon all;
    for (const MultiPolygon& shape : shapes) all.insert(all.end(), shape.begin(), shape.end());
    const GeosSession geos;
    const GeosShape raw = geos.shape(all);
    if (!raw) return fail(geos.error("making a shape"));
    const GeosShape result = geos.own(GEOSUnaryUnion_r(geos.context(), raw.get()));
    if (!result) return fail(geos.error("uniting shapes"));
    return geos.polygons(result.get());
}

Result<MultiPolygon> subtract(const MultiPolygon& from, const MultiPolygon& what) {
    return overlaid(GEOSDifference_r, "taking one shape off another", from, what);
}

Result<MultiPolygon> intersect(const MultiPolygon& a, const MultiPolygon& b) {
    return overlaid(GEOSIntersection_r, "intersecting shapes", a, b);
}

Result<MultiPolygon> buffer_shape(const MultiPolygon& shape, double distance) {
    require(distance > 0.0, "a buffer needs a distance above 0");
    const GeosSession geos;
    return buffered(geos, geos.shape(shape), enlarged(distance));
}

Result<MultiPolygon> buffer_line(const Polyline& line, double distance) {
    require(distance > 0.0, "a buffer needs a distance above 0");
    if (line.empty()) return MultiPolygon{};
    if (line.size() == 1) return buffer_point(line.front(), distance);
    const GeosSession geos;
    return buffered(geos, geos.line(line), enlarged(distance));
}

Result<MultiPolygon> buffer_point(Point p, double distance) {
    require(distance > 0.0, "a buffer needs a distance above 0");
    const GeosSession geos;
    return buffered(geos, geos.point(p), enlarged(distance));
}

Result<MultiPolygon> erode(const MultiPolygon& shape, double distance) {
    require(distance > 0.0, "erosion needs a distance above 0");
    const GeosSession geos;
    return buffered(geos, geos.shape(shape), -enlarged(distance));
}

Result<MultiPolyline> clip_line(const Polyline& line, const MultiPolygon& shape,
                                double min_length) {
    const Region region(shape);
    MultiPolyline pieces;
    Polyline piece;
    const auto finish = [&] {
        if (piece.size() > 1 && length_m(piece) >= min_length) pieces.push_back(piece);
        piece.clear();
    };
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const Point a = line[i];
        const Point b = line[i + 1];
        const double length = distance_m(a, b);
        if (length <= 0.0) continue;
        const auto spans = region.inside_spans(a, b);
        if (spans.empty() || spans.front().from_m > 0.0) finish();
        for (const Region::Span& span : spans) {
            if (span.from_m > 0.0) finish();
            add_point(piece, span.from_m > 0.0 ? lerp(a, b, span.from_m / length) : a);
            add_point(piece, span.to_m < length ? lerp(a, b, span.to_m / length) : b);
        }
        if (!spans.empty() && spans.back().to_m < length) finish();
    }
    finish();
    return pieces;
}

double distance_to_shape_m(Point p, const MultiPolygon& shape) {
    if (contains(shape, p)) return 0.0;
    double least = std::numeric_limits<double>::infinity();
    for (const Polyline& ring : boundary_lines(shape)) least = std::min(least, distance_m(p, ring));
    return least;
}

}  // namespace haylane
