#pragma once
// Builds the input of the line choice from a schedule and the load on the ground, and solves it.

#include "core/plan/choose_lines.h"
#include "core/plan/feed_schedule.h"
#include "core/plan/ground_loads.h"

#include <vector>

namespace haylane {

struct Placement {
    LineChoice choice;
    std::vector<std::vector<double>>
        haul_s;  // by feeding and candidate: time on the way, all loads
};

[[nodiscard]] Placement place_feedings(PlanContext& context, const FeedSchedule& schedule,
                                       const std::vector<PastureLoad>& loads,
                                       const PlanRequest& request);

}  // namespace haylane
