#pragma once
// Herds that are fed in ring feeders: their bales are set whole at places, no line is laid.

#include "core/ranch/ranch.h"

namespace haylane {

[[nodiscard]] inline bool is_fed_in_rings(const Ranch& ranch, HerdId herd) {
    return ranch[herd].fed_in == FedIn::ring;
}

// Share of the hay offered that is left on the ground: the ring's, or the rig's.
[[nodiscard]] inline double waste_ratio_of(const Ranch& ranch, HerdId herd, RigId rig) {
    return is_fed_in_rings(ranch, herd) ? ranch.settings.waste_ring_ratio : ranch[rig].waste_ratio;
}

}  // namespace haylane
