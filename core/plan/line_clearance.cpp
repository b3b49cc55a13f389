#include "core/plan/line_clearance.h"

namespace haylane {

Clearance clearance(const Polyline& a, const Polyline& b, double spacing_m, Clearance bad_enough) {
    // A hair of slack, so that lines laid exactly one spacing apart are clear.
    const double slack = 1e-9 * spacing_m;
    const double touching_m = 0.5 * spacing_m - slack;
    const double clear_m = spacing_m - slack;
    const double enough_m = bad_enough == Clearance::touching ? touching_m : clear_m;
    const double away = distance_m(a, b, spacing_m, enough_m);
    if (away >= clear_m) return Clearance::clear;
    return away >= touching_m ? Clearance::near : Clearance::touching;
}

}  // namespace haylane
