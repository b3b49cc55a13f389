#pragma once
// The whole job for some days: need, lots, lines, loads, hauls, and what it does to the ground.
// Same inputs and seed give the same plan for any number of threads.

#include "core/base/result.h"
#include "core/plan/place_feedings.h"
#include "core/plan/plan_request.h"
#include "core/plan/planned_feeding.h"
#include "core/ranch/check_ranch.h"

#include <map>
#include <memory>

namespace haylane {

// A finished plan with what it was made of, so that a line can be moved without planning anew.
// Points at the ranch it was made for, which must outlive it. Not for several threads.
struct KeptPlan {
    std::unique_ptr<PlanContext> context;
    FeedSchedule schedule;
    Placement placement;  // by feeding of the schedule, as the plan's feedings are
    PlanResult result;
    std::map<PastureId, Raster<double>> seen;  // see ground_seen

    // Made at the first call for a pasture, then kept.
    [[nodiscard]] GroundSeen ground_seen(PastureId pasture);
};

// Errors: "nothing_to_plan" (no herd, rig, yard or hay), those of feed_schedule, "cancelled".
[[nodiscard]] Result<KeptPlan> keep_plan(const CheckedRanch& checked, const PlanRequest& request);
// The plan alone.
[[nodiscard]] Result<PlanResult> plan_days(const CheckedRanch& checked, const PlanRequest& request);

}  // namespace haylane
