#pragma once
// Union, difference, intersection, repair, buffers and clipping by GEOS. Inputs must be valid
// shapes (see make_valid) or lines; an empty shape is a legal value everywhere. Results are valid
// MultiPolygons; slivers of no area are dropped. Cost: GEOS overlay, O(n log n) for usual maps.

#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"

#include <vector>

namespace haylane {

// A shape repaired (GEOSMakeValidWithParams, structure method, polygons kept) and what it cost.
struct Repaired {
    MultiPolygon shape;
    bool changed = false;         // the input was invalid
    double area_change_m2 = 0.0;  // after minus before (even-odd area of the input)
};
[[nodiscard]] Result<Repaired> make_valid(const MultiPolygon& shape);

[[nodiscard]] Result<MultiPolygon> unite(const std::vector<MultiPolygon>& shapes);
[[nodiscard]] Result<MultiPolygon> subtract(const MultiPolygon& from, const MultiPolygon& what);
[[nodiscard]] Result<MultiPolygon> intersect(const MultiPolygon& a, const MultiPolygon& b);

// Round buffers that contain the exact one: the radius is enlarged by 1/cos(pi/(4 n)) for
// n = 16 segments a quarter circle. distance > 0.
[[nodiscard]] Result<MultiPolygon> buffer_shape(const MultiPolygon& shape, double distance);
[[nodiscard]] Result<MultiPolygon> buffer_line(const Polyline& line, double distance);
[[nodiscard]] Result<MultiPolygon> buffer_point(Point p, double distance);
// Shrinks inwards by at least `distance` (the exact erosion contains the result).
[[nodiscard]] Result<MultiPolygon> erode(const MultiPolygon& shape, double distance);

// Pieces of the line inside the shape, each at least `min_length` long, in the line's direction and
// order.
[[nodiscard]] Result<MultiPolyline> clip_line(const Polyline& line, const MultiPolygon& shape,
                                              double min_length = 0.0);
// Least distance from the shape's boundary or inside (0 when p lies inside).
[[nodiscard]] double distance_to_shape_m(Point p, const MultiPolygon& shape);

}  // namespace haylane
