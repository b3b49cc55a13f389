#pragma once
// Builds the input of the line choice from a schedule and the load on the ground, and solves it.

#include "core/plan/choose_lines.h"
#include "core/plan/feed_schedule.h"
#include "core/plan/ground_loads.h"

#include <vector>

namespace haylane {

// By feeding of the schedule. Haul counts as time on the way.
[[nodiscard]] LineChoice place_feedings(const Ranch& ranch, const FeedSchedule& schedule,
                                        const std::vector<PastureLoad>& loads,
                                        const PlanRequest& request);

}  // namespace haylane
