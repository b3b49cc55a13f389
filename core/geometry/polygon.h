#pragma once
// Areas with holes as plain values. Rings are closed implicitly (first point not repeated), outer
// rings run counter-clockwise, holes clockwise, once they have been through make_valid.

#include "core/geometry/point.h"
#include "core/geometry/polyline.h"

#include <vector>

namespace haylane {

using Ring = std::vector<Point>;

struct Polygon {
    Ring outer;
    std::vector<Ring> holes;
};

using MultiPolygon = std::vector<Polygon>;

// Planar area; holes taken off. 0 for an empty shape.
[[nodiscard]] double area_m2(const MultiPolygon& shape);
[[nodiscard]] double ring_area_m2(const Ring& ring);  // signed: positive counter-clockwise
[[nodiscard]] Box box_of(const MultiPolygon& shape);
// Even-odd test over all rings; a point exactly on an edge may go either way. Linear in vertices.
[[nodiscard]] bool contains(const MultiPolygon& shape, Point p);
// Area-weighted centre; the mean vertex for shapes without area.
[[nodiscard]] Point centroid(const MultiPolygon& shape);
// Every ring as a closed line (first point repeated at the end).
[[nodiscard]] MultiPolyline boundary_lines(const MultiPolygon& shape);
// A point well inside the shape: the centre of a large inscribed circle. nullopt-free: shape must
// have an area.
[[nodiscard]] Point label_point(const MultiPolygon& shape);

}  // namespace haylane
