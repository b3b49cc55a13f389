#include "core/geometry/simplify.h"

#include "core/geometry/geos_session.h"

namespace haylane {

Result<Polyline> simplified(const Polyline& line, double tolerance_m) {
    if (line.size() < 3) return line;
    const GeosSession geos;
    const GeosShape whole = geos.line(line);
    if (!whole) return fail(geos.error("simplifying a line"));
    const GeosShape thin = geos.own(GEOSSimplify_r(geos.context(), whole.get(), tolerance_m));
    if (!thin) return fail(geos.error("simplifying a line"));
    const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(geos.context(), thin.get());
    unsigned count = 0;
    if (points == nullptr || GEOSCoordSeq_getSize_r(geos.context(), points, &count) == 0)
        return fail(geos.error("simplifying a line"));
    Polyline out(count);
    for (unsigned i = 0; i < count; ++i)
        if (GEOSCoordSeq_getXY_r(geos.context(), points, i, &out[i].x, &out[i].y) == 0)
            return fail(geos.error("simplifying a line"));
    return out;
}

}  // namespace haylane
