// A session is made per operation: GEOS_init_r costs well under a microsecond beside an overlay,
// and so no context can be seen by two threads, with no thread-local state to look after.
#include "core/geometry/geos_session.h"

#include "core/base/require.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace haylane {

namespace {

constexpr double kLeastArea_m2 = 1e-9;  // below this a ring counts as having no area

void keep_message(const char* message, void* where) {
    static_cast<std::string*>(where)->assign(message);
}

std::vector<double> flat(const std::vector<Point>& points, bool close) {
    std::vector<double> numbers;
    numbers.reserve(2 * points.size() + 2);
    for (const Point p : points) {
        numbers.push_back(p.x);
        numbers.push_back(p.y);
    }
    if (close && points.front() != points.back()) {
        numbers.push_back(points.front().x);
        numbers.push_back(points.front().y);
    }
    return numbers;
}

GEOSCoordSequence* sequence(GEOSContextHandle_t context, const std::vector<double>& numbers) {
    return GEOSCoordSeq_copyFromBuffer_r(context, numbers.data(),
                                         static_cast<unsigned>(numbers.size() / 2), 0, 0);
}

void orient(Ring& ring, bool counter_clockwise) {
    if ((ring_area_m2(ring) > 0.0) != counter_clockwise) std::reverse(ring.begin(), ring.end());
}

// Hands owned members to a GEOS constructor that takes them over.
std::vector<GEOSGeometry*> released(std::vector<GeosShape>& shapes) {
    std::vector<GEOSGeometry*> raw;
    raw.reserve(shapes.size());
    for (GeosShape& shape : shapes) raw.push_back(shape.release());
    return raw;
}

}  // namespace

GeosSession::GeosSession() : context_(GEOS_init_r()) {
    require(context_ != nullptr, "GEOS gives no context");
    GEOSContext_setErrorMessageHandler_r(context_, keep_message, &message_);
}

GeosSession::~GeosSession() { GEOS_finish_r(context_); }

GeosShape GeosSession::own(GEOSGeometry* geometry) const { return {geometry, {context_}}; }

Error GeosSession::error(const std::string& doing) const {
    return Error{"geometry_failed", doing + " failed: " + message_, "",
                 "check this shape for crossing edges and repair or redraw it"};
}

GeosShape GeosSession::ring(const Ring& points) const {
    if (points.size() < 3) return own(nullptr);
    GEOSCoordSequence* numbers = sequence(context_, flat(points, true));
    return own(numbers == nullptr ? nullptr : GEOSGeom_createLinearRing_r(context_, numbers));
}

GeosShape GeosSession::polygon(const Polygon& polygon) const {
    GeosShape outer = ring(polygon.outer);
    if (!outer) return outer;
    std::vector<GeosShape> holes;
    for (const Ring& hole : polygon.holes) {
        if (hole.size() < 3) continue;
        holes.push_back(ring(hole));
        if (!holes.back()) return own(nullptr);
    }
    std::vector<GEOSGeometry*> raw = released(holes);
    return own(GEOSGeom_createPolygon_r(context_, outer.release(), raw.data(),
                                        static_cast<unsigned>(raw.size())));
}

GeosShape GeosSession::shape(const MultiPolygon& polygons) const {
    std::vector<GeosShape> parts;
    for (const Polygon& one : polygons) {
        if (one.outer.size() < 3) continue;
        parts.push_back(polygon(one));
        if (!parts.back()) return own(nullptr);
    }
    std::vector<GEOSGeometry*> raw = released(parts);
    return own(GEOSGeom_createCollection_r(context_, GEOS_MULTIPOLYGON, raw.data(),
                                           static_cast<unsigned>(raw.size())));
}

GeosShape GeosSession::line(const Polyline& points) const {
    if (points.size() < 2) return own(nullptr);
    GEOSCoordSequence* numbers = sequence(context_, flat(points, false));
    return own(numbers == nullptr ? nullptr : GEOSGeom_createLineString_r(context_, numbers));
}

GeosShape GeosSession::point(Point p) const {
    return own(GEOSGeom_createPointFromXY_r(context_, p.x, p.y));
}

Result<Ring> GeosSession::points_of(const GEOSGeometry* ring) const {
    const GEOSCoordSequence* numbers = GEOSGeom_getCoordSeq_r(context_, ring);
    unsigned count = 0;
    if (numbers == nullptr || GEOSCoordSeq_getSize_r(context_, numbers, &count) == 0)
        return fail(error("reading a ring"));
    std::vector<double> flat_points(std::size_t{2} * count);
    if (GEOSCoordSeq_copyToBuffer_r(context_, numbers, flat_points.data(), 0, 0) == 0)
        return fail(error("reading a ring"));
    Ring points;
    for (std::size_t i = 0; i < count; ++i) {
        const Point p{flat_points[2 * i], flat_points[2 * i + 1]};
        if (points.empty() || points.back() != p) points.push_back(p);
    }
    if (points.size() > 1 && points.front() == points.back()) points.pop_back();
    return points;
}

Result<Polygon> GeosSession::one_polygon(const GEOSGeometry* geometry) const {
    Result<Ring> outer = points_of(GEOSGetExteriorRing_r(context_, geometry));
    if (!outer) return fail(outer.error());
    orient(*outer, true);
    Polygon polygon{std::move(*outer), {}};
    const int holes = GEOSGetNumInteriorRings_r(context_, geometry);
    for (int i = 0; i < holes; ++i) {
        Result<Ring> hole = points_of(GEOSGetInteriorRingN_r(context_, geometry, i));
        if (!hole) return fail(hole.error());
        if (std::abs(ring_area_m2(*hole)) < kLeastArea_m2) continue;
        orient(*hole, false);
        polygon.holes.push_back(std::move(*hole));
    }
    return polygon;
}

Result<MultiPolygon> GeosSession::polygons(const GEOSGeometry* geometry) const {
    MultiPolygon all;
    if (GEOSisEmpty_r(context_, geometry) != 0) return all;
    const int type = GEOSGeomTypeId_r(context_, geometry);
    if (type == GEOS_POLYGON) {
        Result<Polygon> one = one_polygon(geometry);
        if (!one) return fail(one.error());
        if (ring_area_m2(one->outer) >= kLeastArea_m2) all.push_back(std::move(*one));
        return all;
    }
    if (type != GEOS_MULTIPOLYGON && type != GEOS_GEOMETRYCOLLECTION) return all;
    const int parts = GEOSGetNumGeometries_r(context_, geometry);
    for (int i = 0; i < parts; ++i) {
        Result<MultiPolygon> inner = polygons(GEOSGetGeometryN_r(context_, geometry, i));
        if (!inner) return inner;
        std::move(inner->begin(), inner->end(), std::back_inserter(all));
    }
    return all;
}

}  // namespace haylane
