#pragma once
// The whole job for some days: need, lots, lines, loads, hauls, and what it does to the ground.
// Same inputs and seed give the same plan for any number of threads.

#include "core/base/result.h"
#include "core/plan/plan_request.h"
#include "core/ranch/check_ranch.h"

namespace haylane {

// Errors: "nothing_to_plan" (no herd, rig, yard or hay), those of feed_schedule, "cancelled".
[[nodiscard]] Result<PlanResult> plan_days(const CheckedRanch& checked, const PlanRequest& request);

}  // namespace haylane
