#pragma once
// Private to core/geometry: the one door to GEOS. A GeosSession owns a reentrant context; make one
// in the function that needs it and never hand it to another thread. GEOS text is kept per session
// and comes out in an Error. Shapes cross the door as values. Frame: ranch frame, metres.

#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"

#include <memory>
#include <string>
#include <vector>

#include <geos_c.h>

namespace haylane {

struct GeosDeleter {
    GEOSContextHandle_t context = nullptr;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
};
using GeosShape = std::unique_ptr<GEOSGeometry, GeosDeleter>;

class GeosSession {
  public:
    GeosSession();
    ~GeosSession();
    GeosSession(const GeosSession&) = delete;
    GeosSession& operator=(const GeosSession&) = delete;
    GeosSession(GeosSession&&) = delete;
    GeosSession& operator=(GeosSession&&) = delete;

    [[nodiscard]] GEOSContextHandle_t context() const { return context_; }
    // Takes over a geometry that GEOS returned; null stays null.
    [[nodiscard]] GeosShape own(GEOSGeometry* geometry) const;
    // The failure of the last call, as "`doing` failed" with what GEOS said.
    [[nodiscard]] Error error(const std::string& doing) const;

    // All polygons in one multipolygon, valid or not; rings of fewer than three points are left
    // out. Null on failure.
    [[nodiscard]] GeosShape shape(const MultiPolygon& polygons) const;
    // Null for fewer than two points.
    [[nodiscard]] GeosShape line(const Polyline& points) const;
    [[nodiscard]] GeosShape point(Point p) const;
    // The polygons anywhere in a geometry: outer rings counter-clockwise, holes clockwise, no
    // repeated points, nothing without area.
    [[nodiscard]] Result<MultiPolygon> polygons(const GEOSGeometry* geometry) const;

  private:
    [[nodiscard]] GeosShape ring(const Ring& points) const;
    [[nodiscard]] GeosShape polygon(const Polygon& polygon) const;
    [[nodiscard]] Result<Ring> points_of(const GEOSGeometry* ring) const;
    [[nodiscard]] Result<Polygon> one_polygon(const GEOSGeometry* geometry) const;

    GEOSContextHandle_t context_;
    std::string message_;  // what GEOS said last
};

}  // namespace haylane
