#pragma once
// A GDAL geometry as a LonLatShape: heights dropped, curves made lines, rings opened, coordinates
// through the layer's transformation. Polygon rings of fewer than 3 points and lines of fewer than
// 2 are left out and counted. Errors name what is wrong with the first bad coordinate.

#include "core/base/result.h"
#include "gis/crs/to_lonlat.h"
#include "gis/vector/layer.h"

#include <ogr_geometry.h>

namespace haylane {

struct ShapeRead {
    LonLatShape shape;
    int parts_left_out = 0;
    bool ring_left_open = false;  // a ring of the file did not end where it began
};

// Error codes: coordinates_not_finite, coordinates_out_of_range; `where` is left to the caller.
[[nodiscard]] Result<ShapeRead> shape_from_ogr(const OGRGeometry& geometry, const ToLonLat& door);

}  // namespace haylane
