#include "gis/vector/shape_from_ogr.h"

#include <cmath>
#include <optional>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr int kDeepest = 32;  // collections inside collections

struct Reader {
    const ToLonLat& door;
    ShapeRead out;
    std::optional<Error> error;

    std::optional<LonLat> place(double x, double y) {
        if (!std::isfinite(x) || !std::isfinite(y)) {
            error = Error{"coordinates_not_finite",
                          fmt::format("a coordinate is not a finite number ({}, {})", x, y), "",
                          "draw the feature again or remove it"};
            return std::nullopt;
        }
        const std::optional<LonLat> at = door.lonlat(x, y);
        if (at && on_earth(*at)) return at;
        const bool swapped = door.geographic() && std::abs(y) <= 180.0 && std::abs(x) <= 90.0;
        error = Error{
            "coordinates_out_of_range",
            fmt::format("the coordinate {}, {} is not a longitude and latitude on the earth", x, y),
            "",
            swapped ? "latitude and longitude look exchanged: longitude comes first in this format"
                    : "give the file its true coordinate system, or save it as WGS 84 degrees"};
        return std::nullopt;
    }

    LonLatLine line(const OGRSimpleCurve& curve) {
        LonLatLine points;
        for (int i = 0; i < curve.getNumPoints() && !error; ++i) {
            const auto at = place(curve.getX(i), curve.getY(i));
            if (at) points.push_back(*at);
        }
        return points;
    }

    void add_polygon(const OGRPolygon& polygon) {
        LonLatPolygon area;
        const int rings =
            polygon.getExteriorRing() == nullptr ? 0 : polygon.getNumInteriorRings() + 1;
        for (int i = 0; i < rings && !error; ++i) {
            const OGRLinearRing* ring =
                i == 0 ? polygon.getExteriorRing() : polygon.getInteriorRing(i - 1);
            LonLatLine points = line(*ring);
            if (points.size() > 1 && points.front() == points.back()) {
                points.pop_back();
            } else if (points.size() > 1) {
                out.ring_left_open = true;
            }
            if (points.size() < 3) {
                ++out.parts_left_out;
                if (i == 0) return;
                continue;
            }
            area.rings.push_back(std::move(points));
        }
        if (!area.rings.empty()) out.shape.polygons.push_back(std::move(area));
    }

    // NOLINTNEXTLINE(misc-no-recursion): collections nest; depth is limited.
    void add(const OGRGeometry& geometry, int depth) {
        if (error || geometry.IsEmpty()) return;
        switch (wkbFlatten(geometry.getGeometryType())) {
            case wkbPoint: {
                const auto* point = geometry.toPoint();
                const auto at = place(point->getX(), point->getY());
                if (at) out.shape.points.push_back(*at);
                return;
            }
            case wkbLineString: {
                LonLatLine points = line(*geometry.toSimpleCurve());
                if (points.size() > 1) {
                    out.shape.lines.push_back(std::move(points));
                } else {
                    ++out.parts_left_out;
                }
                return;
            }
            case wkbPolygon:
                add_polygon(*geometry.toPolygon());
                return;
            case wkbMultiPoint:
            case wkbMultiLineString:
            case wkbMultiPolygon:
            case wkbGeometryCollection: {
                const auto* parts = geometry.toGeometryCollection();
                for (int i = 0; i < parts->getNumGeometries() && depth < kDeepest; ++i) {
                    add(*parts->getGeometryRef(i), depth + 1);
                }
                return;
            }
            default:
                ++out.parts_left_out;
        }
    }
};

}  // namespace

Result<ShapeRead> shape_from_ogr(const OGRGeometry& geometry, const ToLonLat& door) {
    Reader reader{door, {}, std::nullopt};
    if (geometry.hasCurveGeometry() != 0) {
        const std::unique_ptr<OGRGeometry> straight(geometry.getLinearGeometry());
        if (straight) reader.add(*straight, 0);
    } else {
        reader.add(geometry, 0);
    }
    if (reader.error) return fail(*reader.error);
    return reader.out;
}

}  // namespace haylane
