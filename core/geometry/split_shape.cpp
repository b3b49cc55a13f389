// The boundary and the line, noded by union, are polygonised (GEOS); a face belongs to the area
// when a point inside it does.
#include "core/geometry/split_shape.h"

#include "core/geometry/boolean_ops.h"
#include "core/geometry/geos_session.h"

#include <algorithm>

namespace haylane {

namespace {

constexpr double kLeastPart_m2 = 1.0;  // smaller faces are slips of the hand

constexpr double kReach_m = 1.0;

// Both ends go on a little, so that a line drawn to the fence crosses it.
Polyline reaching(Polyline line) {
    const auto beyond = [](Point from, Point to) {
        const double length = distance_m(from, to);
        return length > 0.0 ? to + (to - from) * (kReach_m / length) : to;
    };
    const Point start = beyond(line[1], line[0]);
    const Point end = beyond(line[line.size() - 2], line.back());
    line.front() = start;
    line.back() = end;
    return line;
}

Result<MultiPolygon> faces_of(const MultiPolygon& shape, const Polyline& line) {
    const GeosSession geos;
    const GeosShape area = geos.shape(shape);
    const GeosShape cut = geos.line(line);
    if (!area || !cut) return fail(geos.error("making a shape"));
    const GeosShape fence = geos.own(GEOSBoundary_r(geos.context(), area.get()));
    if (!fence) return fail(geos.error("taking a boundary"));
    const GeosShape noded = geos.own(GEOSUnion_r(geos.context(), fence.get(), cut.get()));
    if (!noded) return fail(geos.error("crossing the lines"));
    const GEOSGeometry* const all[] = {noded.get()};
    const GeosShape faces = geos.own(GEOSPolygonize_r(geos.context(), all, 1));
    if (!faces) return fail(geos.error("finding the parts"));
    return geos.polygons(faces.get());
}

Result<bool> lies_in(const Polygon& face, const MultiPolygon& shape) {
    const GeosSession geos;
    const GeosShape one = geos.shape({face});
    if (!one) return fail(geos.error("making a shape"));
    const GeosShape inside = geos.own(GEOSPointOnSurface_r(geos.context(), one.get()));
    double x = 0.0;
    double y = 0.0;
    if (!inside || GEOSGeomGetX_r(geos.context(), inside.get(), &x) != 1 ||
        GEOSGeomGetY_r(geos.context(), inside.get(), &y) != 1)
        return fail(geos.error("finding a point inside"));
    return contains(shape, Point{x, y});
}

}  // namespace

Result<std::vector<MultiPolygon>> split_shape(const MultiPolygon& shape, const Polyline& line) {
    const Error not_cut{"not_cut", "The line does not go from fence to fence.", "",
                        "Begin and end it outside the pasture, or on its fence."};
    if (line.size() < 2) return fail(not_cut);
    const auto faces = faces_of(shape, reaching(line));
    if (!faces) return fail(faces.error());
    std::vector<MultiPolygon> parts;
    for (const Polygon& face : *faces) {
        const auto inside = lies_in(face, shape);
        if (!inside) return fail(inside.error());
        if (*inside && area_m2({face}) >= kLeastPart_m2) parts.push_back({face});
    }
    if (parts.size() <= shape.size()) return fail(not_cut);
    std::sort(parts.begin(), parts.end(),
              [](const MultiPolygon& a, const MultiPolygon& b) { return area_m2(a) > area_m2(b); });
    return parts;
}

Result<MultiPolygon> join_shapes(const std::vector<MultiPolygon>& shapes) {
    auto joined = unite(shapes);
    if (!joined) return fail(joined.error());
    if (joined->size() == 1) return joined;
    return fail({"not_touching", "These share no stretch of fence.", "",
                 "Drag the corners of one onto those of the other first."});
}

}  // namespace haylane
