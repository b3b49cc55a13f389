#pragma once
// Why a feeding's lines lie where they do, in sentences a rancher would say.

#include "core/plan/ground_so_far.h"
#include "core/plan/place_feedings.h"
#include "core/plan/plan.h"
#include "core/plan/plan_context.h"

#include <string>

namespace haylane {

// The main reason for the place or the heading: the user's hand, out of the wind, clean for calves,
// along the wind, the contour or the fence, the slope, the long way of the field, beside the last
// line; else how the ground ends up. One or two sentences. `lines` has at least one line.
[[nodiscard]] std::string place_reason(PlanContext& context, const ScheduledFeeding& feeding,
                                       const PlacedLines& placed);
// The reason, then what the ground has had so far, the way, and the rancher's own count if any.
[[nodiscard]] std::string why(PlanContext& context, const ScheduledFeeding& feeding,
                              const PlacedLines& placed, const GroundSoFar& so_far);

}  // namespace haylane
