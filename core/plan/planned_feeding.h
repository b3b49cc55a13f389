#pragma once
// A scheduled feeding with its lines as it stands in the plan: loads with their ways, what it
// leaves, where to start, what the ground has had, cautions and why.

#include "core/plan/haul_loads.h"
#include "core/plan/place_feedings.h"

namespace haylane {

// The pasture it lies in, and the bales of past feedings there as seen through the window.
struct GroundSeen {
    const PastureGround* ground = nullptr;
    const Raster<double>* bales = nullptr;
};

// `work`: what was done that day before it; its own is added. `firm` is left to the caller.
// Errors: geometry_failed.
[[nodiscard]] Result<PlannedFeeding> planned_feeding(PlanContext& context,
                                                     const ScheduledFeeding& feeding,
                                                     const PlacedLines& placed,
                                                     const GroundSeen& seen, DaysWork& work);

}  // namespace haylane
