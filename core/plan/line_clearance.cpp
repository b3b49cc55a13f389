#include "core/plan/line_clearance.h"

namespace haylane {

Clearance clearance(const Polyline& a, const Polyline& b, double spacing_m) {
    // A hair of slack, so that lines laid exactly one spacing apart are clear.
    const double slack = 1e-9 * spacing_m;
    const double touching_m = 0.5 * spacing_m - slack;
    const double away = distance_m(a, b, spacing_m, touching_m);
    if (away >= spacing_m - slack) return Clearance::clear;
    return away >= touching_m ? Clearance::near : Clearance::touching;
}

}  // namespace haylane
