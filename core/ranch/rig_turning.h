#pragma once
// How tightly a rig drives with what it pulls, and how far that cuts inside its turns. Metres.

#include "core/ranch/ranch.h"

namespace haylane {

// Least radius of the tractor's path on which the axle it pulls turns no tighter than the rig's own
// turning radius: such a turn never jack-knifes.
[[nodiscard]] double driven_radius_m(const Rig& rig);
// How far inside the tractor's path the pulled axle runs in a steady turn of that radius, the most
// it ever does; 0 for a machine carried on the tractor (hitch_m 0).
[[nodiscard]] double off_tracking_m(const Rig& rig);

}  // namespace haylane
