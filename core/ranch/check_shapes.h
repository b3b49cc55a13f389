#pragma once
// Geometry of a raw row as the kind that its role needs; what does not fit becomes a problem. For
// check_*.cpp only.

#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"
#include "core/ranch/check_support.h"

#include <optional>
#include <string>

namespace haylane {

// A valid area. Repairs invalid shapes with a problem; anything without area makes the row
// unusable.
[[nodiscard]] std::optional<MultiPolygon> area_shape(RowReader& reader, const Checking& checking);
// One place: a point, the first of several, the middle of a line or the centre of an area (the last
// three with a problem). No shape makes the row unusable.
[[nodiscard]] std::optional<Point> point_shape(RowReader& reader);
// Lines of at least two points; an area gives its outline with a problem. Else unusable.
[[nodiscard]] std::optional<MultiPolyline> line_shape(RowReader& reader);

// Area, lines and points of a row that may be any of them; exactly one is filled. No shape makes
// the row unusable.
struct AnyShape {
    MultiPolygon area;
    MultiPolyline lines;
    std::vector<Point> points;
};
[[nodiscard]] std::optional<AnyShape> any_shape(RowReader& reader, const Checking& checking);

// The item's own name, or "gate 3" with a problem when it has none.
[[nodiscard]] std::string name_or_number(RowReader& reader, std::string_view what,
                                         std::size_t number);
// `name`, or "name (2)" with a problem when `taken` holds it already.
[[nodiscard]] std::string free_name(std::string name, const std::vector<std::string>& taken,
                                    RowReader& reader);

}  // namespace haylane
