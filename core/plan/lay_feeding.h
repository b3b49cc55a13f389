#pragma once
// Finds the lines that a scheduled feeding may choose among: every one that can be reached, or
// those clearly different from what the user has seen.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan_context.h"

namespace haylane {

// Fills lay rate, candidates (at least one) and by_hand of a feeding whose loads are settled;
// thinnest: only at the rig's least lay rate.
// Errors: "no_line" (the rule is named), "no_other_line", "geometry_failed".
[[nodiscard]] Result<ScheduledFeeding> lay_feeding(PlanContext& context, ScheduledFeeding feeding,
                                                   bool thinnest = false);

}  // namespace haylane
