#pragma once
// How hard storm and sacrifice ground is used: days this season on which a feeding's sacrifice
// pasture, or the lee it lies in, was fed on.

#include "core/plan/feed_schedule.h"
#include "core/plan/plan_context.h"

#include <optional>
#include <vector>

namespace haylane {

// On record and in the plan, up to the feeding's own days; nullopt for other ground. Feedings count
// where at least half of them lies in the same lee. `earlier` are planned feedings before it.
[[nodiscard]] std::optional<int> days_on_storm_ground(PlanContext& context,
                                                      const ScheduledFeeding& feeding,
                                                      const std::vector<PlannedFeeding>& earlier);

}  // namespace haylane
