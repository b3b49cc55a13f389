// Plane kinematics of a one-axle trailer, hitched at the tractor's rear axle (a hitch behind it
// would run less far inside): R_t^2 = R^2 - L^2 in a steady turn, with R_t the turning radius.
#include "core/ranch/rig_turning.h"

#include "core/geometry/turn_path.h"

#include <cmath>

namespace haylane {

double driven_radius_m(const Rig& rig) { return std::hypot(rig.turn_radius_m, rig.hitch_m); }

double off_tracking_m(const Rig& rig) {
    const double radius = driven_radius_m(rig);
    return radius - trailer_radius_m(radius, 0.0, rig.hitch_m).value_or(0.0);
}

}  // namespace haylane
